// Page 1: title, elevation, the numbers asked for first.
#pragma once

#include <string>
#include <vector>

#include "checks/verdicts.h"
#include "rig/rig.h"
#include "sheet/page_stack.h"
#include "statics/plan.h"

namespace spanloom {

/// @param falls_line  about the falls, one line; empty where none were computed
void add_front_page(PageStack& pages, const Rig& rig, const Plan& plan, const std::vector<Check>& checks,
                    const std::string& falls_line = "");

}  // namespace spanloom
