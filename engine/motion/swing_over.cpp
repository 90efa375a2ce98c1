#include "motion/swing_over.h"

#include <algorithm>
#include <cmath>
#include <numbers>

#include <fmt/format.h>

#include "base/constants.h"
#include "base/same_everywhere.h"
#include "motion/finer_steps.h"
#include "statics/wind.h"

namespace spanloom {
namespace {

constexpr double kLookEvery = 0.01;      // [s]
constexpr double kAfterwards = 4.0;      // watched on after gust or bounce [s]
constexpr double kLightAir = 1.0;        // [m/s]
constexpr double kTooNear = 0.25;        // of its drop: so near the main a loop has no angle about it
constexpr int kMostSizings = 4;
constexpr double kSizedWithin = 0.05;
// Wind drives the line, so there is no energy put in by pushes to measure the drift by; what moved through
// the line stands in for it.
double moved_energy(const EnergyLedger& ledger) {
  return std::abs(ledger.put_in) + std::abs(ledger.lost_to_air) + ledger.lost_in_webbing + ledger.kinetic;
}

struct Watched {
  std::vector<LoopSwing> loops;
  double swing = 0.0;                    // greatest displacement of a node upwards or downwards [m]
};

// Runs a drive from given places and watches the loops and the height of one node; empty where the ledger did not close.
std::optional<Watched> watch(const MovingRig& rig, const MotionLine& line, const std::vector<Vec3>& places,
                             const Drive& drive, double duration, std::size_t node) {
  return with_finer_steps(steady_step(line, Scheme::leapfrog), [&](double step) -> std::optional<Watched> {
    Motion motion(line, places, drive, {Scheme::leapfrog, step});
    SwingWatch swings(rig);
    Watched watched;
    for (double t = 0.0; t < duration; t += kLookEvery) {
      if (!motion.advance(kLookEvery)) return std::nullopt;
      swings.look(motion);
      watched.swing = std::max(watched.swing, std::abs(motion.place(node).z - places[node].z));
    }
    watched.loops = swings.loops();
    const EnergyLedger ledger = motion.ledger();
    if (!closes(ledger, moved_energy(ledger))) return std::nullopt;
    return watched;
  });
}

// The bay and bar that a main node is in.
NodeAt node_at(const MovingRig& rig, std::size_t node) {
  std::size_t bay = 0;
  while (bay + 1 < rig.bays() && node >= rig.tape_node[bay + 1]) ++bay;
  return {bay, node - rig.tape_node[bay]};
}

const char* const kNoProof = "its energy ledger did not close, however small the step";

}  // namespace

SwingWatch::SwingWatch(const MovingRig& rig) : loops_(rig.has_loops() ? rig.bays() : 0) {
  if (!rig.has_loops()) return;
  for (std::size_t bay = 0; bay < rig.bays(); ++bay) {
    const std::size_t last = rig.bays() - 1;
    const std::size_t from = bay == 0 ? rig.line.main_nodes : rig.line.ties[bay - 1].backup;
    const std::size_t to = bay == last ? rig.line.nodes() - 1 : rig.line.ties[bay].backup;
    Middle middle;
    middle.loop = (from + to) / 2;
    // The main's node right above it.
    middle.main = rig.tape_node[bay];
    for (std::size_t i = rig.tape_node[bay]; i <= rig.tape_node[bay + 1]; ++i) {
      const double x = rig.rest[middle.loop].x;
      if (std::abs(rig.rest[i].x - x) < std::abs(rig.rest[middle.main].x - x)) middle.main = i;
    }
    middle.drop = std::hypot(rig.rest[middle.loop].y - rig.rest[middle.main].y, rig.rest[middle.loop].z - rig.rest[middle.main].z);
    middles_.push_back(middle);
  }
}

void SwingWatch::look(const Motion& motion) {
  for (std::size_t bay = 0; bay < middles_.size(); ++bay) {
    Middle& middle = middles_[bay];
    const double y = motion.places(1)[middle.loop] - motion.places(1)[middle.main];
    const double z = motion.places(2)[middle.loop] - motion.places(2)[middle.main];
    if (std::hypot(y, z) < kTooNear * middle.drop) {
      middle.above = false;  // it comes down onto the main, not over it
      continue;
    }
    const double angle = std::atan2(std::abs(y), -z);
    loops_[bay].greatest = std::max(loops_[bay].greatest, angle);
    const bool above = z > 0.0;
    if (above && middle.above && y * middle.side < 0.0) loops_[bay].passes_over = true;
    middle.side = y;
    middle.above = above;
  }
}

SwungLoops swung_loops(const SwingCase& swing) {
  SwungLoops swung;
  for (std::size_t i = 0; i < swing.loops.size(); ++i) {
    const LoopSwing& loop = swing.loops[i];
    if (swung.greatest_bay == 0 || loop.greatest > swung.greatest) {
      swung.greatest = loop.greatest;
      swung.greatest_bay = i + 1;
    }
    if (loop.greatest > 0.5 * std::numbers::pi) swung.far.push_back(i + 1);
    if (loop.passes_over) swung.over.push_back(i + 1);
  }
  return swung;
}

SwingCase swing_in_gust(const MovingRig& rig, UnitSystem units) {
  SwingCase out{"gust", "", {}, std::nullopt};
  if (!rig.rig.wind || !rig.rig.wind->gust) {
    out.what = "In a gust";
    out.why_not = "the rig file states no [wind] gust";
    return out;
  }
  const double steady = rig.rig.wind->speed, gust = *rig.rig.wind->gust, time = rig.rig.wind->gust_time.value;
  out.what = fmt::format("In a gust from the side from {} to {} and back within {:.3g} s, flat faces to the wind,",
                         quantity_text(steady, Measure::speed, units), quantity_text(gust, Measure::speed, units), time);
  EquilibriumSolver solver(rig.mesh.line);
  const Line blown = in_side_wind(rig.mesh, solver, rig.standing, steady);
  EquilibriumSolver in_wind(blown);
  const Equilibrium at = in_wind.solve_from(rig.standing);
  if (!at.certified()) {
    out.why_not = "the line found no proven rest in the steady wind";
    return out;
  }
  const MotionLine line = motion_line(rig.mesh, rig.rig, rig.standing, Facing::broadside);
  Drive drive;
  drive.air = [steady, gust, time](double t) {
    const double root = t < time ? sine_of_turns(0.5 * t / time) : 0.0;  // 1 - cos(2 a) = 2 sin^2 a
    const double more = (gust - steady) * root * root;
    return Vec3{0.0, steady + more, 0.0};
  };
  const std::vector<Vec3> places = node_places(line, in_wind.shape(at));
  const std::optional<Watched> watched = watch(rig, line, places, drive, time + kAfterwards, rig.line.main_nodes / 2);
  if (!watched) out.why_not = kNoProof;
  else out.loops = watched->loops;
  return out;
}

SwingCase swing_in_bounce(const MovingRig& rig, UnitSystem units) {
  SwingCase out{"bounce", "With a bouncing walker", {}, std::nullopt};
  const double bounce = rig.rig.shake.bounce.value, mass = rig.rig.walker.mass;
  const std::size_t node = rig.node_near(0.5 * rig.rig.site.gap);
  const NodeAt foot = node_at(rig, node);
  Line walked = rig.mesh.line;
  add_main_load(walked, foot, {0.0, 0.0, -mass * kGravity});
  EquilibriumSolver solver(walked);
  const Equilibrium at = solver.solve_from(rig.standing);
  if (!at.certified()) {
    out.why_not = "the line found no proven rest under the walker";
    return out;
  }
  MotionLine line = motion_line(rig.mesh, rig.rig, rig.standing, Facing::broadside);
  line.mass[node] += mass;
  const std::vector<Vec3> places = node_places(line, solver.shape(at));
  // The walker hangs as on a spring whose stiffness is weight over sag: omega^2 = g / sag.
  const double sag = rig.rest[node].z - places[node].z, frequency = std::sqrt(kGravity / sag) / (2.0 * std::numbers::pi);
  double force = 0.5 * mass * kGravity * bounce / sag, reached = 0.0;
  for (int sizing = 0; sizing < kMostSizings; ++sizing) {
    Drive drive;
    drive.air = [](double) { return Vec3{0.0, kLightAir, 0.0}; };
    drive.pushes.push_back({node, {0.0, 0.0, -1.0}, [force, frequency](double t) {
                              return t * frequency < 1.0 ? force * sine_of_turns(frequency * t) : 0.0;
                            }});
    const std::optional<Watched> watched = watch(rig, line, places, drive, 1.0 / frequency + kAfterwards, node);
    if (!watched) {
      out.why_not = kNoProof;
      return out;
    }
    out.loops = watched->loops;
    reached = watched->swing;
    if (std::abs(reached - bounce) <= kSizedWithin * bounce || !(reached > 0.0)) break;
    force *= bounce / reached;
  }
  out.what = fmt::format("With a walker of {} at the middle bouncing {} up and down once, in light air of {} from the side,",
                         quantity_text(mass, Measure::mass, units), quantity_text(reached, Measure::small_length, units),
                         quantity_text(kLightAir, Measure::speed, units));
  return out;
}

std::vector<std::size_t> over_in_gust_or_bounce(const MovingRig& rig) {
  std::vector<std::size_t> over;
  for (const SwingCase& swing : {swing_in_gust(rig, UnitSystem::metric), swing_in_bounce(rig, UnitSystem::metric)}) {
    if (swing.why_not) continue;
    const SwungLoops swung = swung_loops(swing);
    over.insert(over.end(), swung.over.begin(), swung.over.end());
  }
  std::sort(over.begin(), over.end());
  over.erase(std::unique(over.begin(), over.end()), over.end());
  return over;
}

}  // namespace spanloom
