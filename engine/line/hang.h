// The force that brings the ends of a chain where they must be.
#pragma once

#include <limits>

#include "base/sym3.h"
#include "base/vec3.h"
#include "line/chain.h"

namespace spanloom {

/// The force at which a chain has a wanted reach.
struct Hung {
  Vec3 force;          ///< in the first bar [N]
  ChainAt at;          ///< reach and compliance there
  int iterations = 0;
  bool converged = false;
};

/// Maximises the concave dual f . reach - coenergy(f) by Newton steps with a line search on its slope:
/// f reaches the one maximum from any start, slack or taut. Evaluate: Vec3 -> ChainAt.
/// Stops when the closure error, as a force, is below `relative` of the force and itself below `closure`
/// [m] (a chain with a slack bar may miss by metres at next to no force) or no longer falling: at rounding.
template <class Evaluate>
Hung hang(Evaluate evaluate, const Vec3& reach, const Vec3& start, double relative,
          double closure = std::numeric_limits<double>::infinity()) {
  constexpr int kMostIterations = 200;
  Hung hung{start, evaluate(start), 0, false};
  double before = std::numeric_limits<double>::infinity();  // the miss one step ago
  for (; hung.iterations < kMostIterations; ++hung.iterations) {
    const Vec3 miss = reach - hung.at.reach;
    const Vec3 step = inverse(hung.at.compliance) * miss;
    const double slope = dot(miss, step);
    if (!(slope >= 0.0)) return hung;  // not finite, or compliance lost to rounding
    const bool near_enough = norm(miss) <= closure || norm(miss) >= 0.5 * before;
    before = norm(miss);
    if ((norm(step) <= relative * norm(hung.force) && near_enough) || slope == 0.0) {
      hung.converged = true;
      return hung;
    }
    // The slope of the dual along the step falls from `slope`; take a place where it is at most half
    // as steep either way. Too far (slope turned sharply down): bisect. Concavity makes it certain.
    double low = 0.0, high = 1.0, t = 1.0;
    Hung next = hung;
    for (int trial = 0; trial < 60; ++trial) {
      next.force = hung.force + t * step;
      next.at = evaluate(next.force);
      const double slope_there = dot(reach - next.at.reach, step);
      if (slope_there >= -0.5 * slope) break;
      high = t;
      t = 0.5 * (low + high);
    }
    hung.force = next.force;
    hung.at = next.at;
  }
  return hung;
}

/// The main from anchor to anchor as one chain: what all its bays reach together.
/// @param near    force in its first bar [N]
/// @param beyond  (bay, force in the bay's first bar) -> force in the first bar of the next bay
template <class Beyond>
ChainAt evaluate_main(const ChainSet& chains, const Vec3& near, Beyond beyond) {
  ChainAt sum{};
  Vec3 force = near;
  for (std::size_t bay = 0; 2 * bay < chains.size(); ++bay) {
    const ChainAt at = chains.evaluate(2 * bay, force);
    sum.reach += at.reach;
    sum.compliance += at.compliance;
    force = beyond(bay, force);
  }
  return sum;
}

/// A first guess of the force in the first bar of a chain of natural length L between ends `reach`
/// apart that carries `load` between them: the parabola where slack, the stretched chord where taut.
/// @param stiffness  axial stiffness at low tension [N]
Vec3 guess_near_force(const Vec3& reach, double natural_length, const Vec3& load, double stiffness);

/// Hangs one chain of a set between its ends.
Hung hang_chain(const ChainSet& chains, std::size_t chain, const Vec3& reach, const Vec3& start,
                double relative);

}  // namespace spanloom
