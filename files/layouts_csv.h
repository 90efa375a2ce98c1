// Layouts as CSV, for a spreadsheet: units in the head.
#pragma once

#include <string>

#include "spacing/space_report.h"

namespace spanloom {

/// One row a bay: of the line as it is, of the even line, of each point of the trade-off. Cells of what 10 mm more backup
/// do are empty where it is not known.
std::string layouts_csv(const SpaceReport& report);

}  // namespace spanloom
