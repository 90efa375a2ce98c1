// Numbers of a shake report as report, figure and picture all need them.
#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <vector>

#include "motion/shake_report.h"

namespace spanloom {

/// The lines that have at least one shake in a direction, in the order rig, even, bare.
std::vector<ComparedLine> lines_shaken(const ShakeReport& report, ShakeDirection direction);

/// "this rig", "evenly taped", "no loops".
const char* label_of(ComparedLine line);

/// Whole percent without its sign: what is behind the point is chance, since loops snap tight.
std::string whole_percent(double share);

/// "0.5", "3.15": a frequency without zeros that say nothing [Hz].
std::string hertz(double frequency);

/// What a quick look leaves out, in words for the head of report and sheet.
const char* quick_look_words();

/// What to do after a line was shaken; empty where it has no loops.
const char* after_a_shake(const ShakeReport& report);

/// Bays in full, runs of three and more as ranges: "bay 3", "bays 3, 4, 6 to 17". @param bays  not empty, ascending
std::string bays_text(const std::vector<std::size_t>& bays);

/// The result of the shake that the picture shows; null if it is not there.
const ShakeResult* pictured_result(const ShakeReport& report);

}  // namespace spanloom
