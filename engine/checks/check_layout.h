// Checks of the loops and of where the tapes are.
#pragma once

#include <vector>

#include "checks/verdicts.h"

namespace spanloom {

/// Least drop, ankle margin, backup tension, and rings free against locked.
std::vector<Check> check_loops(const Rig& rig, const Plan& plan, UnitSystem units);
/// Spacing against common practice (no published source) and tension against the measured curve.
std::vector<Check> check_practice(const Rig& rig, const Plan& plan, UnitSystem units);

}  // namespace spanloom
