// Strength over greatest force: webbings at their ends, links, anchors.
#pragma once

#include <vector>

#include "checks/verdicts.h"

namespace spanloom {

/// Main and backup webbing, dry and wet, with what their ends leave of the strength; every link.
std::vector<Check> check_strength(const Rig& rig, const Plan& plan, UnitSystem units);
/// Each anchor under main and backup together.
std::vector<Check> check_anchors(const Rig& rig, const Plan& plan, UnitSystem units);

}  // namespace spanloom
