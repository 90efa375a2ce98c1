// Distances to the ground: line, foot, the body hanging still, the ground and edges at the anchors.
#pragma once

#include <vector>

#include "checks/verdicts.h"

namespace spanloom {

std::vector<Check> check_clearance(const Rig& rig, const Plan& plan, UnitSystem units);

}  // namespace spanloom
