// How often this line swings as a whole, and which peaks a spectrum of it shows.
#pragma once

#include <cstddef>
#include <optional>
#include <vector>

#include "gauge/line_as_hung.h"
#include "gauge/readings.h"

namespace spanloom {

struct BellySwing {
  double frequency = 0.0;          ///< [Hz]
  /// How much of the main's swing in so many half waves this one mode carries, of all modes up to a third above a bare
  /// main's [-]. Where loops swing about as fast, several modes share it.
  double share = 0.0;
};

/// The natural mode that carries most of the main's swing in so many half waves.
/// @return empty where none was found
[[nodiscard]] std::optional<BellySwing> belly_swing(const HungLine& hung, SwingWay way, int bellies);

/// Where the response of a place has a peak nearest to a frequency, as a record of a given length would show it: peaks less
/// than a resolution apart are one, and peaks below a fifth of the greatest nearby are none.
/// @param duration  of the record [s]
/// @return [Hz]; empty where there is no peak within a quarter of the frequency
[[nodiscard]] std::optional<double> response_peak(const HungLine& hung, std::size_t node, SwingWay way, double near_Hz,
                                                  double duration);

}  // namespace spanloom
