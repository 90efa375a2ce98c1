// The tape list, at 14 pt: read off the paper with cold hands and ticked off with a pen.
#pragma once

#include "rig/rig.h"
#include "sheet/page_stack.h"
#include "statics/plan.h"

namespace spanloom {

void add_tape_list(PageStack& pages, const Rig& rig, const Plan& plan);

}  // namespace spanloom
