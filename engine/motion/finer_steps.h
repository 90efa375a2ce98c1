// A run whose ledger does not close is dropped and tried again with half the time step.
#pragma once

namespace spanloom {

/// Tries with a step [s], then with its half, at most four times halved. @param attempt  step -> std::optional
/// @return the first that is not empty, or empty
template <class Attempt>
auto with_finer_steps(double step, Attempt attempt) -> decltype(attempt(step)) {
  constexpr int kMostHalvings = 4;
  for (int halving = 0; halving <= kMostHalvings; ++halving, step *= 0.5) {
    if (auto result = attempt(step)) return result;
  }
  return {};
}

}  // namespace spanloom
