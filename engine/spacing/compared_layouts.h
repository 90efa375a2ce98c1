// Layouts that found ones are compared with: even bays, and bays drawn at random.
#pragma once

#include <cstddef>
#include <cstdint>
#include <vector>

#include "rig/rig.h"
#include "spacing/layout.h"
#include "spacing/layout_bounds.h"
#include "statics/plan.h"

namespace spanloom {

/// Share of slack over all bays of a plan [-].
double slack_over_all(const Plan& plan);

/// So many even bays over the main of a plan, the slack of all its bays in each. @param bays  > 0
Layout even_layout(const Plan& plan, std::size_t bays);

/// Bays drawn evenly between the shortest and the longest, from the near anchor, close bays of the rig kept, the last bay
/// taking the rest; the slack of all bays of the plan in each. Limits are not asked: chance does not either.
std::vector<Layout> random_layouts(const Rig& rig, const Plan& plan, const LayoutBounds& bounds, std::size_t count, std::uint64_t seed);

}  // namespace spanloom
