// Falls as CSV, for a spreadsheet: SI, units in the head.
#pragma once

#include <string>

#include "events/catch_report.h"
#include "rig/rig.h"

namespace spanloom {

/// One row a fall, main failures first, the worst first of each. Cells of the body are empty where nothing held the
/// walker, distances where there is no ground or wall, tape strength where tapes never tear.
std::string falls_csv(const Rig& rig, const CatchReport& report);

/// The way of the body: one row a moment, of the fall with the greatest force on the body of each kind.
std::string fall_path_csv(const CatchReport& report);

}  // namespace spanloom
