#include "gauge/line_as_hung.h"

#include <algorithm>
#include <cmath>
#include <numeric>
#include <utility>

#include "base/input_error.h"
#include "statics/length_rounds.h"
#include "statics/loop_geometry.h"
#include "statics/plan.h"
#include "statics/rings.h"

namespace spanloom {
namespace {

// Between tapes in proportion; within the end bays past the hardware.
double coordinate_at(const Rig& rig, const Rigged& rigged, const std::vector<Vec3>& tapes, double at) {
  std::vector<double> s = rigged.tape_s, x;
  s.insert(s.begin(), 0.0);
  s.push_back(main_webbing_length(rig, rigged));
  for (const Vec3& tape : tapes) x.push_back(tape.x);
  x.front() += rig.main.run.near_hardware.length;
  x.back() -= rig.main.run.far_hardware.length;
  for (std::size_t k = 0; k + 1 < x.size(); ++k) {
    if (at > x[k + 1] && k + 2 < x.size()) continue;
    return s[k] + std::clamp((at - x[k]) / (x[k + 1] - x[k]), 0.0, 1.0) * (s[k + 1] - s[k]);
  }
  return s.back();
}

std::optional<Equilibrium> at_tension(const Rig& rig, double tension, Mesh& mesh) {
  constexpr int kMostTries = 12;
  constexpr double kNear = 1e-6;  // relative
  const Mesh as_cut = mesh;
  double asked = tension;
  for (int i = 0; i < kMostTries; ++i) {
    std::optional<Equilibrium> found = find_lengths({asked, LoopLength{{1.0}}, true}, mesh);
    if (!found || !found->certified() || rig.backup.joint == Joint::taped) return found;
    SlidRings slid = slide_rings(mesh, mesh.line, *found);
    if (!slid.rest.certified()) return std::nullopt;
    const double got = norm(slid.rest.near_force.front());
    if (std::abs(got - tension) <= kNear * tension) {
      mesh.line = std::move(slid.line);
      return std::move(slid.rest);
    }
    asked += tension - got;
    mesh = as_cut;
  }
  return std::nullopt;
}

}  // namespace

MeshOptions mesh_for_readings() {
  MeshOptions options;
  options.longest_main_bar = 0.25;
  options.longest_loop_bar = 0.30;
  return options;
}

MeshOptions mesh_of_a_plan() {
  const PlanOptions plan;
  return {plan.main_bars, plan.loop_bars};
}

std::vector<double> HungLine::drops() const {
  const Shape shape = EquilibriumSolver(mesh.line).shape(standing);
  std::vector<double> drops;
  for (std::size_t bay = 0; bay < shape.main.size(); ++bay) drops.push_back(loop_drop(shape.main[bay], shape.loop[bay]));
  return drops;
}

std::vector<double> HungLine::loop_lengths() const {
  std::vector<double> lengths;
  for (std::size_t bay = 0; bay < mesh.line.bays(); ++bay) {
    const ChainRange loop = mesh.line.loop_chain(bay);
    const auto first = mesh.line.length.begin() + std::ptrdiff_t(loop.first);
    lengths.push_back(std::accumulate(first, first + std::ptrdiff_t(loop.count), 0.0));
  }
  return lengths;
}

std::size_t HungLine::node_of(std::size_t asked) const {
  const NodeAt at = mesh.asked[asked];
  std::size_t node = at.bar;
  for (std::size_t bay = 0; bay < at.bay; ++bay) node += mesh.line.main_chain(bay).count;
  return std::clamp<std::size_t>(node, 1, line.main_nodes - 2);
}

StretchCurve stretched_more(const StretchCurve& curve, double factor) {
  if (!(factor > 0.0)) throw InputError("stretch", "a factor that is not positive", "one above 0");
  if (curve.constant_stiffness() > 0.0) return StretchCurve::linear(curve.constant_stiffness() / factor);
  std::vector<CurvePoint> points = curve.points();
  for (CurvePoint& point : points) point.stretch *= factor;
  return StretchCurve::from_points(std::move(points));
}

Rig with_state(const Rig& rig, const HungState& state) {
  Rig hung = rig;
  hung.site.gap = state.gap;
  for (Webbing& webbing : hung.webbings) {
    webbing.mass_per_length *= state.mass_factor;
    webbing.curve = stretched_more(webbing.curve, state.stretch_factor);
  }
  return hung;
}

LineHanger::LineHanger(const Rig& rig, Rigged rigged, std::vector<double> places, const std::vector<Vec3>& planned_tapes)
    : rig_(rig), rigged_(std::move(rigged)) {
  for (const double at : places) places_s_.push_back(coordinate_at(rig_, rigged_, planned_tapes, at));
}

void LineHanger::set_loops(std::vector<double> lengths) {
  const auto sum = [](const std::vector<double>& of) { return std::accumulate(of.begin(), of.end(), 0.0); };
  rigged_.backup_segment_length.back() += sum(lengths) - sum(rigged_.loop_length);
  rigged_.loop_length = std::move(lengths);
}

std::optional<HungLine> LineHanger::hang(const HungState& state, const MeshOptions& mesh) const {
  const Rig rig = with_state(rig_, state);
  HungLine hung;
  hung.mesh = cut_line(rig, rigged_, mesh, places_s_);
  const auto main_natural = [&] {
    double sum = 0.0;
    for (std::size_t bay = 0; bay < hung.mesh.line.bays(); ++bay) {
      const ChainRange main = hung.mesh.line.main_chain(bay);
      for (std::size_t i = 0; i < main.count; ++i) sum += hung.mesh.line.length[main.first + i];
    }
    return sum;
  };
  std::optional<Equilibrium> standing = at_tension(rig, state.tension, hung.mesh);
  if (!standing || !standing->certified()) return std::nullopt;
  hung.standing = std::move(*standing);
  hung.main_length = main_natural() - rig.main.run.near_hardware.length - rig.main.run.far_hardware.length;
  hung.line = motion_line(hung.mesh, rig, hung.standing, Facing::as_taped);
  hung.rest = node_places(hung.line, EquilibriumSolver(hung.mesh.line).shape(hung.standing));
  hung.far_anchor = hung.mesh.line.ends.main_far;
  return hung;
}

}  // namespace spanloom
