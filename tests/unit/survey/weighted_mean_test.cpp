#include "survey/weighted_mean.h"

#include <gtest/gtest.h>

#include <cmath>

#include "base/input_error.h"

namespace spanloom {
namespace {

TEST(WeightedMean, WeighsWithTheInverseOfTheVariance) {
  // By hand: weights 1 / 0.01, 1 / 0.04 -> (100 x 10.0 + 25 x 10.3) / 125 = 10.06; sd = 1 / sqrt(125).
  const WeightedMean mean = weighted_mean({{10.0, 0.1}, {10.3, 0.2}});
  EXPECT_NEAR(mean.value, 10.06, 1e-12);
  // Misfit (0.06 / 0.1)^2 + (0.24 / 0.2)^2 = 1.8 with one to spare: the sd widens by sqrt(1.8).
  EXPECT_NEAR(mean.sd, std::sqrt(1.8 / 125.0), 1e-12);
  EXPECT_FALSE(mean.torn);
}

TEST(WeightedMean, IsNeverBetterThanHalfOfOneReading) {
  const WeightedMean mean = mean_of(std::vector<double>(100, 62.0), 0.005);
  EXPECT_NEAR(mean.value, 62.0, 1e-12);
  EXPECT_NEAR(mean.sd, 0.0025, 1e-12);
}

TEST(WeightedMean, OfFourIsHalfAsUncertainAsOne) {
  EXPECT_NEAR(mean_of({1.0, 1.0, 1.0, 1.0}, 0.2).sd, 0.1, 1e-12);
  EXPECT_NEAR(mean_of({1.0, 1.0}, 0.2).sd, 0.2 / std::sqrt(2.0), 1e-12);
}

TEST(WeightedMean, LeavesOutTheBeamThatMissed) {
  const WeightedMean mean = mean_of({62.02, 84.63, 62.01, 62.03}, 0.01);
  ASSERT_EQ(mean.left_out, std::vector<std::size_t>{1});
  EXPECT_NEAR(mean.value, 62.02, 1e-12);
  EXPECT_FALSE(mean.torn);
}

TEST(WeightedMean, SaysThatTwoReadingsContradictEachOther) {
  const WeightedMean mean = mean_of({62.0, 84.0}, 0.01);
  EXPECT_TRUE(mean.torn);
  EXPECT_TRUE(mean.left_out.empty());
  // Widened to what they show: half of what lies between them, times sqrt(2) / sqrt(2).
  EXPECT_NEAR(mean.sd, 11.0, 1e-9);
}

TEST(WeightedMean, NamesNoOutlierWithoutAMajority) {
  const WeightedMean mean = mean_of({62.0, 62.0, 84.0, 84.0}, 0.01);
  EXPECT_TRUE(mean.torn);
  EXPECT_TRUE(mean.left_out.empty());
}

TEST(WeightedMean, RefusesWhatIsNoReading) {
  EXPECT_THROW(weighted_mean({}), InputError);
  EXPECT_THROW(mean_of({1.0}, 0.0), InputError);
  EXPECT_THROW(mean_of({std::nan("")}, 1.0), InputError);
}

}  // namespace
}  // namespace spanloom
