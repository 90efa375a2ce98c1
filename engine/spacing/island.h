// One population of phrases that grows by itself: the same for the same rig, bounds, seed and number, wherever it grows.
#pragma once

#include <cstdint>
#include <functional>

#include "rig/rig.h"
#include "spacing/layout_bounds.h"
#include "spacing/layout_pool.h"
#include "spacing/moved_return.h"
#include "statics/plan.h"

namespace spanloom {

struct IslandOptions {
  LayoutBounds bounds;
  std::uint64_t seed = 1;
  std::size_t judgements = 250;           ///< by small motion, of each island
  std::size_t glances = 4;                ///< at full-size shakes, of each island; 0: small motion alone
};

/// @param moved    null: no glances
/// @param keep_on  asked after each judgement and each glance with the best return so far [-], infinite where none keeps
///                 all limits yet; may be empty
/// @return what was glanced at; without glances, or stopped before any, what was judged
LayoutPool grow_island(const Rig& rig, const Plan& plan, const MovedJudge* moved, const IslandOptions& options, std::size_t number,
                       const std::function<bool(double best)>& keep_on = {});

}  // namespace spanloom
