// What each anchor and its legs feel in the states that matter.
#pragma once

#include <vector>

#include "base/quantity_text.h"
#include "events/catch_report.h"

namespace spanloom {

/// Standing, the worst walker of the plan, two people, wind, all leash falls and all main failures that are told, in this
/// order; those not computed are left out. In each also what every other point carries when one is gone.
/// @param end  which anchor
std::vector<AnchorState> anchor_states(const Rig& rig, const Plan& plan, const CatchReport& report, AnchorEnd end, UnitSystem units);

}  // namespace spanloom
