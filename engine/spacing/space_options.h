// What a search for spacing is asked, and how much work it makes of that.
#pragma once

#include <cstddef>
#include <cstdint>
#include <functional>
#include <optional>

#include "base/quantity_text.h"
#include "spacing/layout_bounds.h"
#include "spacing/layout_search.h"
#include "spacing/taping_errors.h"

namespace spanloom {

/// How far the work is, for people.
struct SpaceProgress {
  const char* stage = "";                 ///< "searching", "shaking", ...
  double done = 0.0;                      ///< share of all work, by and large [-]
  std::optional<double> best;             ///< least return so far [-]
};

struct SpaceOptions {
  LayoutBounds bounds;                    ///< usual_bounds() of the rig, changed at will
  TapingErrors errors;                    ///< how exactly the crew tapes
  std::uint64_t seed = 1;
  std::size_t effort = 1;                 ///< so many times the usual islands and crews; rounds too, up to eight times
  bool quick = false;                     ///< a first look: a sixth of the usual work
  std::optional<std::size_t> tapes;       ///< choose the point with so many, or the next fewer
  unsigned threads = 1;
  UnitSystem units = UnitSystem::metric;  ///< of sentences
  std::function<bool(const SpaceProgress&)> progress;  ///< false stops. One call at a time
};

/// How much of everything.
struct SpaceWork {
  std::size_t islands = 12, judgements = 500, glances = 4;   ///< of the search
  std::size_t tried = 20, finalists = 8;   ///< layouts judged again, and those of them judged more
  std::size_t random = 4;                  ///< layouts at random
  std::size_t small_crews = 40, moved_crews = 12;
  /// Rounds of shakes: the search has round 0, the choice goes by the next, what is told comes from others still, so that
  /// no luck of the choice is told.
  std::size_t first_rounds = 1, final_rounds = 3, told_rounds = 2;
};
SpaceWork work_of(const SpaceOptions& options);

/// Shares of all work, by and large, at the end of each stage.
inline constexpr double kSearched = 0.35, kHalfChosen = 0.5, kChosen = 0.6, kToldAll = 0.85;

/// The search that is asked for, or a part of it. @param options  outlives it
SearchOptions search_of(const SpaceOptions& options, const Part& part);

}  // namespace spanloom
