// The tape list as CSV, for a spreadsheet or a label printer.
#pragma once

#include <string>

#include "rig/rig.h"
#include "statics/plan.h"

namespace spanloom {

/// One row a tape in rigging order, the last one the far end; metres and millimetres, units in the head.
std::string tapes_csv(const Rig& rig, const Plan& plan);

}  // namespace spanloom
