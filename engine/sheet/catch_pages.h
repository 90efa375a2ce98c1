// Main failure and leash fall on the sheet: numbers, the clear height needed, the worst fall as a picture.
#pragma once

#include "events/catch_report.h"
#include "rig/rig.h"
#include "sheet/page_stack.h"

namespace spanloom {

/// One block: what it means, a table of both kinds of fall, the worst main failure from the side.
void add_catch(PageStack& pages, const Rig& rig, const CatchReport& report);

}  // namespace spanloom
