#include "spacing/layout_search.h"

#include <gtest/gtest.h>

#include <numeric>

#include "support/planned.h"
#include "support/short_rig.h"

namespace spanloom {
namespace {

SearchOptions small_search(const Planned& line, unsigned threads) {
  SearchOptions options;
  options.bounds = usual_bounds(line.rig, line.plan);
  options.islands = 6;
  options.judgements = 60;
  options.threads = threads;
  return options;
}

void expect_same(const BestByTapes& a, const BestByTapes& b) {
  ASSERT_EQ(a.size(), b.size());
  for (auto i = a.begin(), j = b.begin(); i != a.end(); ++i, ++j) {
    EXPECT_EQ(i->first, j->first);
    EXPECT_EQ(i->second.phrase, j->second.phrase);
    EXPECT_EQ(i->second.cost, j->second.cost);
  }
}

TEST(LayoutSearch, FindsTheSameOnAnyNumberOfThreads) {
  const Planned line = planned(short_rig());
  const SearchResult one = search_layouts(line.rig, line.plan, small_search(line, 1), 0, 6);
  const SearchResult three = search_layouts(line.rig, line.plan, small_search(line, 3), 0, 6);
  EXPECT_EQ(one.judged, 360u);
  EXPECT_FALSE(one.stopped);
  expect_same(one.best, three.best);
}

TEST(LayoutSearch, CutInPartsAndJoinedInAnyOrderGivesTheSame) {
  const Planned line = planned(short_rig());
  const SearchOptions options = small_search(line, 2);
  const SearchResult whole = search_layouts(line.rig, line.plan, options, 0, 6);
  BestByTapes joined;
  for (const std::size_t first : {4u, 0u, 2u}) join(joined, search_layouts(line.rig, line.plan, options, first, first + 2).best);
  expect_same(whole.best, joined);
}

TEST(LayoutSearch, ImprovesOnTheLineItStartsFrom) {
  const Planned line = planned(short_rig());
  const double own = LayoutJudge(line.rig, line.plan).judge(layout_of(line.plan))->return_mean;
  const SearchResult found = search_layouts(line.rig, line.plan, small_search(line, 2), 0, 6);
  double least = INFINITY;
  for (const auto& [tapes, layout] : found.best) {
    EXPECT_EQ(layout.layout.bays.size(), tapes + 1);
    if (layout.keeps_limits) least = std::min(least, layout.score.return_mean);
  }
  EXPECT_LT(least, 0.9 * own);
}

TEST(LayoutSearch, StopsWhenAskedAndGivesWhatItHas) {
  const Planned line = planned(short_rig());
  SearchOptions options = small_search(line, 1);
  options.progress = [](std::size_t, std::size_t, double) { return false; };
  const SearchResult result = search_layouts(line.rig, line.plan, options, 0, 6);
  EXPECT_TRUE(result.stopped);
  EXPECT_LT(result.judged, 360u);
  EXPECT_FALSE(result.best.empty());
}

TEST(Phrase, RepeatedFromTheNearAnchorLeavesTheRestToTheLastBay) {
  Spacing spacing;
  spacing.arm_span = Stated<double>::given(2.0);
  const auto layout = layout_of(Phrase{{2, 3}, {0.01, 0.02, 0.03}, CountedFrom::near_anchor}, spacing, 11.0);
  ASSERT_TRUE(layout);
  EXPECT_NEAR(std::accumulate(layout->bays.begin(), layout->bays.end(), 0.0), 11.0, 1e-9);
  EXPECT_NEAR(layout->bays[0], 2.0, 1e-9);
  EXPECT_NEAR(layout->bays[1], 3.0, 1e-9);
  EXPECT_NEAR(layout->bays[2], 2.0, 1e-9);
  EXPECT_EQ(layout->slack[3 % layout->slack.size()], 0.01);
}

TEST(Phrase, CountedFromBothAnchorsReadsTheSameFromEitherEnd) {
  Spacing spacing;
  spacing.arm_span = Stated<double>::given(1.6);
  for (const double length : {15.0, 17.3, 22.05, 48.8}) {
    const auto layout = layout_of(Phrase{{2, 4, 3}, {0.01, 0.02}, CountedFrom::both_anchors}, spacing, length);
    ASSERT_TRUE(layout);
    const std::size_t n = layout->bays.size();
    EXPECT_NEAR(std::accumulate(layout->bays.begin(), layout->bays.end(), 0.0), length, 1e-9);
    for (std::size_t k = 0; k < n; ++k) {
      EXPECT_NEAR(layout->bays[k], layout->bays[n - 1 - k], 1e-9);
      EXPECT_EQ(layout->slack[k], layout->slack[n - 1 - k]);
      EXPECT_GT(layout->bays[k], 0.4);
    }
  }
}

TEST(Phrase, KeepsTheCloseBaysOfTheRig) {
  Spacing spacing;
  spacing.arm_span = Stated<double>::given(2.0);
  spacing.close = CloseBays{20.0, 6.0, 0.5};
  const auto layout = layout_of(Phrase{{4}, {0.01}, CountedFrom::near_anchor}, spacing, 40.0);
  ASSERT_TRUE(layout);
  EXPECT_GE(std::count_if(layout->bays.begin(), layout->bays.end(), [](double bay) { return std::abs(bay - 1.0) < 1e-9; }), 5);
  EXPECT_FALSE(layout_of(Phrase{{4}, {0.01}, CountedFrom::both_anchors}, spacing, 40.0));
}

}  // namespace
}  // namespace spanloom
