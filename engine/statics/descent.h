// The sure way to equilibrium: descent on the convex energy of the tapes, every chain hung exactly.
#pragma once

#include "statics/equilibrium.h"

namespace spanloom {

/// Newton directions, with a line search on the slope of the energy. Slow and certain.
class Descent {
 public:
  explicit Descent(EquilibriumSolver& solver) : solver_(solver) {}
  /// Improves a state until it is near enough for joint Newton steps; returns the steps taken.
  int run(Equilibrium& state);

 private:
  void hang_all(Equilibrium& state) const;
  EquilibriumSolver& solver_;
};

}  // namespace spanloom
