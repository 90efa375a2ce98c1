// Results as JSON: SI throughout, the unit at the end of each key.
#pragma once

#include <string>
#include <vector>

#include "checks/verdicts.h"
#include "rig/rig.h"
#include "statics/plan.h"

namespace spanloom {

/// The plan as one JSON document, indented, ending with a line end. Values that do not exist (clearance
/// without a ground, a check that lacks an input) are null.
std::string plan_json(const Rig& rig, const Plan& plan, const std::vector<Check>& checks);

}  // namespace spanloom
