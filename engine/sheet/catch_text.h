// Main failure and leash fall as a plain report for a terminal: 80 columns, no colour.
#pragma once

#include <string>

#include "checks/check_catch.h"
#include "sheet/page_stack.h"

namespace spanloom {

/// @param verdicts  of the plan of the same rig, of which the worst is said, and of the falls
/// @return lines joined with '\n', the last one included; none wider than 80 columns
std::string catch_text(const Rig& rig, const CatchReport& report, const CatchVerdicts& verdicts, const SheetInfo& info);

}  // namespace spanloom
