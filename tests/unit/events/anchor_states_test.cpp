#include "events/anchor_states.h"

#include <gtest/gtest.h>

#include "support/plain_rig.h"

namespace spanloom {
namespace {

// Two bolts of equal strength, alike to either side.
Rig two_bolts() {
  Rig rig = plain_rig();
  rig.near_anchor.points = {{"left", {-1.0, 0.4, 0.0}, 20e3}, {"right", {-1.0, -0.4, 0.0}, 20e3}};
  return rig;
}

CatchReport pulling(const Vec3& leash, const Vec3& failure) {
  CatchReport report;
  report.leash_fall.resize(1);
  report.leash_fall[0].near = leash;
  report.main_failure.resize(1);
  report.main_failure[0].near = failure;
  return report;
}

std::vector<AnchorState> states(const Rig& rig, const CatchReport& report) {
  const PlanOutcome plan = make_plan(rig);
  return anchor_states(rig, *plan.plan, report, AnchorEnd::near, UnitSystem::metric);
}

TEST(AnchorStates, LoadMirroredBoltsAlikeWhenSomebodyFallsToOneSide) {
  const std::vector<AnchorState> all = states(two_bolts(), pulling({6000.0, 900.0, -300.0}, {7000.0, 0.0, -500.0}));
  ASSERT_EQ(all.size(), 5u);  // standing, walker, two people, leash fall, main failure
  EXPECT_EQ(all[3].state, "leash fall");
  ASSERT_TRUE(all[3].legs);
  EXPECT_NEAR(all[3].legs->legs[0].tension, all[3].legs->legs[1].tension, 1e-6);
  EXPECT_GT(all[3].legs->legs[0].tension, all[4].legs->legs[0].tension);  // the side pull is what loads one bolt
}

TEST(AnchorStates, KeepTheWorstFallOfEveryLegNotOfTheSum) {
  Rig rig = two_bolts();
  CatchReport report = pulling({}, {7000.0, 0.0, 0.0});
  report.main_failure.push_back(report.main_failure[0]);
  report.main_failure[1].near = {5000.0, 1800.0, 0.0};  // less in all, but nearly along one leg
  const AnchorState worst = states(rig, report).back();
  EXPECT_EQ(worst.force, report.main_failure[0].near);
  const double straight = load_legs(rig.near_anchor, {7000.0, 0.0, 0.0}).loads->legs[0].tension;
  EXPECT_GT(worst.legs->legs[0].tension, straight);
}

TEST(AnchorStates, SayThatLegsCannotHold) {
  Rig rig = two_bolts();
  CatchReport report = pulling({100.0, 0.0, -9000.0}, {7000.0, 0.0, 0.0});
  rig.near_anchor.points = {{"low", {-1.0, 0.0, -1.5}, 20e3}};
  const std::vector<AnchorState> all = states(rig, report);
  EXPECT_TRUE(all[3].cannot_hold);
  EXPECT_FALSE(all[3].legs);
  EXPECT_FALSE(all[3].why.empty());
}

}  // namespace
}  // namespace spanloom
