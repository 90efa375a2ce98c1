// A report of a search for spacing as JSON: SI throughout, the unit at the end of each key; slacks and returns are shares.
#pragma once

#include <string>

#include "rig/rig.h"
#include "spacing/space_report.h"

namespace spanloom {

/// The report as one JSON document, indented, ending with a line end. Of the layouts the chosen one stands first, then the
/// others by rising numbers of tapes. `return_...` are of full-size shakes, each on a line as another crew tapes it;
/// `return_p95` and `return_taped_mean`, over whole crews, are of those from 1.25 Hz alone and go with `return_glance`, the
/// same as planned; `small` is small motion. `touch` is what 10 mm more backup in a bay do. What does not exist (returns of
/// a layout that was not shaken, crews that did not tape it, a phrase of the line as it is, an even line, lines at random,
/// checks where nothing was chosen) is null.
std::string space_json(const Rig& rig, const SpaceReport& report);

}  // namespace spanloom
