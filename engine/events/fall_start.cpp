#include "events/fall_start.h"

#include <algorithm>
#include <cmath>

#include <fmt/format.h>

#include "base/constants.h"
#include "base/input_error.h"

namespace spanloom {
namespace {

constexpr double kRingReach = 0.025;     // of leash and slider rings: half their inner width, our guess [m]
constexpr double kRingShare = 0.5;       // of the middle bar's stiffness: what webbing and ring give against each other
constexpr double kRingStep = 0.7;        // of the time constant of the ring on its springs; 2 is the limit
constexpr double kStepOff = 1.0;         // speed of a walker who steps off, our guess [m/s]
constexpr double kTipOff = 0.5;          // of one who tips off the seat, our guess [m/s]

// Backwards goes to the nearer anchor, where the wall is near and the line stiff.
Vec3 velocity_of(StepOff step_off, bool near_half) {
  switch (step_off) {
    case StepOff::sideways: return {0.0, kStepOff, 0.0};
    case StepOff::backwards: return {near_half ? -kStepOff : kStepOff, 0.3 * kStepOff, 0.0};
    case StepOff::from_sitting: return {0.0, kTipOff, 0.0};
  }
  return {};
}

void check(const MovingRig& rig, const FallCase& what) {
  const std::size_t last = rig.line.main_nodes - 1;
  if (what.walker == 0 || what.walker >= last) {
    throw InputError("walker", std::to_string(what.walker), fmt::format("a node of the main between the anchors, 1 to {}", last - 1));
  }
  if (what.cut) static_cast<void>(cut_place(rig, *what.cut));  // throws where there is none
  const Walker& walker = rig.rig.walker;
  if (!(walker.leash.value > walker.foot_to_hip.value + kRingReach)) {
    throw InputError("walker.leash", fmt::format("{:.3f} m", walker.leash.value),
                     fmt::format("a leash longer than foot_to_hip and the leash ring, {:.3f} m, or nobody can stand",
                                 walker.foot_to_hip.value + kRingReach));
  }
}

// The part of the main that the walker's ring is on.
StrandPart main_part(const MovingRig& rig, const FallCase& what) {
  StrandPart part{0, rig.line.main_nodes - 1, false, false};
  if (what.cut && *what.cut >= what.walker) part.last = *what.cut, part.open_last = true;
  if (what.cut && *what.cut < what.walker) part.first = *what.cut + 1, part.open_first = true;
  if (what.ring == RingRun::caught_between_tapes) {
    const std::size_t bay = bay_of(rig, what.walker);
    part.first = std::max(part.first, rig.tape_node[bay]);
    part.last = std::min(part.last, rig.tape_node[bay + 1]);
  }
  return part;
}

// Where backup nodes of tapes are, anchors included.
std::vector<std::size_t> backup_tapes(const MovingRig& rig) {
  std::vector<std::size_t> nodes = {rig.line.main_nodes};
  for (const Tie& tie : rig.line.ties) nodes.push_back(tie.backup);
  nodes.push_back(rig.line.nodes() - 1);
  return nodes;
}

struct Loaded {
  Line line;
  Equilibrium at_rest;
  Shape shape;
};

std::optional<Loaded> rest_under(const MovingRig& rig, const std::vector<std::pair<std::size_t, double>>& weights) {
  Loaded loaded{rig.mesh.line, {}, {}};
  for (const auto& [node, weight] : weights) add_main_load(loaded.line, node_at(rig, node), {0.0, 0.0, -weight});
  EquilibriumSolver solver(rig.mesh.line);
  solver.set_loads(loaded.line);
  loaded.at_rest = solver.solve_from(rig.standing);
  if (!loaded.at_rest.certified()) return std::nullopt;
  loaded.shape = solver.shape(loaded.at_rest);
  return loaded;
}

double middle_stiffness(const MotionLine& line) {
  std::vector<double> all;
  for (std::size_t bar = 0; bar + 1 < line.main_nodes; ++bar) {
    all.push_back(greatest_stiffness(line.laws[std::size_t(line.law[bar])], line.greatest_tension) / line.length[bar]);
  }
  std::nth_element(all.begin(), all.begin() + std::ptrdiff_t(all.size() / 2), all.end());
  return all[all.size() / 2];
}

// What rides in the leash ring before it happens [N]: it bears on the three nodes that the ring is spread over.
double ring_load(const Walker& walker, Posture posture) {
  return kGravity * (walker.leash_ring_mass.value + (posture == Posture::hanging ? walker.mass : 0.0));
}

// Body, leash and ring in balance with the line at rest.
FallerSpec faller_at_rest(const MovingRig& rig, const FallCase& what, const FallStart& start) {
  const Walker& walker = rig.rig.walker;
  const Webbing leash = walker.leash_webbing ? rig.rig.webbings[*walker.leash_webbing] : generic_leash();
  FallerSpec spec;
  spec.mass = walker.mass;
  spec.body = walker.body.value;
  spec.leash = leash.curve;
  spec.leash_length = walker.leash.value;
  spec.ring_mass = walker.leash_ring_mass.value;
  const StrandPlace at = strand_place(start.main, double(what.walker));
  for (std::size_t k = 0; k < 3; ++k) spec.ring += at.weight[k] * start.places[at.node[k]];
  spec.ring.z -= kRingReach + ring_load(walker, what.posture) / start.ring_stiffness;
  const double weight = walker.mass * kGravity;
  if (what.posture == Posture::hanging) {
    spec.hip = spec.ring + Vec3{0.0, 0.0, -walker.leash.value * (1.0 + leash.curve.stretch_at(weight).stretch)};
    return spec;
  }
  const double hip = what.posture == Posture::sitting ? kSittingHip : walker.foot_to_hip.value;
  spec.hip = start.places[what.walker] + Vec3{0.0, 0.0, hip};
  if (what.kind == FallKind::leash_fall) {
    spec.velocity = velocity_of(what.step_off, rig.rest[what.walker].x < 0.5 * rig.rig.site.gap);
  } else {
    spec.foot = what.walker;
    spec.leg = hip + weight / kLegStiffness;
  }
  return spec;
}

// The node of a strand that is nearest to the ring.
std::size_t nearest_node(const FallStart& start, std::size_t first, std::size_t last) {
  std::size_t best = first;
  for (std::size_t node = first; node <= last; ++node) {
    if (norm(start.places[node] - start.faller.ring) < norm(start.places[best] - start.faller.ring)) best = node;
  }
  return best;
}

void let_go(FallStart& start, const Rig& rig, const FallCase& what) {
  MotionLine torn = start.line;
  while (!torn.ties.empty()) untie(torn, torn.ties.size() - 1);
  if (rig.backup.joint == Joint::ring) start.sliders = start.line.ties;
  start.step = std::min(steady_step(start.line, Scheme::leapfrog), steady_step(torn, Scheme::leapfrog));
  // The leash ring between its leash and two strands.
  const FallerSpec& faller = start.faller;
  const double leash = greatest_stiffness(faller.leash, start.line.greatest_tension) / faller.leash_length;
  start.step = std::min(start.step, kRingStep * std::sqrt(faller.ring_mass / (leash + 2.0 * start.ring_stiffness)));
  if (!start.sliders.empty() || what.tape_strength <= 0.0) start.line = std::move(torn);
}

}  // namespace

FallStartOutcome start_of_fall(const MovingRig& rig, const FallCase& what) {
  check(rig, what);
  const Walker& walker = rig.rig.walker;
  FallStart start;
  start.walker = what.walker;
  start.main = main_part(rig, what);
  std::vector<std::pair<std::size_t, double>> weights;
  const StrandPlace ring_at = strand_place(start.main, double(what.walker));
  for (std::size_t k = 0; k < 3; ++k) weights.push_back({ring_at.node[k], ring_at.weight[k] * ring_load(walker, what.posture)});
  if (what.posture != Posture::hanging) weights.push_back({what.walker, walker.mass * kGravity});
  const std::optional<Loaded> loaded = rest_under(rig, weights);
  if (!loaded) return {std::nullopt, fmt::format("the line found no proven rest with a walker at {:.1f} m", rig.rest[what.walker].x)};
  start.line = motion_line(rig.mesh, rig.rig, loaded->at_rest, loaded->line, Facing::as_taped);
  start.places = node_places(start.line, loaded->shape);
  start.ring_stiffness = kRingShare * middle_stiffness(start.line);
  start.faller = faller_at_rest(rig, what, start);
  const bool both = walker.leash_ring.value == LeashRing::around_both && rig.has_loops();
  if (both) {
    const std::vector<std::size_t> tapes = backup_tapes(rig);
    const std::size_t bay = bay_of(rig, what.walker);
    const bool caught = what.ring == RingRun::caught_between_tapes;
    start.backup = caught ? StrandPart{tapes[bay], tapes[bay + 1], false, false} : StrandPart{tapes.front(), tapes.back(), false, false};
    start.backup_at = nearest_node(start, tapes[bay], tapes[bay + 1]);
  }
  if (what.cut) {
    start.line.cut.assign(start.line.bars(), 0);
    start.line.cut[*what.cut] = 1;
  }
  let_go(start, rig.rig, what);
  return {std::move(start), {}};
}

namespace {

// From the middle of a ring to the webbing in it, which hangs lower at a tape than the node [m].
double distance_to(const FallStart& start, const StrandPart& part, std::size_t node, const Vec3& ring) {
  const StrandPlace at = strand_place(part, double(node));
  Vec3 place;
  for (std::size_t k = 0; k < 3; ++k) place += at.weight[k] * start.places[at.node[k]];
  return norm(place - ring);
}

}  // namespace

Faller faller_of(const FallStart& start, const Rig& rig) {
  Faller faller(start.faller);
  const RingOptions leash_ring{kRingReach, start.ring_stiffness, rig.walker.leash_ring_friction.value};
  // A strand may not pull before it happens: what the ring is away from it, it is given.
  faller.add_strand(StrandRing(start.main, double(start.walker), leash_ring));
  if (start.backup) {
    const double distance = distance_to(start, *start.backup, start.backup_at, start.faller.ring);
    faller.add_strand(StrandRing(*start.backup, double(start.backup_at), leash_ring, distance));
  }
  const StrandPart all{start.line.main_nodes, start.line.nodes() - 1, false, false};
  for (const Tie& slider : start.sliders) {
    const RingOptions options{kRingReach, start.ring_stiffness, rig.backup.ring_friction.value};
    const double distance = distance_to(start, all, slider.backup, start.places[slider.main]);
    faller.add_slider({slider.main, StrandRing(all, double(slider.backup), options, distance)});
  }
  return faller;
}

}  // namespace spanloom
