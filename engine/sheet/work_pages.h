// Lengths to cut or pull, and what to carry.
#pragma once

#include "rig/rig.h"
#include "sheet/page_stack.h"
#include "statics/plan.h"

namespace spanloom {

void add_lengths(PageStack& pages, const Rig& rig, const Plan& plan);
void add_gear(PageStack& pages, const Rig& rig, const Plan& plan);

}  // namespace spanloom
