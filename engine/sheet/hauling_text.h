// Pulling a main up and letting it down, as a plain report for a terminal: 80 columns, no colour.
#pragma once

#include <string>
#include <vector>

#include "checks/verdicts.h"
#include "hauling/hauling_report.h"
#include "rig/rig.h"
#include "sheet/page_stack.h"

namespace spanloom {

/// @param options  that the report was made with
/// @param checks   of the plan
/// @return lines joined with '\n', the last one included; none wider than 80 columns
std::string hauling_text(const Rig& rig, const HaulingReport& report, const HaulingOptions& options,
                         const std::vector<Check>& checks, const SheetInfo& info);

/// "5 parts", "3 x 3 parts".
std::string parts_words(const PulleySet& set);

}  // namespace spanloom
