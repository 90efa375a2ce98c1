// The plan as a plain report for a terminal: 80 columns, no colour.
#pragma once

#include <string>
#include <vector>

#include "checks/verdicts.h"
#include "rig/rig.h"
#include "sheet/page_stack.h"
#include "statics/plan.h"

namespace spanloom {

/// @return lines joined with '\n', the last one included; none wider than 80 columns
std::string text_report(const Rig& rig, const Plan& plan, const std::vector<Check>& checks,
                        const SheetInfo& info);

}  // namespace spanloom
