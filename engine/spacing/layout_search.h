// The search for layouts that kill the return: many small populations that grow apart from each other, so that they may be
// grown on any threads or machines and come together to the same answer.
#pragma once

#include <functional>

#include "spacing/island.h"

namespace spanloom {

/// Islands `number`, `number + of`, `number + 2 of` ... of all.
struct Part {
  std::size_t number = 1;                 ///< from 1
  std::size_t of = 1;
};

/// @throws InputError "part" where its number is not from 1 to `of`
void check_part(const Part& part);

struct SearchOptions {
  IslandOptions island;
  std::size_t islands = 24;
  Part part;
  unsigned threads = 1;
  /// @return false to stop: what was found so far is given. One call at a time. @param done  share of the work [-]
  /// @param best  return so far [-], infinite where there is none yet
  std::function<bool(double done, double best)> progress;
};

struct SearchResult {
  LayoutPool pool;
  std::size_t judged = 0, glanced = 0;    ///< how often
  bool stopped = false;
};

/// The same on any number of threads. @param moved  null: small motion alone
/// @throws InputError as check_part() and check_bounds()
[[nodiscard]] SearchResult search_layouts(const Rig& rig, const Plan& plan, const MovedJudge* moved, const SearchOptions& options);

}  // namespace spanloom
