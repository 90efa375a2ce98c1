#include "rig/tape_layout.h"

#include <gtest/gtest.h>

#include "base/input_error.h"

namespace spanloom {
namespace {

Spacing spacing_of(std::variant<RepeatArmSpans, TapesAt, EvenBays> pattern, double arm_span = 1.7) {
  Spacing spacing;
  spacing.arm_span = Stated<double>::given(arm_span);
  spacing.pattern = std::move(pattern);
  return spacing;
}

void expect_places(const std::vector<double>& at, const std::vector<double>& wanted) {
  ASSERT_EQ(at.size(), wanted.size());
  for (std::size_t i = 0; i < at.size(); ++i) EXPECT_NEAR(at[i], wanted[i], 1e-12) << i;
}

std::string key_of(const Spacing& spacing, double length) {
  try {
    (void)lay_out_tapes(spacing, length);
  } catch (const InputError& error) {
    return error.problems().front().key;
  }
  return "no error";
}

TEST(TapeLayout, RepeatsArmSpansFromTheNearAnchor) {
  const TapeLayout layout = lay_out_tapes(spacing_of(RepeatArmSpans{{1, 2}}, 2.0), 20.0);
  expect_places(layout.at, {2, 6, 8, 12, 14, 18});
  EXPECT_EQ(layout.leftover_bays, std::vector<std::size_t>{6});
  EXPECT_NE(layout.notes.front().find("2.00 m"), std::string::npos);
}

TEST(TapeLayout, GivesTheLastBayHalfToOneAndAHalfOfItsTurn) {
  for (double length = 12.0; length < 25.0; length += 0.37) {
    const TapeLayout layout = lay_out_tapes(spacing_of(RepeatArmSpans{{1.0}}, 2.0), length);
    const double last = length - layout.at.back();
    EXPECT_GE(last, 1.0 - 1e-9);
    EXPECT_LE(last, 3.0 + 1e-9);
  }
}

TEST(TapeLayout, TakesPlacesAsGiven) {
  const TapeLayout layout = lay_out_tapes(spacing_of(TapesAt{{1.6, 4.0, 9.9}}), 12.0);
  EXPECT_EQ(layout.at, (std::vector<double>{1.6, 4.0, 9.9}));
  EXPECT_TRUE(layout.notes.empty());
  EXPECT_EQ(key_of(spacing_of(TapesAt{{1.6, 4.0, 9.9}}), 9.0), "spacing.at[2]");
}

TEST(TapeLayout, EvenBaysKeepTheirLengthAndTheEndsShareTheRest) {
  // 32.5 m in bays of 3 m: eleven, nine of 3 m, and 5.5 m left for the two ends.
  const TapeLayout layout = lay_out_tapes(spacing_of(EvenBays{3.0}), 32.5);
  ASSERT_EQ(layout.at.size(), 10u);
  EXPECT_NEAR(layout.at.front(), 2.75, 1e-12);
  for (std::size_t i = 1; i < 10; ++i) EXPECT_NEAR(layout.at[i] - layout.at[i - 1], 3.0, 1e-12);
  EXPECT_NEAR(32.5 - layout.at.back(), 2.75, 1e-12);
  EXPECT_EQ(layout.leftover_bays, (std::vector<std::size_t>{0, 10}));
  EXPECT_NE(layout.notes.front().find("9 bays of 3.00 m"), std::string::npos) << layout.notes.front();
}

TEST(TapeLayout, PutsCloseBaysWhereAsked) {
  Spacing spacing = spacing_of(RepeatArmSpans{{2.0}}, 2.0);
  spacing.close = CloseBays{15.0, 4.0, 0.5};  // four of 1 m, 13 m to 17 m
  const TapeLayout layout = lay_out_tapes(spacing, 30.0);
  expect_places(layout.at, {4, 8, 13, 14, 15, 16, 17, 21, 25});
  EXPECT_EQ(layout.leftover_bays, (std::vector<std::size_t>{2, 9}));
  EXPECT_EQ(layout.notes.size(), 2u);
  spacing.pattern = EvenBays{4.0};
  expect_places(lay_out_tapes(spacing, 30.0).at, {4, 8, 13, 14, 15, 16, 17, 21, 25});
}

TEST(TapeLayout, KnowsCloseBaysAmongGivenPlaces) {
  Spacing spacing = spacing_of(TapesAt{{4.0, 8.0, 13.0, 14.0, 15.5, 17.0, 21.0}}, 2.0);
  spacing.close = CloseBays{15.0, 4.0, 0.5};  // 13 m to 17 m
  const TapeLayout layout = lay_out_tapes(spacing, 30.0);
  expect_places(layout.at, {4, 8, 13, 14, 15.5, 17, 21});
  EXPECT_EQ(layout.close_bays, (std::vector<std::size_t>{3, 4, 5}));
}

TEST(TapeLayout, RefusesCloseBaysBeyondTheMain) {
  Spacing spacing = spacing_of(RepeatArmSpans{{2.0}}, 2.0);
  spacing.close = CloseBays{1.0, 4.0, 0.5};
  EXPECT_EQ(key_of(spacing, 30.0), "spacing.close");
  spacing.close = CloseBays{29.0, 4.0, 0.5};
  EXPECT_EQ(key_of(spacing, 30.0), "spacing.close");
}

TEST(TapeLayout, RefusesALineWithoutATapeAndOneOfThousands) {
  EXPECT_EQ(key_of(spacing_of(EvenBays{20.0}), 25.0), "spacing");
  EXPECT_EQ(key_of(spacing_of(RepeatArmSpans{{10.0}}), 12.0), "spacing");
  EXPECT_EQ(key_of(spacing_of(EvenBays{0.2}), 3000.0), "spacing.even");
  EXPECT_EQ(key_of(spacing_of(RepeatArmSpans{{0.1}}), 3000.0), "spacing");
}

}  // namespace
}  // namespace spanloom
