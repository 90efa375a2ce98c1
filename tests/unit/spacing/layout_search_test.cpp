#include "spacing/layout_search.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>

#include "base/input_error.h"
#include "support/planned.h"
#include "support/short_rig.h"

namespace spanloom {
namespace {

SearchOptions small_search(const Planned& line, unsigned threads) {
  SearchOptions options;
  options.island.bounds = usual_bounds(line.rig, line.plan);
  options.island.judgements = 60;
  options.islands = 6;
  options.threads = threads;
  return options;
}

void expect_same(const LayoutPool& a, const LayoutPool& b) {
  const auto in_a = a.all(), in_b = b.all();
  ASSERT_EQ(in_a.size(), in_b.size());
  for (std::size_t i = 0; i < in_a.size(); ++i) {
    EXPECT_EQ(in_a[i]->phrase, in_b[i]->phrase) << i;
    EXPECT_EQ(in_a[i]->layout, in_b[i]->layout) << i;
    EXPECT_EQ(in_a[i]->cost, in_b[i]->cost) << i;
  }
}

double returned_by(const Planned& line, const Layout& layout) { return LayoutJudge(line.rig, line.plan).judge(layout)->return_mean; }

TEST(Island, IsTheSameForTheSameSeedAndNumberAndAnotherForAnother) {
  const Planned line = planned(short_rig());
  IslandOptions options = small_search(line, 1).island;
  const LayoutPool once = grow_island(line.rig, line.plan, nullptr, options, 3);
  expect_same(once, grow_island(line.rig, line.plan, nullptr, options, 3));
  EXPECT_NE(once.best()->cost, grow_island(line.rig, line.plan, nullptr, options, 4).best()->cost);
  options.seed = 2;
  EXPECT_NE(once.best()->cost, grow_island(line.rig, line.plan, nullptr, options, 3).best()->cost);
}

TEST(Island, KeepsToItsBounds) {
  const Planned line = planned(short_rig());
  IslandOptions options = small_search(line, 1).island;
  options.judgements = 200;
  LayoutBounds& bounds = options.bounds;
  bounds.shortest = 2, bounds.longest = 3;
  bounds.least_slack = 0.01, bounds.most_slack = 0.0145, bounds.slack_step = 0.002;  // the step does not fit: 1, 1.2, 1.4 %
  bounds.longest_phrase = 3, bounds.longest_slack_phrase = 2;
  bounds.most_tapes = 8;
  const LayoutPool pool = grow_island(line.rig, line.plan, nullptr, options, 0);
  ASSERT_FALSE(pool.empty());
  for (const FoundLayout* found : pool.all()) {
    EXPECT_LE(found->phrase.bays.size(), 3u);
    EXPECT_LE(found->phrase.slack.size(), 2u);
    EXPECT_LE(found->tapes(), 8u);
    for (const int bay : found->phrase.bays) EXPECT_TRUE(bay == 2 || bay == 3);
    for (const double slack : found->phrase.slack) {
      EXPECT_NEAR(std::remainder(slack - 0.01, 0.002), 0.0, 1e-12);
      EXPECT_GE(slack, 0.01);
      EXPECT_LE(slack, 0.0145);
    }
  }
}

TEST(Island, GetsBetterTheLongerItGrows) {
  const Planned line = planned(short_rig());
  IslandOptions options = small_search(line, 1).island;
  options.judgements = 20;
  const double first = grow_island(line.rig, line.plan, nullptr, options, 0).best()->cost;
  options.judgements = 400;
  EXPECT_LT(grow_island(line.rig, line.plan, nullptr, options, 0).best()->cost, 0.9 * first);
}

TEST(LayoutSearch, FindsTheSameOnAnyNumberOfThreads) {
  const Planned line = planned(short_rig());
  const SearchResult one = search_layouts(line.rig, line.plan, nullptr, small_search(line, 1));
  const SearchResult three = search_layouts(line.rig, line.plan, nullptr, small_search(line, 3));
  EXPECT_EQ(one.judged, 360u);
  EXPECT_EQ(one.glanced, 0u);
  EXPECT_FALSE(one.stopped);
  expect_same(one.pool, three.pool);
}

TEST(LayoutSearch, WithGlancesFindsTheSameOnAnyNumberOfThreadsAndShowsWhatWasGlancedAt) {
  const Planned line = planned(short_rig());
  const MovedJudge moved(line.rig);
  ASSERT_TRUE(moved.stands());
  SearchOptions options = small_search(line, 1);
  options.islands = 2;
  options.island.glances = 2;
  const SearchResult one = search_layouts(line.rig, line.plan, &moved, options);
  options.threads = 3;
  expect_same(one.pool, search_layouts(line.rig, line.plan, &moved, options).pool);
  EXPECT_EQ(one.judged, 120u);
  EXPECT_EQ(one.glanced, 4u);
  ASSERT_FALSE(one.pool.empty());
  for (const FoundLayout* found : one.pool.all()) {
    ASSERT_TRUE(found->glanced);
    EXPECT_GT(found->glanced->mean, 0.0);
    EXPECT_GE(found->glanced->worst, found->glanced->mean);
    EXPECT_EQ(found->cost, cost_of(*found));
  }
}

TEST(LayoutSearch, CutInPartsAndJoinedInAnyOrderIsTheWhole) {
  const Planned line = planned(short_rig());
  SearchOptions options = small_search(line, 2);
  const SearchResult whole = search_layouts(line.rig, line.plan, nullptr, options);
  std::vector<LayoutPool> parts;
  std::size_t judged = 0;
  for (std::size_t number = 1; number <= 4; ++number) {
    options.part = {number, 4};
    const SearchResult part = search_layouts(line.rig, line.plan, nullptr, options);
    judged += part.judged;
    parts.push_back(part.pool);
  }
  EXPECT_EQ(judged, whole.judged);
  for (const std::vector<std::size_t>& order : {std::vector<std::size_t>{0, 1, 2, 3}, {3, 1, 0, 2}, {2, 3, 1, 0}}) {
    LayoutPool joined;
    for (const std::size_t part : order) joined.join(parts[part]);
    expect_same(joined, whole.pool);
  }
}

TEST(LayoutSearch, RefusesPartsThatAreNone) {
  EXPECT_NO_THROW(check_part({3, 3}));
  EXPECT_THROW(check_part({0, 3}), InputError);
  EXPECT_THROW(check_part({4, 3}), InputError);
  EXPECT_THROW(check_part({1, 0}), InputError);
  const Planned line = planned(short_rig());
  SearchOptions options = small_search(line, 1);
  options.part = {4, 3};
  EXPECT_THROW((void)search_layouts(line.rig, line.plan, nullptr, options), InputError);
  options.part = {};
  options.island.bounds.longest = 0;
  EXPECT_THROW((void)search_layouts(line.rig, line.plan, nullptr, options), InputError);
}

TEST(LayoutSearch, ImprovesOnTheLineItStartsFrom) {
  const Planned line = planned(short_rig());
  const SearchResult found = search_layouts(line.rig, line.plan, nullptr, small_search(line, 2));
  ASSERT_FALSE(found.pool.empty());
  const FoundLayout& best = *found.pool.best();
  EXPECT_EQ(best.broken, 0.0);
  EXPECT_LT(best.small.mean, 0.9 * returned_by(line, layout_of(line.plan)));
  // What it says of a layout is what a judge says that never saw another.
  for (const FoundLayout* each : found.pool.all()) EXPECT_NEAR(each->small.mean, returned_by(line, each->layout), 1e-12);
}

TEST(LayoutSearch, StopsWhenAskedAndGivesWhatItHas) {
  const Planned line = planned(short_rig());
  SearchOptions options = small_search(line, 1);
  options.progress = [](double, double) { return false; };
  const SearchResult result = search_layouts(line.rig, line.plan, nullptr, options);
  EXPECT_TRUE(result.stopped);
  EXPECT_GT(result.judged, 0u);
  EXPECT_LT(result.judged, 360u);
  EXPECT_FALSE(result.pool.empty());
}

TEST(LayoutSearch, TellsHowFarItIsAndTheBestSoFar) {
  const Planned line = planned(short_rig());
  SearchOptions options = small_search(line, 2);
  std::vector<double> shares, bests;
  options.progress = [&](double done, double best) {
    shares.push_back(done), bests.push_back(best);
    return true;
  };
  const SearchResult result = search_layouts(line.rig, line.plan, nullptr, options);
  ASSERT_GE(shares.size(), 6u);  // after each island at the least
  EXPECT_TRUE(std::is_sorted(shares.begin(), shares.end()));
  EXPECT_NEAR(shares.back(), 1.0, 1e-12);
  EXPECT_TRUE(std::is_sorted(bests.rbegin(), bests.rend()));
  EXPECT_LE(bests.back(), result.pool.best()->small.mean);
}

}  // namespace
}  // namespace spanloom
