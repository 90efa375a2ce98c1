// A shake report as JSON: SI throughout, the unit at the end of each key.
#pragma once

#include <string>

#include "motion/shake_report.h"
#include "rig/rig.h"

namespace spanloom {

/// The report as one JSON document, indented, ending with a line end. What does not exist (a settling time of any but
/// the worst case or of a line that did not settle, natural frequencies that were not computed, the ledger of a worst
/// case that was not reached) is null.
std::string shake_json(const Rig& rig, const ShakeReport& report);

}  // namespace spanloom
