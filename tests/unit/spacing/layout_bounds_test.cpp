// What a layout must keep: usual bounds, and each rule by itself.
#include "spacing/layout_bounds.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <functional>

#include "base/input_error.h"
#include "support/planned.h"
#include "support/short_rig.h"

namespace spanloom {
namespace {

// Common practice, no source: half to two arm spans on a short line, one to three below 100 m, two to four above.
TEST(UsualBounds, AreBaysOfCommonPractice) {
  struct { double gap; int shortest, longest; } lines[] = {{20.0, 1, 4}, {60.0, 2, 6}, {120.0, 4, 8}};
  for (const auto& [gap, shortest, longest] : lines) {
    const Planned line = planned(plain_rig_of(gap));
    const LayoutBounds halves = usual_bounds(line.rig, line.plan);
    EXPECT_EQ(halves.shortest, shortest) << gap;
    EXPECT_EQ(halves.longest, longest) << gap;
    const LayoutBounds centimetres = usual_bounds(line.rig, line.plan, BayStep::centimetre);
    EXPECT_NEAR(0.01 * centimetres.shortest, 0.875 * shortest, 0.006) << gap;
    EXPECT_NEAR(0.01 * centimetres.longest, 0.875 * longest, 0.006) << gap;
    EXPECT_NO_THROW(check_bounds(halves));
    EXPECT_NO_THROW(check_bounds(centimetres));
  }
}

TEST(UsualBounds, TakeSlackFromHalfToTwiceThatOfTheRigAndItsBackupLimit) {
  Rig rig = plain_rig_of(50.0);
  rig.limits.backup_tension.value = 321.0;
  const Planned line = planned(rig);
  const LayoutBounds bounds = usual_bounds(line.rig, line.plan);
  EXPECT_NEAR(bounds.least_slack, 0.006, 1e-9);
  EXPECT_NEAR(bounds.most_slack, 0.024, 1e-9);
  EXPECT_EQ(bounds.most_backup_tension, 321.0);
}

TEST(Bounds, AreRefusedWhereTheyHoldNothing) {
  const std::function<void(LayoutBounds&)> wrong[] = {
      [](LayoutBounds& b) { b.shortest = 0; },
      [](LayoutBounds& b) { b.longest = b.shortest - 1; },
      [](LayoutBounds& b) { b.longest = 100000; },
      [](LayoutBounds& b) { b.most_tapes = 0; },
      [](LayoutBounds& b) { b.least_slack = 0.0; },
      [](LayoutBounds& b) { b.most_slack = 0.5 * b.least_slack; },
      [](LayoutBounds& b) { b.most_slack = 1.5; },
      [](LayoutBounds& b) { b.least_slack = std::nan(""); },
      [](LayoutBounds& b) { b.slack_step = 0.0; },
      [](LayoutBounds& b) { b.slack_step = INFINITY; },
      [](LayoutBounds& b) { b.most_drop = 0.0; },
      [](LayoutBounds& b) { b.most_backup_tension = -1.0; },
      [](LayoutBounds& b) { b.longest_phrase = 0; },
      [](LayoutBounds& b) { b.longest_slack_phrase = 0; },
  };
  EXPECT_NO_THROW(check_bounds({}));
  for (std::size_t i = 0; i < std::size(wrong); ++i) {
    LayoutBounds bounds;
    wrong[i](bounds);
    EXPECT_THROW(check_bounds(bounds), InputError) << i;
  }
}

// Four bays, all of it well within limits of 60 mm, 10 mm, 0.4 m and 300 N.
struct Limited {
  Planned line;
  LayoutBounds bounds;
  Layout layout;
  LayoutScore score;

  explicit Limited(Rig rig) : line(planned(with_limits(std::move(rig)))) {
    bounds.most_drop = 0.4;
    bounds.most_backup_tension = 300.0;
    double length = 0.0;
    for (const PlanBay& bay : line.plan.bays) length += bay.main_natural;
    layout = {std::vector<double>(4, 0.25 * length), std::vector<double>(4, 0.01)};
    score.drop.assign(4, 0.2);
    score.ankle_margin.assign(4, 0.1);
    score.backup_tension.assign(4, 100.0);
  }
  static Rig with_limits(Rig rig) {
    rig.limits.least_drop.value = 0.06;
    rig.limits.least_ankle_margin.value = 0.01;
    return rig;
  }
  double broken() const { return LimitRules(line.rig, line.plan, bounds).broken(layout, score); }
};

TEST(LimitRules, SayNothingWhereAllAreKept) {
  EXPECT_EQ(Limited(plain_rig_of(20.0)).broken(), 0.0);
  EXPECT_EQ(Limited(short_rig()).broken(), 0.0);  // over ground far below
}

TEST(LimitRules, CountEachLimitByWhatItIsBrokenBy) {
  Limited at(plain_rig_of(20.0));
  at.score.ankle_margin[2] = -0.02;
  EXPECT_NEAR(at.broken(), 0.03, 1e-12);
  at = Limited(plain_rig_of(20.0));
  at.score.drop[0] = 0.04;
  EXPECT_NEAR(at.broken(), 0.02, 1e-12);
  at = Limited(plain_rig_of(20.0));
  at.score.drop[3] = 0.45;
  EXPECT_NEAR(at.broken(), 0.05, 1e-12);
  at = Limited(plain_rig_of(20.0));
  at.score.backup_tension[1] = 550.0;
  EXPECT_NEAR(at.broken(), 0.25, 1e-12);
}

TEST(LimitRules, AddUpWhatIsBroken) {
  Limited at(plain_rig_of(20.0));
  at.score.ankle_margin[2] = -0.02;
  at.score.backup_tension[2] = 550.0;
  at.score.drop[0] = 0.04;
  EXPECT_NEAR(at.broken(), 0.03 + 0.25 + 0.02, 1e-12);
}

// A meadow a little below the walker at the middle: loops may hang below the feet by what is left over the reserve.
TEST(LimitRules, LeaveRoomOverTheGroundBelowTheFeet) {
  Rig rig = short_rig();
  rig.site.ground = {{0.0, -0.5}, {1.0, -2.6}, {15.0, -2.6}, {16.0, -0.5}};
  rig.limits.reserve.value = 1.0;
  rig.limits.anchor_zone.value = 1.0;
  Limited at(rig);
  at.layout = {std::vector<double>(3, 0.0), std::vector<double>(3, 0.01)};
  double length = 0.0, least = INFINITY, most = -INFINITY;
  for (const PlanBay& bay : at.line.plan.bays) length += bay.main_natural;
  for (double& bay : at.layout.bays) bay = length / 3.0;
  // What the plan says about the middle of the line, where the middle of the second bay is.
  for (const WalkerPlace& place : at.line.plan.walker) {
    if (std::abs(place.s - 0.5 * length) > 0.5) continue;
    ASSERT_TRUE(place.ground_clearance);
    least = std::min(least, *place.ground_clearance - 1.0);
    most = std::max(most, *place.ground_clearance - 1.0);
  }
  ASSERT_GT(least, 0.2);
  ASSERT_LT(most - least, 0.05);
  at.bounds.most_drop = 5.0;
  at.score.drop.assign(3, 1.0);
  at.score.ankle_margin = {0.1, least - 0.01, 0.1};
  EXPECT_EQ(at.broken(), 0.0);
  at.score.ankle_margin[1] = most + 0.03;
  EXPECT_GE(at.broken(), 0.029);  // places lie a little beside the middle
  EXPECT_LE(at.broken(), 0.03 + most - least);
}

// Where the feet themselves have no more than the reserve no layout helps.
TEST(LimitRules, LetLoopsHangAsTheyDoWhereTheFeetHaveNoMoreThanTheReserve) {
  Rig rig = short_rig();
  rig.site.ground = {{0.0, -0.5}, {1.0, -2.6}, {15.0, -2.6}, {16.0, -0.5}};
  rig.limits.reserve.value = 2.5;
  Limited at(rig);
  LayoutJudge judge(at.line.rig, at.line.plan);
  at.layout = layout_of(at.line.plan);
  const auto score = judge.judge(at.layout);
  ASSERT_TRUE(score);
  at.score = *score;
  double least = INFINITY;
  for (std::size_t k = 0; k < at.line.plan.bays.size(); ++k) {
    at.score.ankle_margin[k] = at.line.plan.bays[k].ankle_margin;
    least = std::min(least, at.score.ankle_margin[k]);
  }
  ASSERT_GT(least, 0.01);
  EXPECT_NEAR(at.broken(), 0.0, 1e-3);
  for (double& margin : at.score.ankle_margin) margin += 0.1;
  EXPECT_GT(at.broken(), 0.1);
}

}  // namespace
}  // namespace spanloom
