// Pools of layouts come together in any order to the same one.
#include "spacing/layout_pool.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <random>

namespace spanloom {
namespace {

FoundLayout found(Layout layout, double returned, Phrase phrase = {{2}, {0.01}}) {
  FoundLayout found{std::move(phrase), std::move(layout), {returned, returned}, std::nullopt, 0.0, 0.0};
  found.cost = cost_of(found);
  return found;
}

Layout bays_of(std::size_t bays, double slack) { return {std::vector<double>(bays, 2.0), std::vector<double>(bays, slack)}; }

// Few layouts, so that the same comes often, and by several phrases.
std::vector<FoundLayout> random_finds(unsigned seed, std::size_t count) {
  std::mt19937 random(seed);
  std::vector<FoundLayout> finds;
  for (std::size_t i = 0; i < count; ++i) {
    const std::size_t bays = 3 + random() % 3, which = random() % 12;
    const Phrase phrase{std::vector<int>(1 + random() % 4, 2), {0.01}};
    finds.push_back(found(bays_of(bays, 0.005 + 0.001 * double(which)), 0.3 + 0.0137 * double((which * 7) % 12), phrase));
  }
  return finds;
}

void expect_same(const LayoutPool& a, const LayoutPool& b) {
  const auto in_a = a.all(), in_b = b.all();
  ASSERT_EQ(in_a.size(), in_b.size());
  for (std::size_t i = 0; i < in_a.size(); ++i) {
    EXPECT_EQ(in_a[i]->layout, in_b[i]->layout) << i;
    EXPECT_EQ(in_a[i]->phrase, in_b[i]->phrase) << i;
    EXPECT_EQ(in_a[i]->cost, in_b[i]->cost) << i;
  }
}

TEST(LayoutPool, JoinedInAnyOrderIsThePoolOfAll) {
  const std::vector<FoundLayout> finds = random_finds(5, 120);
  LayoutPool whole;
  for (const FoundLayout& find : finds) whole.take(find);
  std::vector<LayoutPool> parts(6);
  for (std::size_t i = 0; i < finds.size(); ++i) parts[i % parts.size()].take(finds[i]);
  std::vector<std::size_t> order = {0, 1, 2, 3, 4, 5};
  do {
    LayoutPool joined;
    for (const std::size_t part : order) joined.join(parts[part]);
    expect_same(joined, whole);
  } while (!testing::Test::HasFailure() && std::next_permutation(order.begin(), order.end()));
}

TEST(LayoutPool, JoinedWithItselfStaysAsItIs) {
  LayoutPool pool;
  for (const FoundLayout& find : random_finds(8, 60)) pool.take(find);
  LayoutPool twice = pool;
  twice.join(pool);
  expect_same(twice, pool);
}

TEST(LayoutPool, HoldsALayoutOnceByTheShorterPhrase) {
  LayoutPool pool;
  const Layout layout = bays_of(4, 0.01);
  pool.take(found(layout, 0.4, {{2, 2}, {0.01}}));
  pool.take(found(layout, 0.4, {{2}, {0.01}}));
  pool.take(found(layout, 0.4, {{2, 2, 2}, {0.01}}));
  ASSERT_EQ(pool.size(), 1u);
  EXPECT_EQ(pool.best()->phrase.bays, std::vector<int>{2});
}

TEST(LayoutPool, KeepsTheBestOfEachNumberOfTapes) {
  LayoutPool pool;
  for (const std::size_t bays : {3u, 5u}) {
    for (int i = 0; i < 10; ++i) pool.take(found(bays_of(bays, 0.005 + 0.001 * i), 0.1 * double(bays) + 0.01 * ((i * 3) % 10)));
  }
  ASSERT_EQ(pool.by_tapes().size(), 2u);
  for (const auto& [tapes, kept] : pool.by_tapes()) {
    ASSERT_EQ(kept.size(), kKeptOfEach);
    for (std::size_t i = 0; i < kept.size(); ++i) {
      EXPECT_EQ(kept[i].tapes(), tapes);
      EXPECT_NEAR(kept[i].small.mean, 0.1 * double(tapes + 1) + 0.01 * double(i), 1e-12);
    }
  }
  EXPECT_NEAR(pool.best()->small.mean, 0.3, 1e-12);
}

TEST(LayoutPool, PrefersAnythingThatKeepsTheLimits) {
  LayoutPool pool;
  FoundLayout broken = found(bays_of(4, 0.01), 0.05);
  broken.broken = 1e-6;
  broken.cost = cost_of(broken);
  pool.take(broken);
  EXPECT_GT(pool.best()->broken, 0.0);
  pool.take(found(bays_of(4, 0.02), 0.7));
  EXPECT_EQ(pool.best()->broken, 0.0);
}

TEST(LayoutPool, IsEmptyAtFirst) {
  const LayoutPool pool;
  EXPECT_TRUE(pool.empty());
  EXPECT_EQ(pool.size(), 0u);
  EXPECT_EQ(pool.best(), nullptr);
}

TEST(CostOfALayout, RisesWithEveryFigureAndWithAPhraseThatReadsFromOneEnd) {
  const Layout layout = bays_of(4, 0.01);
  const double short_phrase = found(layout, 0.4, {{2}, {0.01}}).cost, longer = found(layout, 0.4, {{2, 3}, {0.01, 0.02}}).cost;
  const double both = found(layout, 0.4, {{2}, {0.01}, CountedFrom::both_anchors}).cost;
  EXPECT_GT(longer, short_phrase);
  EXPECT_LT(both, short_phrase);
  EXPECT_LT(longer - both, 0.02);  // a hair against what layouts differ by
}

TEST(CostOfALayout, IsNineTenthsTheMeanOfTheGlanceWhereThereWasOne) {
  FoundLayout one = found(bays_of(4, 0.01), 0.4);
  one.glanced = ReturnOver{0.4, 0.4};
  const double before = cost_of(one);
  one.glanced = ReturnOver{0.2, 0.4};
  EXPECT_NEAR(cost_of(one), before - 0.9 * 0.2, 1e-12);
  one.small.mean += 0.1;
  EXPECT_NEAR(cost_of(one), before - 0.9 * 0.2 + 0.1 * 0.1, 1e-12);
}

}  // namespace
}  // namespace spanloom
