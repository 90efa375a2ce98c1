#include "motion/motion_line.h"

#include <algorithm>
#include <string>

#include "base/constants.h"
#include "base/input_error.h"

namespace spanloom {
namespace {

constexpr double kTensionReserve = 3.0;  // over the standing line: what a shake or a bounce may come to

constexpr double kRingReserve = 1.7;      // over the middle one of all bars: bays differ in how they are cut

double mass_of(const Vec3& weight) { return weight.z == 0.0 ? 0.0 : -weight.z / kGravity; }

// Adds the chains of one strand, 0 main or 1 loops, as neighbours in a row.
void add_strand(MotionLine& moving, const Line& line, std::size_t strand) {
  const std::size_t first = moving.mass.size();
  moving.mass.push_back(0.0);
  for (std::size_t bay = 0; bay < line.bays(); ++bay) {
    const ChainRange& chain = line.chains[2 * bay + strand];
    for (std::size_t i = 0; i < chain.count; ++i) {
      moving.length.push_back(line.length[chain.first + i]);
      moving.law.push_back(line.law[chain.first + i]);
      moving.mass.push_back(mass_of(line.load[chain.first + i]));
    }
    const bool last = bay + 1 == line.bays();
    if (strand == 0) moving.mass.back() = mass_of(line.tape_load[bay + 1]);
    if (strand == 0 && !last) moving.ties.push_back({moving.mass.size() - 1, 0});
    if (strand == 1 && !last) moving.ties[bay].backup = moving.mass.size() - 1;
  }
  moving.held.resize(moving.mass.size(), 0);
  moving.held[first] = moving.held.back() = 1;
}

bool has_loops(const Line& line) {
  const auto loop_is_there = [&](std::size_t bay) { return line.loop_chain(bay).count > 0; };
  std::size_t there = 0;
  for (std::size_t bay = 0; bay < line.bays(); ++bay) there += loop_is_there(bay) ? 1 : 0;
  if (there == line.bays()) return true;
  if (there == 0) return false;
  throw InputError("line.loops", std::to_string(there) + " of " + std::to_string(line.bays()) + " bays",
                   "a loop in every bay or in none");
}

// Calls visit(bar of the moving line, chain, bar of the standing line) for every bar.
template <class Visit>
void for_each_bar(const Line& line, const MotionLine& moving, Visit visit) {
  std::size_t main = 0, backup = moving.main_nodes;
  for (std::size_t chain = 0; chain < line.chains.size(); ++chain) {
    for (std::size_t i = 0; i < line.chains[chain].count; ++i) {
      visit((chain % 2 == 0 ? main : backup)++, chain, line.chains[chain].first + i);
    }
  }
}

// How fast a bar would make the nodes at its ends ring against each other [1/s2].
double ring(const MotionLine& moving, std::size_t bar) {
  double per_mass = 0.0;
  for (const std::size_t node : {bar, bar + 1}) {
    std::size_t carrier = node;
    for (const Tie& tie : moving.ties) {
      if (tie.backup == node) carrier = tie.main;
    }
    if (!moving.held[carrier] && moving.mass[carrier] > 0.0) per_mass += 1.0 / moving.mass[carrier];
  }
  return greatest_stiffness(moving.laws[std::size_t(moving.law[bar])], moving.greatest_tension) / moving.length[bar] * per_mass;
}

// A shackle, or a stub of webbing beside a joint, is so stiff that it alone would set the time step of the whole line.
// Such a bar is made as soft as the step of the others allows, and as long as it stands: what it then gives per newton
// is about what one more bar of webbing would.
void soften_stubs(MotionLine& moving, const Line& line, const Equilibrium& standing) {
  std::vector<double> rings(moving.bars(), 0.0);
  std::vector<double> of_strand[2];
  for_each_bar(line, moving, [&](std::size_t bar, std::size_t chain, std::size_t) {
    of_strand[chain % 2].push_back(rings[bar] = ring(moving, bar));
  });
  double allowed = 0.0;
  for (std::vector<double>& all : of_strand) {
    if (all.empty()) continue;
    const auto middle = all.begin() + std::ptrdiff_t(all.size() / 2);
    std::nth_element(all.begin(), middle, all.end());
    allowed = std::max(allowed, kRingReserve * *middle);
  }
  Vec3 force;
  for_each_bar(line, moving, [&](std::size_t bar, std::size_t chain, std::size_t from) {
    if (from == line.chains[chain].first) force = standing.near_force[chain];
    else force -= line.load[from - 1];
    if (rings[bar] <= allowed) return;
    const StretchCurve& curve = line.laws[std::size_t(line.law[from])];
    const double softer = greatest_stiffness(curve, moving.greatest_tension) / moving.length[bar] * allowed / rings[bar];  // [N/m]
    const double standing_length = line.length[from] * (1.0 + curve.stretch_at(norm(force)).stretch);
    const double length = standing_length - norm(force) / softer;  // stretched by the same force to the same length
    if (!(length > 0.0)) return;  // it would have to be shorter than nothing: left as it is
    moving.length[bar] = length;
    moving.laws.push_back(StretchCurve::linear(softer * length));
    moving.law[bar] = int(moving.laws.size()) - 1;
  });
}

// Half a bar's mass to the ties that it ends at: bay k lies between ties k - 1 and k.
void add_backup_shares(MotionLine& moving, std::size_t bay, double half_mass, std::size_t bar) {
  if (bay > 0 && moving.ties[bay - 1].backup == bar) moving.ties[bay - 1].backup_mass += half_mass;
  if (bay < moving.ties.size() && moving.ties[bay].backup == bar + 1) moving.ties[bay].backup_mass += half_mass;
}

void add(DragArea& to, const DragArea& area, double times) {
  to.sideways += times * area.sideways;
  to.upright += times * area.upright;
}

}  // namespace

void untie(MotionLine& line, std::size_t index) {
  const std::string name = "line.ties[" + std::to_string(index) + "]";
  if (index >= line.ties.size()) throw InputError(name, "none", "a tie of the line");
  const Tie tie = line.ties[index];
  if (!(tie.backup_mass > 0.0 && tie.backup_mass < line.mass[tie.main])) {
    throw InputError(name, "no mass of the backup alone", "a line made from a mesh");
  }
  line.mass[tie.main] -= tie.backup_mass;
  line.mass[tie.backup] = tie.backup_mass;
  add(line.drag[tie.main], tie.backup_drag, -1.0);
  line.drag[tie.backup] = tie.backup_drag;
  line.ties.erase(line.ties.begin() + std::ptrdiff_t(index));
}

double greatest_stiffness(const StretchCurve& curve, double tension) {
  if (curve.constant_stiffness() > 0.0) return curve.constant_stiffness();
  double greatest = 0.0, reached = 0.0;
  for (const StretchCurve::Cubic& c : curve.cubics()) {
    // The slope of a cubic is a parabola: greatest at an end or where it turns.
    const auto slope = [&](double t) { return (c.c1 + t * (2.0 * c.c2 + t * 3.0 * c.c3)) / c.width; };
    greatest = std::max({greatest, slope(0.0), slope(1.0)});
    if (c.c3 != 0.0) greatest = std::max(greatest, slope(std::clamp(-c.c2 / (3.0 * c.c3), 0.0, 1.0)));
    reached += c.c1 + c.c2 + c.c3;
    if (reached >= tension) return greatest;
  }
  return std::max(greatest, curve.last_slope());
}

MotionLine motion_line(const Line& line) {
  MotionLine moving;
  moving.laws = line.laws;
  add_strand(moving, line, 0);
  moving.main_nodes = moving.mass.size();
  if (has_loops(line)) {
    moving.length.push_back(0.0);
    moving.law.push_back(0);
    add_strand(moving, line, 1);
  } else {
    moving.ties.clear();
  }
  moving.loss.assign(moving.bars(), 0.0);
  moving.drag.assign(moving.nodes(), {});
  return moving;
}

MotionLine motion_line(const Mesh& mesh, const Rig& rig, const Equilibrium& standing, Facing facing) {
  return motion_line(mesh, rig, standing, mesh.line, facing);
}

MotionLine motion_line(const Mesh& mesh, const Rig& rig, const Equilibrium& standing, const Line& loads, Facing facing) {
  MotionLine moving = motion_line(mesh.line);
  for_each_bar(mesh.line, moving, [&](std::size_t bar, std::size_t chain, std::size_t from) {
    const Piece& piece = (chain % 2 == 0 ? mesh.main_piece : mesh.backup_piece)[std::size_t(mesh.piece_of_bar[from])];
    double edge = mesh.drag_width[from];
    if (piece.kind == Piece::Kind::webbing) {
      const Webbing& webbing = rig.webbings[piece.index];
      moving.loss[bar] = webbing.loss.value_or(0.0);
      edge = webbing.thickness.value;
    }
    if (chain % 2 == 1) add_backup_shares(moving, chain / 2, 0.5 * mesh.line.length[from] * mesh.mass_per_length[from], bar);
    const double half = 0.5 * mesh.line.length[from];
    const double flat = kStripDragCoefficient * mesh.drag_width[from] * half;
    const double side = facing == Facing::broadside ? flat : kEdgeDragCoefficient * edge * half;
    for (const std::size_t node : {bar, bar + 1}) {
      moving.drag[node].sideways += side;
      moving.drag[node].upright += flat;
    }
  });
  for (Tie& tie : moving.ties) {
    tie.backup_drag = moving.drag[tie.backup];
    add(moving.drag[tie.main], tie.backup_drag, 1.0);
    moving.drag[tie.backup] = {};
  }
  double greatest = 0.0;
  for (const std::vector<Vec3>* forces : {&standing.near_force, &standing.far_force}) {
    for (const Vec3& force : *forces) greatest = std::max(greatest, norm(force));
  }
  moving.greatest_tension = kTensionReserve * greatest;
  soften_stubs(moving, loads, standing);
  return moving;
}

std::vector<Vec3> node_places(const MotionLine& line, const Shape& shape) {
  std::vector<Vec3> places;
  places.reserve(line.nodes());
  for (const auto* strand : {&shape.main, &shape.loop}) {
    if (strand == &shape.loop && line.backup_nodes() == 0) break;
    places.push_back(strand->front().front());
    for (const std::vector<Vec3>& chain : *strand) places.insert(places.end(), chain.begin() + 1, chain.end());
  }
  for (const Tie& tie : line.ties) places[tie.backup] = places[tie.main];
  return places;
}

}  // namespace spanloom
