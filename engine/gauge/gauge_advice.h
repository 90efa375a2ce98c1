// What to do about a line that hangs otherwise than planned: pull in or let out, and which bays to retape.
#pragma once

#include "gauge/gauge.h"
#include "gauge/line_as_hung.h"

namespace spanloom {

/// Within this share of the planned tension a line is as planned. Our choice: no rigger stands closer to it.
inline constexpr double kAsPlanned = 0.05;
/// From here on a loop is retaped where its drop, at the planned tension, is this far from its plan [m], or so large a
/// share of it. Our choice.
inline constexpr double kDropApart = 0.02, kDropShare = 0.15;

/// Whether so much is left over readings beyond the unknowns that they contradict each other: three standard deviations above
/// what is usual (chi-squared of n has mean n and variance 2 n). Of one reading alone: two standard deviations that no tension
/// explains.
bool readings_contradict(double misfit, int freedom);

/// Fills in advice, pull and main_length. Needs tension, its deviation and interval, and planned_tension.
/// @return false where a line was not proven
[[nodiscard]] bool advise_main(GaugeReport& report, const LineHanger& hanger, const HungState& found);

/// Says which loops to retape and why. Needs loops, plan and checks of the line as it hangs.
/// @return false where a line was not proven
[[nodiscard]] bool advise_loops(GaugeReport& report, const LineHanger& hanger, UnitSystem units);

}  // namespace spanloom
