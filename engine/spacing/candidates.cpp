#include "spacing/candidates.h"

#include <algorithm>
#include <cmath>

#include "base/parallel.h"
#include "spacing/by_turns.h"

namespace spanloom {
namespace {

std::vector<const FoundLayout*> in_turn(const LayoutPool& pool) {
  const std::vector<const FoundLayout*> by_cost = pool.all();
  std::vector<const FoundLayout*> few;
  double least = INFINITY;
  for (const auto& [tapes, kept] : pool.by_tapes()) {
    if (kept.front().cost < least) few.push_back(&kept.front());
    least = std::min(least, kept.front().cost);
  }
  std::reverse(few.begin(), few.end());   // the best of all first
  std::vector<const FoundLayout*> turn = by_turns(few, by_cost);
  std::erase_if(turn, [](const FoundLayout* found) { return found->broken > 0.0; });
  return turn;
}

}  // namespace

Candidates choose_candidates(const Rig& rig, const LayoutPool& pool, const std::vector<Check>& own, double most_backup_tension,
                             std::size_t most, unsigned threads, UnitSystem units) {
  const std::vector<const FoundLayout*> turn = in_turn(pool);
  Candidates candidates;
  for (std::size_t next = 0; next < turn.size() && candidates.kept.size() < most;) {
    const std::size_t count = std::min(most - candidates.kept.size(), turn.size() - next);
    std::vector<std::optional<ProvenLayout>> proven(count);
    in_parallel(count, threads, [&](std::size_t i) {
      proven[i] = prove_layout(rig, turn[next + i]->layout, own, most_backup_tension, units);
    }, {});
    for (std::size_t i = 0; i < count; ++i) {
      if (proven[i] && proven[i]->breaks.empty()) {
        candidates.kept.push_back({*turn[next + i], std::move(*proven[i])});
        continue;
      }
      ++candidates.failed;
      if (proven[i]) candidates.why = proven[i]->breaks.front();
    }
    next += count;
  }
  return candidates;
}

}  // namespace spanloom
