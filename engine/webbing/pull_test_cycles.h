// The load cycles of a pull test: where loading and unloading turn, what is left of the stretch between them.
#pragma once

#include <cstddef>
#include <span>
#include <vector>

namespace spanloom {

/// One reading of a pull test, in order of time.
struct PullSample {
  double tension;  ///< as read, noise around 0 included [N]
  double stretch;  ///< l / L0 - 1, L0 the length without load before the first cycle [-]
};

/// A loading and the unloading after it, by the indices of the samples where the tension turns.
struct LoadCycle {
  std::size_t from;  ///< least tension before the loading
  std::size_t peak;  ///< greatest tension
  std::size_t to;    ///< least tension after it; `peak` where the test ends loaded
};

/// Cuts a test into cycles. The tension turns where it has come back from its last extreme by more than a
/// threshold, so that noise and small slips do not count. What comes before the first loading is left out.
/// @param threshold  [N], > 0
std::vector<LoadCycle> split_into_cycles(std::span<const PullSample> samples, double threshold);

/// Stretch at which a branch carries nothing [-]: a straight line of stretch over tension, by least squares, through the
/// samples within `window` of the least tension (at least five of them), read at zero. Where the branch never comes to
/// zero this is its continuation, and the window at least as wide as what is missing.
/// @param branch  a loading or an unloading, not empty @param window  [N], > 0
double stretch_without_load(std::span<const PullSample> branch, double window);

/// Work per natural length along samples in their order, the integral of tension over stretch by the rule of trapezia
/// [N, J/m]. Negative while the stretch goes back.
double work_along(std::span<const PullSample> samples);

}  // namespace spanloom
