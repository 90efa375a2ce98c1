// How exact taping must be: the return of a layout as crews in fact tape it, and what a hair too much or too little
// backup does in each bay.
#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "spacing/layout_judge.h"

namespace spanloom {

/// What may go wrong with tape in hand.
struct TapingErrors {
  double arm_span = 0.05;                 ///< an arm span is longer or shorter by at most so much, the same all along [-]
  double backup = 0.01;                   ///< each loop by at most so much, each by itself [-]
};

/// @throws InputError "errors" where one is below 0 or so large that nothing would be left
void check_errors(const TapingErrors& errors);

/// "arm span +-5 %, each loop +-1 %".
std::string in_words(const TapingErrors& errors);

/// One crew's line.
struct TapedLine { std::vector<double> bays, loops; };   ///< natural lengths [m]

/// Bays grow and shrink with the arm span, and loops with their bays. So at the far end a crew leaves a tape out or puts one
/// more in: the last bay is never less than half of what it, or the bay before it, was to be. The same for the same seed and number, whoever asks.
/// @param loops  as planned, LayoutJudge::loop_lengths() [m]
TapedLine taped_by(std::size_t crew, const Layout& layout, const std::vector<double>& loops,
                                  const TapingErrors& errors, std::uint64_t seed);

/// The return over many crews.
struct ReturnAsTaped {
  double mean = 0.0, p95 = 0.0;           ///< of the mean return: over the crews, and what one in twenty is above [-]
  double spread = 0.0;                    ///< standard deviation of the crews' returns; 0 of one crew [-]
  std::size_t samples = 0;                ///< lines that stood and were judged
  std::size_t taut = 0;                   ///< lines on which a loop was pulled taut, or that found no rest
};

/// @param of_crews  mean return of each crew's line [-], empty where it is taut
ReturnAsTaped as_taped(const std::vector<std::optional<double>>& of_crews);

/// Mean return in small motion of one crew's line; empty where it is taut.
[[nodiscard]] std::optional<double> small_return_of(LayoutJudge& judge, const TapedLine& line);

/// In small motion. @param samples  > 0
/// @return empty where the layout itself does not stand
[[nodiscard]] std::optional<ReturnAsTaped> return_as_taped(LayoutJudge& judge, const Layout& layout, const TapingErrors& errors,
                                                           std::size_t samples, std::uint64_t seed);

/// What 10 mm of backup more in one bay do, half of the difference between 10 mm more and 10 mm less.
struct BayTouch {
  double drop = 0.0;                      ///< of its loop [m]
  double ankle_margin = 0.0;              ///< of the bay [m]
  double returned = 0.0;                  ///< mean return of the line, in small motion [-]
};
inline constexpr double kTouch = 0.010;   // [m]

/// One a bay; empty where the layout, or it with 10 mm less in some bay, does not stand.
[[nodiscard]] std::optional<std::vector<BayTouch>> touch_of_bays(LayoutJudge& judge, const Layout& layout);

}  // namespace spanloom
