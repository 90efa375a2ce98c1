// Finds the tension that readings tell of: over the whole range first, then closely; names outliers.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "gauge/gauge.h"
#include "gauge/tension_fit.h"

namespace spanloom {

struct FoundTension {
  TensionFit fit;
  std::vector<char> used;                ///< rows that were not left out
  /// Rows that this line foretells nothing steady for near the tension: left out too.
  std::vector<char> unsteady;
  /// Readings contradict each other, and no majority says which are wrong: all count.
  bool torn = false;
  std::vector<MethodTension> by;
  std::vector<std::string> notes;
};

struct TensionSearchOutcome {
  std::optional<FoundTension> found;
  std::string why;                       ///< in words, when `found` is empty
};

/// What is foretold is steady where, from one tension of a table to the next, it goes with the root of the tension within
/// this share (pulses and swings): else it jumps from one return or mode to another. Our choice.
inline constexpr double kSteady = 0.03;

/// A reading this far from what all others foretell, in standard deviations of the difference, is an outlier, if more than half of
/// all are left without it.
inline constexpr double kOutlier = 3.0;

/// @param planned  tension [N]: from a third of it to a bit over twice it is looked at
[[nodiscard]] TensionSearchOutcome find_tension(const LineHanger& hanger, const std::vector<TensionRow>& rows,
                                                const GaugePrior& prior, double planned, UnitSystem units);

}  // namespace spanloom
