// How exact taping must be: the return of a layout as crews in fact tape it, and what a hair too much or too little
// backup does in each bay.
#pragma once

#include <cstdint>
#include <optional>
#include <vector>

#include "spacing/layout_judge.h"

namespace spanloom {

/// What may go wrong with tape in hand.
struct TapingErrors {
  double arm_span = 0.05;                 ///< an arm span is longer or shorter by at most so much, the same all along [-]
  double backup = 0.01;                   ///< each loop by at most so much, each by itself [-]
};

/// The return over many crews.
struct ReturnAsTaped {
  double mean = 0.0, p95 = 0.0;           ///< of the mean return: over the crews, and what one in twenty is above [-]
  std::size_t samples = 0;                ///< lines that stood and were judged
  std::size_t taut = 0;                   ///< lines on which a loop was pulled taut, or that found no rest
};

/// Draws crews that are the same for the same seed. Loops are laid out along the main, so they grow with its bays; the last
/// bay takes the rest.
/// @param samples  > 0
/// @return empty where the layout itself does not stand
[[nodiscard]] std::optional<ReturnAsTaped> return_as_taped(LayoutJudge& judge, const Layout& layout, const TapingErrors& errors,
                                                           std::size_t samples, std::uint64_t seed);

/// What 10 mm of backup more in one bay do, half of the difference between 10 mm more and 10 mm less.
struct BayTouch {
  double drop = 0.0;                      ///< of its loop [m]
  double ankle_margin = 0.0;              ///< of the bay [m]
  double returned = 0.0;                  ///< mean return of the line [-]
};
inline constexpr double kTouch = 0.010;   // [m]

/// One a bay; empty where the layout, or it with 10 mm less in some bay, does not stand.
[[nodiscard]] std::optional<std::vector<BayTouch>> touch_of_bays(LayoutJudge& judge, const Layout& layout);

}  // namespace spanloom
