// Main failure and leash fall on the sheet: numbers, the clear height needed, the worst fall as a picture.
#pragma once

#include <vector>

#include "checks/verdicts.h"
#include "events/catch_report.h"
#include "rig/rig.h"
#include "sheet/page_stack.h"

namespace spanloom {

/// One block: warnings, the clear height, a table of both kinds of fall, the worst main failure from the side.
/// @param checks  of the falls, others may stand among them
void add_catch(PageStack& pages, const Rig& rig, const CatchReport& report, const std::vector<Check>& checks);

}  // namespace spanloom
