// What nobody may read past in a catch report.
#pragma once

#include <string>
#include <vector>

#include "base/quantity_text.h"
#include "checks/verdicts.h"
#include "events/catch_report.h"
#include "rig/rig.h"

namespace spanloom {

/// Whether a check of falls finds a force greater than what takes it.
bool breaks(const Check& check);
/// Whether any of them does, or finds legs that cannot hold.
bool any_breaks(const std::vector<Check>& checks);
/// Says behind the words of a check that something breaks, where it does.
void say_break(Check& check);

/// Sentences that begin in capitals: nothing holds the walker, something breaks, the ground is hit. None where nothing
/// of that happens.
/// @param checks  those of judge_catch(), others may stand between them
std::vector<std::string> catch_warnings(const Rig& rig, const CatchReport& report, const std::vector<Check>& checks,
                                        UnitSystem units);

}  // namespace spanloom
