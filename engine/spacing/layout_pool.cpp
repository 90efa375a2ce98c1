#include "spacing/layout_pool.h"

#include <algorithm>
#include <tuple>

namespace spanloom {
namespace {

constexpr double kWorstCounts = 0.25;
// Full-size shakes of lines as crews tape them are what counts; small motion says little of them (docs/spacing.md).
constexpr double kGlanceCounts = 0.9;
constexpr double kFigure = 0.001;         // return that one figure less to call out is worth
constexpr double kFromOneEnd = 0.004;     // return that reading the same from both ends is worth
constexpr double kBroken = 1.0, kBrokenMore = 10.0;   // for a limit broken at all, and for a metre or kilonewton of it

bool before(const FoundLayout& a, const FoundLayout& b) { return std::tie(a.cost, a.phrase) < std::tie(b.cost, b.phrase); }

}  // namespace

double cost_of(const FoundLayout& found) {
  const double small = found.small.mean + kWorstCounts * found.small.worst;
  double cost = found.glanced ? kGlanceCounts * found.glanced->mean + (1.0 - kGlanceCounts) * small : small;
  cost += kFigure * double(found.phrase.bays.size() + found.phrase.slack.size());
  if (found.phrase.from == CountedFrom::near_anchor) cost += kFromOneEnd;
  if (found.broken > 0.0) cost += kBroken + kBrokenMore * found.broken;
  return cost;
}

void LayoutPool::take(const FoundLayout& found) {
  std::vector<FoundLayout>& kept = by_tapes_[found.tapes()];
  const auto same = std::find_if(kept.begin(), kept.end(), [&](const FoundLayout& other) { return other.layout == found.layout; });
  if (same != kept.end()) {
    if (!before(found, *same)) return;
    kept.erase(same);
  }
  kept.insert(std::upper_bound(kept.begin(), kept.end(), found, before), found);
  if (kept.size() > kKeptOfEach) kept.pop_back();
}

void LayoutPool::join(const LayoutPool& other) {
  for (const auto& [tapes, kept] : other.by_tapes_) {
    for (const FoundLayout& found : kept) take(found);
  }
}

std::size_t LayoutPool::size() const {
  std::size_t size = 0;
  for (const auto& [tapes, kept] : by_tapes_) size += kept.size();
  return size;
}

std::vector<const FoundLayout*> LayoutPool::all() const {
  std::vector<const FoundLayout*> all;
  for (const auto& [tapes, kept] : by_tapes_) {
    for (const FoundLayout& found : kept) all.push_back(&found);
  }
  std::sort(all.begin(), all.end(), [](const FoundLayout* a, const FoundLayout* b) { return before(*a, *b); });
  return all;
}

const FoundLayout* LayoutPool::best() const {
  const auto in_order = all();
  return in_order.empty() ? nullptr : in_order.front();
}

}  // namespace spanloom
