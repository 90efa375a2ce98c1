// What a phrase makes of a main, from one end and from both, about close bays and without.
#include "spacing/phrase.h"

#include <gtest/gtest.h>

#include <numeric>

namespace spanloom {
namespace {

Spacing arm_spans_of(double length) {
  Spacing spacing;
  spacing.arm_span = Stated<double>::given(length);
  return spacing;
}

Spacing with_close(const CloseBays& close) {
  Spacing spacing = arm_spans_of(2.0);
  spacing.close = close;
  return spacing;
}

void expect_bays(const std::optional<Layout>& layout, const std::vector<double>& bays) {
  ASSERT_TRUE(layout);
  ASSERT_EQ(layout->bays.size(), bays.size());
  for (std::size_t k = 0; k < bays.size(); ++k) EXPECT_NEAR(layout->bays[k], bays[k], 1e-9) << k;
}

TEST(Phrase, RepeatedFromTheNearAnchorLeavesTheRestToTheLastBay) {
  const auto layout = layout_of(Phrase{{2, 3}, {0.01, 0.02, 0.03}}, arm_spans_of(2.0), 10.5);
  expect_bays(layout, {2.0, 3.0, 2.0, 3.5});
  EXPECT_EQ(layout->slack, (std::vector<double>{0.01, 0.02, 0.03, 0.01}));
}

TEST(Phrase, CountedFromBothAnchorsReadsTheSameFromEitherEnd) {
  for (const double length : {15.0, 17.3, 22.05, 48.8}) {
    const auto layout = layout_of(Phrase{{2, 4, 3}, {0.01, 0.02}, CountedFrom::both_anchors}, arm_spans_of(1.6), length);
    ASSERT_TRUE(layout);
    const std::size_t n = layout->bays.size();
    EXPECT_NEAR(std::accumulate(layout->bays.begin(), layout->bays.end(), 0.0), length, 1e-9);
    EXPECT_NEAR(layout->bays[0], 1.6, 1e-9);
    EXPECT_NEAR(layout->bays[1], 3.2, 1e-9);
    for (std::size_t k = 0; k < n; ++k) {
      EXPECT_NEAR(layout->bays[k], layout->bays[n - 1 - k], 1e-9);
      EXPECT_EQ(layout->slack[k], layout->slack[n - 1 - k]);
      EXPECT_GT(layout->bays[k], 0.4);
    }
  }
}

TEST(Phrase, CountedFromBothAnchorsGivesAShortRestToItsNeighbours) {
  // 10.4 m: 2 and 3 m from each end leave 0.4 m, no bay for a crew.
  expect_bays(layout_of(Phrase{{2, 3}, {0.01}, CountedFrom::both_anchors}, arm_spans_of(2.0), 10.4), {2.0, 3.2, 3.2, 2.0});
  expect_bays(layout_of(Phrase{{2, 3}, {0.01}, CountedFrom::both_anchors}, arm_spans_of(2.0), 11.2), {2.0, 3.0, 1.2, 3.0, 2.0});
}

// Six bays of 1 m from 17 to 23 m; what is left of the 17 m before them is a bay.
TEST(Phrase, KeepsTheCloseBaysWhereTheyAreFromOneEndAndFromBoth) {
  const Spacing spacing = with_close({20.0, 6.0, 0.5});
  const std::vector<double> close(6, 1.0);
  std::vector<double> both = {4.0, 4.0, 4.0, 4.0, 1.0};
  both.insert(both.end(), close.begin(), close.end());
  both.insert(both.end(), {1.0, 4.0, 4.0, 4.0, 4.0});
  expect_bays(layout_of(Phrase{{4}, {0.01}, CountedFrom::both_anchors}, spacing, 40.0), both);
  std::vector<double> near = {4.0, 4.0, 4.0, 5.0};
  near.insert(near.end(), close.begin(), close.end());
  near.insert(near.end(), {4.0, 4.0, 4.0, 5.0});
  expect_bays(layout_of(Phrase{{4}, {0.01}}, spacing, 40.0), near);
}

// From 12.3 to 18.3 m: from the near anchor 4, 3, 4 m and 1.3 m, from the far one 4, 3, 4, 3, 4, 3 m and 0.7 m.
TEST(Phrase, ReadsFromEachAnchorTowardsCloseBaysThatLieOutOfTheMiddle) {
  const auto layout = layout_of(Phrase{{4, 3}, {0.01, 0.02}, CountedFrom::both_anchors}, with_close({15.3, 6.0, 0.5}), 40.0);
  expect_bays(layout, {4.0, 3.0, 4.0, 1.3, 1.0, 1.0, 1.0, 1.0, 1.0, 1.0, 0.7, 3.0, 4.0, 3.0, 4.0, 3.0, 4.0});
  EXPECT_EQ(layout->slack.front(), 0.01);
  EXPECT_EQ(layout->slack.back(), 0.01);
  EXPECT_EQ(layout->slack[layout->slack.size() - 2], 0.02);
}

TEST(Phrase, GivesAShortRestBesideCloseBaysToTheBayBeforeIt) {
  const auto layout = layout_of(Phrase{{4}, {0.01}, CountedFrom::both_anchors}, with_close({15.3, 6.0, 0.5}), 30.7);
  expect_bays(layout, {4.0, 4.0, 4.3, 1.0, 1.0, 1.0, 1.0, 1.0, 1.0, 4.4, 4.0, 4.0});
}

TEST(Phrase, StepsOfACentimetreAreCentimetres) {
  expect_bays(layout_of(Phrase{{212, 150}, {0.01}, CountedFrom::near_anchor, BayStep::centimetre}, arm_spans_of(1.7), 9.0),
              {2.12, 1.5, 2.12, 1.5, 1.76});
  expect_bays(layout_of(Phrase{{212, 150}, {0.01}, CountedFrom::both_anchors, BayStep::centimetre}, arm_spans_of(1.7), 9.0),
              {2.12, 1.5, 1.76, 1.5, 2.12});
}

TEST(Phrase, MakesNothingWhereNoTapeFits) {
  for (const CountedFrom from : {CountedFrom::near_anchor, CountedFrom::both_anchors}) {
    EXPECT_FALSE(layout_of(Phrase{{12}, {0.01}, from}, arm_spans_of(2.0), 8.0));
    EXPECT_FALSE(layout_of(Phrase{{}, {0.01}, from}, arm_spans_of(2.0), 8.0));
    EXPECT_FALSE(layout_of(Phrase{{2}, {}, from}, arm_spans_of(2.0), 8.0));
    // Close bays that begin at the anchor.
    EXPECT_FALSE(layout_of(Phrase{{2}, {0.01}, from}, with_close({3.0, 6.0, 0.5}), 40.0));
  }
}

TEST(Phrase, IsSaidAsACrewCallsItOut) {
  const Phrase halves{{2, 4, 3}, {0.012, 0.009}};
  EXPECT_EQ(bays_in_words(halves, UnitSystem::metric), "1, 2, 1.5 arm spans, repeated from the near anchor");
  EXPECT_EQ(slacks_in_words(halves), "1.2, 0.9 %, repeated from the near anchor");
  const Phrase one{{2}, {0.0125}, CountedFrom::both_anchors};
  EXPECT_EQ(bays_in_words(one, UnitSystem::metric), "1 arm span, all along from both anchors inwards");
  EXPECT_EQ(slacks_in_words(one), "1.25 %, all along from both anchors inwards");
  const Phrase centimetres{{212, 150}, {0.01}, CountedFrom::near_anchor, BayStep::centimetre};
  EXPECT_EQ(bays_in_words(centimetres, UnitSystem::metric), "2.12, 1.50 m, repeated from the near anchor");
}

}  // namespace
}  // namespace spanloom
