// What a shake report means, in sentences for a rigger.
#pragma once

#include "motion/shake_report.h"

namespace spanloom {

/// Fills in sentences and notes from what the report holds.
void say(ShakeReport& report, const MovingRig& rig, UnitSystem units);

}  // namespace spanloom
