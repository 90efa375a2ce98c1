#include "spacing/layout_judge.h"

#include <algorithm>
#include <cmath>
#include <numeric>

#include "base/constants.h"
#include "base/input_error.h"
#include "motion/motion_line.h"
#include "statics/length_rounds.h"
#include "statics/loop_geometry.h"

namespace spanloom {
namespace {

constexpr double kLeastDropLeft = 1e-3;   // [m]

MeshOptions mesh_of(const JudgeOptions& options) {
  MeshOptions mesh;
  mesh.main_bars = options.main_bars;
  mesh.loop_bars = options.loop_bars;
  return mesh;
}

}  // namespace

std::vector<double> loop_lengths_of(const Line& line) {
  std::vector<double> loops;
  for (std::size_t k = 0; k < line.bays(); ++k) {
    const auto first = line.length.begin() + std::ptrdiff_t(line.loop_chain(k).first);
    loops.push_back(std::accumulate(first, first + std::ptrdiff_t(line.loop_chain(k).count), 0.0));
  }
  return loops;
}

LayoutJudge::LayoutJudge(const Rig& rig, const Plan& plan, const JudgeOptions& options)
    : rig_(rig), rigged_(plan.rigged), mesh_(mesh_of(options)), small_return_(plan.standing.round_trip, options.shakes) {
  double natural = 0.0, standing = 0.0;
  for (const PlanBay& bay : plan.bays) natural += bay.main_natural, standing += bay.main_standing;
  const double hardware = rig.main.run.near_hardware.length + rig.main.run.far_hardware.length;
  stretch_ = (standing - hardware) / natural - 1.0;
  for (const Segment& segment : rig.backup.run.segments) {
    backup_weight_ = std::max(backup_weight_, kGravity * rig.webbings[segment.webbing].mass_per_length);
  }
  walker_tension_ = plan.walker[plan.worst_tension].tension_near;
  rig_.extra_places.clear();
}

std::vector<double> LayoutJudge::first_loops(const Layout& layout) const {
  std::vector<double> loops;
  for (std::size_t k = 0; k < layout.bays.size(); ++k) {
    double bay = layout.bays[k] * (1.0 + stretch_);
    if (k == 0) bay += rig_.main.run.near_hardware.length;
    if (k + 1 == layout.bays.size()) bay += rig_.main.run.far_hardware.length;
    loops.push_back(bay * (1.0 + layout.slack[k]));
  }
  return loops;
}

std::optional<LayoutJudge::Standing> LayoutJudge::stand(const std::vector<double>& bays, const std::vector<double>& loops,
                                                        const decltype(BackupSpec::amount)& amount) const {
  Rigged rigged = rigged_;
  rigged.tape_s.clear();
  double at = 0.0;
  for (std::size_t k = 0; k + 1 < bays.size(); ++k) rigged.tape_s.push_back(at += bays[k]);
  rigged.loop_length = loops;
  // The last segment of the backup takes what the loops need.
  const double before = std::accumulate(rigged_.loop_length.begin(), rigged_.loop_length.end(), 0.0);
  rigged.backup_segment_length.back() += std::accumulate(loops.begin(), loops.end(), 0.0) - before;
  if (!(rigged.backup_segment_length.back() > 0.0)) return std::nullopt;
  try {
    Standing standing{cut_line(rig_, rigged, mesh_), {}};
    std::optional<Equilibrium> rest = find_lengths({rig_.main.tension, amount, false}, standing.mesh);
    if (!rest || !rest->certified()) return std::nullopt;
    standing.at_rest = std::move(*rest);
    return standing;
  } catch (const InputError&) {
    return std::nullopt;  // a tape meets a joint or the like
  }
}

std::optional<LayoutScore> LayoutJudge::judge(const Layout& layout) {
  if (layout.bays.empty() || layout.bays.size() != layout.slack.size()) throw InputError("layout", "bays and slacks that do not fit", "one slack for every bay");
  const auto standing = stand(layout.bays, first_loops(layout), SlackShare{layout.slack});
  return standing ? std::optional(score(*standing)) : std::nullopt;
}

std::optional<LayoutScore> LayoutJudge::judge_as_cut(const std::vector<double>& bays, const std::vector<double>& loops) {
  const auto standing = stand(bays, loops, LoopLength{loops});
  return standing ? std::optional(score(*standing)) : std::nullopt;
}

std::optional<std::vector<double>> LayoutJudge::loop_lengths(const Layout& layout) {
  const auto standing = stand(layout.bays, first_loops(layout), SlackShare{layout.slack});
  if (!standing) return std::nullopt;
  return loop_lengths_of(standing->mesh.line);
}

LayoutScore LayoutJudge::score(const Standing& standing) {
  const Line& line = standing.mesh.line;
  const EquilibriumSolver solver(line);
  const Shape shape = solver.shape(standing.at_rest);
  LayoutScore score;
  score.tension = norm(standing.at_rest.near_force.front());
  const double weight = rig_.walker.mass * kGravity;
  for (std::size_t k = 0; k < line.bays(); ++k) {
    const double length = solver.chains().stretched_length(2 * k, standing.at_rest.near_force[2 * k]);
    const double drop = loop_drop(shape.main[k], shape.loop[k]);
    // The walker stretches the main of the bay, which takes from the loop's extra length 8 d^2 / 3 l, and bends it to a V,
    // which brings the tapes closer together and gives some back.
    const double kink = weight * length / (4.0 * walker_tension_);
    const double longer = solver.chains().natural_length(2 * k) * (solver.chains().mean_stretch(2 * k, walker_tension_).stretch -
                                                                     solver.chains().mean_stretch(2 * k, score.tension).stretch);
    const double left = drop * drop - 3.0 / 8.0 * length * (longer - 2.0 * kink * kink / length);
    score.drop.push_back(drop);
    const double drop_left = std::copysign(std::sqrt(std::abs(left)), left);
    score.ankle_margin.push_back(drop_left - kink);
    score.backup_tension.push_back(backup_weight_ * length * length / (8.0 * std::max(drop_left, kLeastDropLeft)));
  }
  const MotionLine moving = motion_line(line);
  const std::vector<Vec3> places = node_places(moving, shape);
  std::vector<double> along;
  for (std::size_t i = 0; i < moving.main_nodes; ++i) along.push_back(places[i].x);
  const SmallReturns& returns = small_return_.judge(lateral_line(moving, places), along);
  score.return_mean = returns.mean;
  score.return_worst = returns.worst;
  return score;
}

}  // namespace spanloom
