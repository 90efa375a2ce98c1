// The search against all layouts there are: lines so short, and bounds so coarse, that every phrase can be judged.
// 11.6 m, 14 166 layouts: the best one reads from the near anchor; 12.5 m, 31 797: from both.
#include <gtest/gtest.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <set>
#include <tuple>

#include "spacing/layout_search.h"
#include "support/planned.h"
#include "support/short_rig.h"

namespace spanloom {
namespace {

// Under sanitizers, ten times slower, a line of fewer bays.
#if defined(__SANITIZE_ADDRESS__)
constexpr double kGaps[] = {9.6};
#else
constexpr double kGaps[] = {11.6, 12.5};
#endif
constexpr std::size_t kMostBays = 8;
constexpr std::array<double, 3> kSlacks = {0.006, 0.018, 0.030};

Planned line_of(double gap) {
  Rig rig = short_rig();
  rig.site.gap = gap;
  rig.site.ground = {{0.0, -1.5}, {1.0, -1.5}, {1.0, -8.0}, {gap - 1.0, -8.0}, {gap - 1.0, -1.5}, {gap, -1.5}};
  rig.spacing.pattern = RepeatArmSpans{{1.5}};
  return planned(rig);
}

// Bays of 1, 1.5 and 2 arm spans.
LayoutBounds coarse_bounds(const Planned& line) {
  LayoutBounds bounds;
  bounds.shortest = 2, bounds.longest = 4;
  bounds.least_slack = kSlacks.front(), bounds.most_slack = kSlacks.back(), bounds.slack_step = kSlacks[1] - kSlacks[0];
  bounds.longest_phrase = bounds.longest_slack_phrase = kMostBays;
  bounds.most_tapes = kMostBays - 1;
  bounds.most_backup_tension = line.rig.limits.backup_tension.value;
  return bounds;
}

double small_cost(const FoundLayout& found) { return found.small.mean + 0.25 * found.small.worst; }

// All phrases of three figures up to a length, the shorter ones first.
template <class Figure>
std::vector<std::vector<Figure>> all_phrases(const std::array<Figure, 3>& figures, std::size_t longest) {
  std::vector<std::vector<Figure>> all = {{}};
  for (std::size_t i = 0; i < all.size(); ++i) {
    for (const Figure figure : figures) {
      if (all[i].size() == longest) break;
      std::vector<Figure> longer = all[i];
      longer.push_back(figure);
      all.push_back(std::move(longer));
    }
  }
  all.erase(all.begin());
  return all;
}

class BruteForce {
 public:
  explicit BruteForce(const Planned& line)
      : line_(line), judge_(line.rig, line.plan), rules_(line.rig, line.plan, coarse_bounds(line)) {
    for (const PlanBay& bay : line.plan.bays) main_ += bay.main_natural;
    for (const CountedFrom from : {CountedFrom::near_anchor, CountedFrom::both_anchors}) judge_all(from);
  }

  std::size_t judged = 0;
  double least_cost = INFINITY;         // as the search counts it
  double least_small = INFINITY;        // of those that keep all limits, figures free

 private:
  // Each layout by its shortest phrase: what a longer one makes is passed over.
  void judge_all(CountedFrom from) {
    std::set<std::vector<double>> seen;
    for (const auto& bays : all_phrases<int>({2, 3, 4}, kMostBays)) {
      const auto layout = layout_of(Phrase{bays, {kSlacks[0]}, from}, line_.rig.spacing, main_);
      if (!layout || layout->bays.size() > kMostBays || !seen.insert(layout->bays).second) continue;
      const std::size_t n = layout->bays.size();
      std::set<std::vector<double>> slacks;
      for (const auto& slack : all_phrases(kSlacks, from == CountedFrom::near_anchor ? n : (n + 1) / 2)) {
        const auto slacked = layout_of(Phrase{bays, slack, from}, line_.rig.spacing, main_);
        if (slacks.insert(slacked->slack).second) take({bays, slack, from}, *slacked);
      }
    }
  }

  void take(const Phrase& phrase, const Layout& layout) {
    const auto score = judge_.judge(layout);
    ++judged;
    if (!score) return;
    FoundLayout found{phrase, layout, {score->return_mean, score->return_worst}, std::nullopt, rules_.broken(layout, *score), 0.0};
    least_cost = std::min(least_cost, cost_of(found));
    if (found.broken == 0.0) least_small = std::min(least_small, small_cost(found));
  }

  const Planned& line_;
  LayoutJudge judge_;
  LimitRules rules_;
  double main_ = 0.0;
};

TEST(LayoutSearch, FindsNothingWorseThanTheBestOfAllLayoutsThereAre) {
  for (const double gap : kGaps) {
    const Planned line = line_of(gap);
    const BruteForce all(line);
    ASSERT_LT(all.least_small, INFINITY);
    SearchOptions options;
    options.island.bounds = coarse_bounds(line);
    options.island.judgements = 500;
    options.islands = 8;
    for (std::uint64_t seed = 1; seed <= 2; ++seed) {
      options.island.seed = seed;
      const SearchResult found = search_layouts(line.rig, line.plan, nullptr, options);
      EXPECT_EQ(found.judged, 4000u);
      ASSERT_FALSE(found.pool.empty());
      const FoundLayout& best = *found.pool.best();
      EXPECT_EQ(best.broken, 0.0);
      EXPECT_NEAR(best.cost, all.least_cost, 1e-9) << gap << " m, seed " << seed << ", of " << all.judged;
      // Of a return for its own sake a phrase gives up what its figures cost: 0.001 each of at most 16, 0.004 for one end.
      EXPECT_LE(small_cost(best), all.least_small + 0.020);
    }
  }
}

}  // namespace
}  // namespace spanloom
