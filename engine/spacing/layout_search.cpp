#include "spacing/layout_search.h"

#include <atomic>
#include <cmath>
#include <mutex>

#include <fmt/format.h>

#include "base/input_error.h"
#include "base/parallel.h"

namespace spanloom {
namespace {

constexpr std::size_t kToldEvery = 50;  // judgements
constexpr double kGlanceWork = 400.0;   // of one glance, in judgements: for the progress alone

}  // namespace

void check_part(const Part& part) {
  if (part.number < 1 || part.number > part.of) {
    throw InputError("part", fmt::format("{}/{}", part.number, part.of), "a number from 1 to the number of parts");
  }
}

SearchResult search_layouts(const Rig& rig, const Plan& plan, const MovedJudge* moved, const SearchOptions& options) {
  const Part& part = options.part;
  check_part(part);
  check_bounds(options.island.bounds);
  std::vector<std::size_t> mine;
  for (std::size_t i = part.number - 1; i < options.islands; i += part.of) mine.push_back(i);
  std::vector<LayoutPool> grown(mine.size());
  std::atomic<std::size_t> judged{0}, glanced{0};
  std::atomic<double> best{INFINITY};
  std::atomic<bool> stop{false};
  const bool glances = moved && options.island.glances > 0;
  const double all = double(mine.size()) * (double(options.island.judgements) + (glances ? kGlanceWork * double(options.island.glances) : 0.0));
  std::mutex telling;
  const auto tell = [&] {
    const std::lock_guard<std::mutex> lock(telling);
    const double done = double(judged) + (glances ? kGlanceWork * double(glanced) : 0.0);
    if (options.progress && !options.progress(all > 0.0 ? done / all : 1.0, best)) stop = true;
  };
  const auto grow = [&](std::size_t i) {
    std::size_t done = 0;
    grown[i] = grow_island(rig, plan, moved, options.island, mine[i], [&](double least) {
      for (double before = best; least < before && !best.compare_exchange_weak(before, least);) {
      }
      ++(++done > options.island.judgements ? glanced : judged);
      if (done % kToldEvery == 0 || done > options.island.judgements) tell();
      return !stop;
    });
  };
  SearchResult result;
  result.stopped = !in_parallel(mine.size(), options.threads, grow, [&](std::size_t) {
    tell();
    return !stop;
  });
  for (const LayoutPool& island : grown) result.pool.join(island);
  result.judged = judged;
  result.glanced = glanced;
  return result;
}

}  // namespace spanloom
