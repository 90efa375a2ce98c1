#include "hauling/pulley_set.h"

#include <gtest/gtest.h>

#include "base/input_error.h"

namespace spanloom {
namespace {

TEST(PulleySet, HaulsWithLessAndHoldsWithMoreThanItsParts) {
  for (const RopeLeaves leaves : {RopeLeaves::moving_block, RopeLeaves::fixed_block}) {
    for (int parts = 2; parts <= 7; ++parts) {
      const PulleySet set{.parts = {parts}, .leaves = leaves, .efficiency = 0.9};
      EXPECT_LT(hauling_ratio(set), parts);
      EXPECT_GT(holding_ratio(set), parts);
    }
  }
}

TEST(PulleySet, GivesTheRopeThatItsPartsTake) {
  EXPECT_EQ(rope_ratio({.parts = {5}}), 5);
  EXPECT_EQ(rope_ratio({.parts = {3, 5}}), 15);
}

// Work that goes in is never less than what comes out.
TEST(PulleySet, MakesNoWork) {
  for (const double efficiency : {0.5, 0.7, 0.9, 1.0}) {
    const PulleySet set{.parts = {3, 4}, .efficiency = efficiency};
    EXPECT_LE(hauling_ratio(set), rope_ratio(set) * (1.0 + 1e-12));
    EXPECT_GE(holding_ratio(set), rope_ratio(set) * (1.0 - 1e-12));
  }
}

TEST(PulleySet, TellsEverythingThatIsWrongWithItAtOnce) {
  try {
    check(PulleySet{.parts = {0, 99}, .efficiency = 1.2});
    FAIL();
  } catch (const InputError& error) {
    ASSERT_EQ(error.problems().size(), 3u);
    EXPECT_EQ(error.problems()[0].key, "parts");
    EXPECT_EQ(error.problems()[2].key, "efficiency");
  }
  EXPECT_THROW(check(PulleySet{.parts = {}}), InputError);
  EXPECT_THROW(check(PulleySet{.efficiency = 0.0}), InputError);
  EXPECT_NO_THROW(check(PulleySet{.efficiency = 1.0}));
}

TEST(Capstan, TakesNoImpossibleBend) {
  EXPECT_THROW(capstan_ratio(-0.1, 1.0), InputError);
  EXPECT_THROW(capstan_ratio(1.1, 1.0), InputError);
  EXPECT_THROW(capstan_ratio(0.1, -1.0), InputError);
  EXPECT_THROW(capstan_ratio(0.1, 26.0), InputError);
  EXPECT_EQ(capstan_ratio(0.1, 0.0), 1.0);
}

}  // namespace
}  // namespace spanloom
