// A catch report as JSON: SI throughout, the unit at the end of each key.
#pragma once

#include <string>

#include "checks/check_catch.h"
#include "events/catch_report.h"
#include "rig/rig.h"

namespace spanloom {

/// The report as one JSON document, indented, ending with a line end; falls the worst first. What does not exist is
/// null: numbers of the body where nothing held the walker, the strength of tapes that never tear, a distance to a ground
/// or a wall that is not given, a slack that could not be rigged, the clear height needed where any walker is lost or the
/// run was stopped. Falls with `in_anchor_zone` count by their forces only: no rim stops the body in them.
std::string catch_json(const Rig& rig, const CatchReport& report, const CatchVerdicts& verdicts);

}  // namespace spanloom
