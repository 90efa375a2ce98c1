#include "spacing/space_options.h"

#include <algorithm>
#include <cmath>

namespace spanloom {
namespace {

constexpr std::size_t kMostRounds = 8;     // times the usual ones

}  // namespace

SpaceWork work_of(const SpaceOptions& options) {
  SpaceWork work;
  if (options.quick) work = {3, 250, 3, 6, 3, 2, 20, 4, 1, 1, 1};
  work.islands *= std::max<std::size_t>(1, options.effort);
  work.moved_crews *= std::max<std::size_t>(1, options.effort);
  for (std::size_t* rounds : {&work.first_rounds, &work.final_rounds, &work.told_rounds}) {
    *rounds *= std::clamp<std::size_t>(options.effort, 1, kMostRounds);
  }
  return work;
}

SearchOptions search_of(const SpaceOptions& options, const Part& part) {
  const SpaceWork work = work_of(options);
  SearchOptions search;
  search.island = {options.bounds, options.seed, work.judgements, work.glances};
  search.islands = work.islands;
  search.part = part;
  search.threads = options.threads;
  if (options.progress) {
    search.progress = [&options](double done, double best) {
      return options.progress({"searching", kSearched * done, std::isfinite(best) ? std::optional(best) : std::nullopt});
    };
  }
  return search;
}

}  // namespace spanloom
