// What each anchor and its legs feel in the states that matter.
#pragma once

#include <vector>

#include "base/quantity_text.h"
#include "events/catch_report.h"

namespace spanloom {

/// Standing, the worst walker of the plan, the worst leash fall and main failure, in this order; those not computed are
/// left out. In each also what every other point carries when one is gone.
/// @param side  which anchor
enum class AnchorEnd { near, far };
std::vector<AnchorState> anchor_states(const Rig& rig, const Plan& plan, const CatchReport& report, AnchorEnd end, UnitSystem units);

}  // namespace spanloom
