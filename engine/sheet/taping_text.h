// How exactly a rig must be taped, as a plain report for a terminal: 80 columns, no colour.
#pragma once

#include <string>
#include <vector>

#include "rig/rig.h"
#include "sheet/page_stack.h"
#include "spacing/taping_study.h"
#include "statics/plan.h"

namespace spanloom {

/// @param plan    of the rig
/// @param errors  of the crews
/// @param touch   of each bay; empty where 10 mm less pull a loop taut
/// @return lines joined with '\n', the last one included; none wider than 80 columns
std::string taping_text(const Rig& rig, const Plan& plan, const TapingErrors& errors, const TapingStudy& study,
                        const std::vector<BayTouch>& touch, const SheetInfo& info);

}  // namespace spanloom
