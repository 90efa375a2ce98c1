// The search for layouts that kill the return: many small populations of phrases that grow apart from each other, so
// that they may be grown on any threads or machines and come together to the same answer.
#pragma once

#include <cstdint>
#include <functional>
#include <map>
#include <vector>

#include "spacing/layout_judge.h"
#include "spacing/phrase.h"

namespace spanloom {

/// What a layout must keep.
struct LayoutBounds {
  int shortest = 2, longest = 6;          ///< bay [half arm spans]; close bays and what is left over are not asked
  std::size_t most_tapes = 1000;
  double least_slack = 0.005, most_slack = 0.03;  ///< of a bay [-]
  double slack_step = 0.001;              ///< [-]
  double most_drop = 0.5;                 ///< of a loop [m]
};

/// Common practice, no published source: bays of 1 to 3 arm spans below 100 m and 2 to 4 above, half to one less than
/// that on very short lines; slack from half to twice the rig's own.
LayoutBounds usual_bounds(const Rig& rig, const Plan& plan);

struct SearchOptions {
  LayoutBounds bounds;
  std::uint64_t seed = 1;
  std::size_t islands = 40;               ///< populations
  std::size_t judgements = 250;           ///< of each
  unsigned threads = 1;
  /// @return false to stop: what was found so far is given. One call at a time. @param best  return so far [-]
  std::function<bool(std::size_t judged, std::size_t all, double best)> progress;
};

struct FoundLayout {
  Phrase phrase;
  Layout layout;
  LayoutScore score;
  /// Mean return and a quarter of the worst, and for each limit that is broken as much as it is broken [-].
  double cost = 0.0;
  bool keeps_limits = false;              ///< ankle margin, least and greatest drop, by the judge's rules
};

/// The best of each number of tapes.
using BestByTapes = std::map<std::size_t, FoundLayout>;

/// One population. The same for the same rig, bounds, seed and number of the island.
/// @param keep_on  asked after each judgement; may be empty
BestByTapes grow_island(const Rig& rig, const Plan& plan, const SearchOptions& options, std::size_t island,
                        const std::function<bool(double best)>& keep_on = {});

/// The better of both for each number of tapes; in whatever order islands come together, the answer is one.
void join(BestByTapes& into, const BestByTapes& other);

struct SearchResult {
  BestByTapes best;
  std::size_t judged = 0;
  bool stopped = false;
};

/// All islands from `first` to before `last`, on as many threads as asked.
[[nodiscard]] SearchResult search_layouts(const Rig& rig, const Plan& plan, const SearchOptions& options, std::size_t first, std::size_t last);

}  // namespace spanloom
