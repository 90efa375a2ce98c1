// Motions that more than one program runs: where each starts, what drives it, when it is looked at.
#pragma once

#include <algorithm>
#include <cmath>
#include <numbers>
#include <stdexcept>
#include <string>
#include <utility>
#include <vector>

#include "motion/motion.h"
#include "peers/sundials_line.h"
#include "support/r100.h"

namespace spanloom::peers {

struct MotionCase {
  std::string name;
  Line line;                  ///< its node loads are its weights
  Shape start;                ///< let go at rest from here
  NodeAt watched;             ///< of the main
  NodeAt pushed;              ///< of the main
  std::function<double(double)> sideways;  ///< force on it, of time [s], [N]; empty: none
  std::vector<double> times;  ///< of the samples [s], equally spaced
};

using History = std::vector<Vec3>;  // places of the watched node at the samples [m]

inline Shape at_rest(const Line& line) {
  EquilibriumSolver solver(line);
  const Equilibrium found = solver.solve();
  if (!found.certified()) throw std::runtime_error("the line did not come to rest");
  return solver.shape(found);
}

inline std::vector<double> sample_times(double duration, int samples) {
  std::vector<double> times;
  for (int i = 1; i <= samples; ++i) times.push_back(duration * double(i) / double(samples));
  return times;
}

/// The walker steps off R100, mid point watched. Within milliseconds the loops beside the walker go slack and
/// snap tight, bar by bar, and from then on the motion is chaotic: any two solutions part tenfold about every
/// four milliseconds. 20 ms is as far as the mid point can be known to a micrometre.
inline MotionCase walker_steps_off(double duration = 0.02, int samples = 10) {
  return {"walker steps off R100", r100::standing(), at_rest(r100::walked()), {r100::kBays / 2, 0}, {}, {},
          sample_times(duration, samples)};
}

/// R100's main alone: with this natural length it stands at 5000 N as R100 does. It never goes slack.
inline MotionCase walker_steps_off_bare_main() {
  const double length = 96.774750014 / double(r100::kBays * r100::kMainBars);
  const std::vector<BarSpec> main(r100::kMainBars, {length, 0, r100::kMainMass});
  const Vec3 near{0.0, 0.0, 0.0}, far{r100::kGap, 0.0, 0.0};
  LineBuilder builder({StretchCurve::linear(r100::kMainStiffness)}, {near, far, near, far});
  for (std::size_t bay = 0; bay < r100::kBays; ++bay) builder.add_bay(main, {});
  const Line standing = std::move(builder).build();
  Line walked = standing;
  add_main_load(walked, {r100::kBays / 2, 0}, {0.0, 0.0, -r100::kWalkerWeight});
  return {"walker steps off the bare main", standing, at_rest(walked), {r100::kBays / 2, 0}, {}, {},
          sample_times(0.5, 50)};
}

/// One cycle of 2.5 Hz at 15 % of R100, sideways, so gentle (20 N) that no loop snaps; the shaken place watched.
inline MotionCase gentle_shake() {
  const NodeAt shaken{6, 0};
  const auto cycle = [](double time) { return time < 0.4 ? 20.0 * std::sin(5.0 * std::numbers::pi * time) : 0.0; };
  return {"gentle shake of R100", r100::standing(), at_rest(r100::standing()), shaken, shaken, cycle,
          sample_times(0.5, 50)};
}

/// Absolute tolerances a tenth of the relative one: displacements here are metres and tenths of them.
inline SundialsOptions tolerance(int order, double relative,
                                 SundialsVectors vectors = SundialsVectors::compiled_here) {
  return {.order = order, .relative = relative, .absolute = 0.1 * relative, .push = {}, .vectors = vectors};
}

inline SundialsRun by_sundials(const MotionCase& of, SundialsOptions options) {
  const SundialsLine line(of.line);
  if (of.sideways) {
    options.push = {line.main_node(of.pushed.bay, of.pushed.bar),
                    [&](double time) { return Vec3{0.0, of.sideways(time), 0.0}; }};
  }
  return line.release(line.places(of.start), of.times, {line.main_node(of.watched.bay, of.watched.bar)}, options);
}

inline History watched(const SundialsRun& run) {
  History history;
  for (const std::vector<Vec3>& places : run.places) history.push_back(places.front());
  return history;
}

inline std::size_t node_of(const Line& line, const NodeAt& at) {
  std::size_t node = at.bar;
  for (std::size_t bay = 0; bay < at.bay; ++bay) node += line.main_chain(bay).count;
  return node;
}

inline Motion our_motion(const MotionCase& of, const MotionOptions& options) {
  const MotionLine line = motion_line(of.line);
  Drive drive;
  if (of.sideways) drive.pushes.push_back({node_of(of.line, of.pushed), {0.0, 1.0, 0.0}, of.sideways});
  return Motion(line, node_places(line, of.start), std::move(drive), options);
}

inline History watched(Motion& motion, const MotionCase& of) {
  const std::size_t node = node_of(of.line, of.watched);
  History history;
  for (double time : of.times) {
    if (!motion.advance(time - motion.time())) throw std::runtime_error("our motion ran away");
    history.push_back(motion.place(node));
  }
  return history;
}

/// Over the samples that both have [m].
inline double greatest_difference(const History& a, const History& b) {
  double greatest = 0.0;
  for (std::size_t i = 0; i < std::min(a.size(), b.size()); ++i) greatest = std::max(greatest, norm(a[i] - b[i]));
  return greatest;
}

}  // namespace spanloom::peers
