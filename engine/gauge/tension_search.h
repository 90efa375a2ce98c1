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
  std::vector<MethodTension> by;
  std::vector<std::string> notes;
};

struct TensionSearchOutcome {
  std::optional<FoundTension> found;
  std::string why;                       ///< in words, when `found` is empty
};

/// A reading this far from what all others foretell, in standard deviations of the difference, is an outlier, where three
/// or more readings tell of the tension.
inline constexpr double kOutlier = 3.0;

/// @param planned  tension [N]: from a third of it to a bit over twice it is looked at
[[nodiscard]] TensionSearchOutcome find_tension(const LineHanger& hanger, const std::vector<TensionRow>& rows,
                                                const GaugePrior& prior, double planned, UnitSystem units);

}  // namespace spanloom
