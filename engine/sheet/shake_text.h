// What a shake does, as a plain report for a terminal: 80 columns, no colour.
#pragma once

#include <string>
#include <vector>

#include "checks/verdicts.h"
#include "motion/shake_report.h"
#include "rig/rig.h"
#include "sheet/page_stack.h"

namespace spanloom {

/// @param checks  of the plan of the same rig: a line that must not be walked is not worth calming
/// @return lines joined with '\n', the last one included; none wider than 80 columns
std::string shake_text(const Rig& rig, const ShakeReport& report, const std::vector<Check>& checks,
                       const SheetInfo& info);

}  // namespace spanloom
