#include "statics/descent.h"

#include <cmath>

#include "line/hang.h"

namespace spanloom {
namespace {

constexpr int kMostSteps = 400;
constexpr double kNearEnough = 1e-9;
constexpr double kExactHang = 1e-12;

double slope_along(std::span<const Vec3> unbalanced, std::span<const Vec3> move) {
  double slope = 0.0;  // of the energy, downhill counted positive
  for (std::size_t k = 1; k + 1 < move.size(); ++k) slope += dot(unbalanced[k], move[k]);
  return slope;
}

}  // namespace

void Descent::hang_all(Equilibrium& state) const {
  const ChainSet& chains = solver_.chains_;
  for (std::size_t c = 0; c < chains.size(); ++c) {
    if (chains.empty(c)) continue;
    const Vec3 reach = solver_.chain_reach(c, state.tapes);
    Hung hung = hang_chain(chains, c, reach, state.near_force[c], kExactHang);
    if (!hung.converged) {
      const double stiffness = 1.0 / chains.mean_stretch(c, 0.0).compliance;
      const Vec3 guess = guess_near_force(reach, chains.natural_length(c), chains.inner_load(c), stiffness);
      const Hung again = hang_chain(chains, c, reach, guess, kExactHang);
      if (is_finite(again.force)) hung = again;
    }
    state.near_force[c] = hung.force;
  }
}

int Descent::run(Equilibrium& state) {
  hang_all(state);
  for (int steps = 0; steps < kMostSteps; ++steps) {
    const EquilibriumSolver::Miss miss = solver_.linearise(state);
    if (!std::isfinite(miss.force) || miss.force <= kNearEnough * miss.greatest) return steps;
    const auto solved = solver_.ladder_.solve(solver_.spring_, solver_.unbalanced_);
    const std::vector<Vec3> move(solved.begin(), solved.end());
    const double slope = slope_along(solver_.unbalanced_, move);
    if (!(slope > 0.0)) return steps;
    Equilibrium next = state;
    double t = 1.0;
    for (int trial = 0; trial < 50; ++trial, t *= 0.5) {
      for (std::size_t k = 0; k < move.size(); ++k) next.tapes[k] = state.tapes[k] + t * move[k];
      next.near_force = state.near_force;
      hang_all(next);
      const EquilibriumSolver::Miss there = solver_.linearise(next);
      if (std::isfinite(there.force) && slope_along(solver_.unbalanced_, move) >= -0.5 * slope) break;
    }
    state = next;
  }
  return kMostSteps;
}

}  // namespace spanloom
