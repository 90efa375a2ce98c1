// Shakes as CSV, for a spreadsheet: SI, units in the head.
#pragma once

#include <string>

#include "motion/shake_report.h"

namespace spanloom {

/// One row a shake. Settling stands only with the worst, and is empty there too where the line did not settle.
std::string shakes_csv(const ShakeReport& report);

/// The motion of the pictured shake: one row a moment, the time and how far the main is from where it stands, in the
/// direction of the shake, at up to kHistoryPlaces places along it.
std::string history_csv(const ShakeReport& report);

inline constexpr std::size_t kHistoryPlaces = 101;

}  // namespace spanloom
