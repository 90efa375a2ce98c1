#include "statics/walker_on_line.h"

#include <gtest/gtest.h>

#include <cmath>

#include "base/constants.h"
#include "base/input_error.h"
#include "support/plain_rig.h"
#include "support/planned.h"

namespace spanloom {
namespace {

TEST(WalkerOnLine, IsThePlansWalkerWhereThePlanHasOne) {
  const Planned planned_rig = planned(plain_rig());
  for (const std::size_t i : {3u, 8u, 14u}) {
    const WalkerPlace& asked = planned_rig.plan.walker[i];
    const WalkerOnLineOutcome outcome = walker_on_line(planned_rig.rig, asked.position);
    ASSERT_TRUE(outcome.walker) << outcome.why;
    const WalkerPlace& here = outcome.walker->place;
    EXPECT_NEAR(here.position, asked.position, 1e-6);
    EXPECT_NEAR(here.s, asked.s, 1e-6);
    EXPECT_NEAR(here.sag, asked.sag, 1e-5);
    EXPECT_NEAR(here.tension_near, asked.tension_near, 1e-2);
    EXPECT_NEAR(*here.hang_clearance, *asked.hang_clearance, 1e-5);
  }
}

TEST(WalkerOnLine, AnklesAreThoseOfThePlanAtABaysMiddle) {
  const Planned planned_rig = planned(plain_rig());
  const PlanBay& bay = planned_rig.plan.bays[4];
  for (const WalkerPlace& place : planned_rig.plan.walker) {
    if (place.bay != 5 || place.at_tape) continue;
    const WalkerOnLineOutcome outcome = walker_on_line(planned_rig.rig, place.position);
    ASSERT_TRUE(outcome.walker) << outcome.why;
    EXPECT_NEAR(outcome.walker->ankle_margin, bay.ankle_margin, 1e-5);
  }
}

// A string under a point load P at a, tension T there: sag = P a (L - a) / (T L) below a straight line, to which the own
// weight adds w a (L - a) / (2 T) (parabola): Irvine, Cable Structures (1981), ch. 2, from memory. Both with the tension under
// the load. The line is shallow: slopes of a twentieth, squares of which are left out, hence 0.5 %.
TEST(WalkerOnLine, SagMatchesTheStringUnderAPointLoad) {
  const Rig rig = plain_rig();
  const double gap = rig.site.gap, weight = rig.walker.mass * kGravity;
  const double own = (0.060 + 0.050) * kGravity;
  for (const double at : {0.1 * gap, 0.27 * gap, 0.5 * gap}) {
    const WalkerOnLineOutcome outcome = walker_on_line(rig, at);
    ASSERT_TRUE(outcome.walker) << outcome.why;
    const WalkerPlace& here = outcome.walker->place;
    const double expected = (weight / gap + own / 2.0) * at * (gap - at) / here.tension_near;
    EXPECT_NEAR(here.sag, expected, 0.005 * expected) << at;
  }
}

TEST(WalkerOnLine, ShapeHoldsTheFoot) {
  const WalkerOnLineOutcome outcome = walker_on_line(plain_rig(), 17.3);
  ASSERT_TRUE(outcome.walker) << outcome.why;
  double lowest = INFINITY;
  for (const auto& bay : outcome.walker->shape.main) {
    for (const Vec3& node : bay) lowest = std::min(lowest, node.z);
  }
  EXPECT_EQ(lowest, outcome.walker->place.foot.z);
  EXPECT_NEAR(outcome.walker->place.position, 17.3, 1e-3);
}

TEST(WalkerOnLine, StandsAtTheVeryEndsToo) {
  for (const double at : {0.0, 50.0}) {
    const WalkerOnLineOutcome outcome = walker_on_line(plain_rig(), at);
    ASSERT_TRUE(outcome.walker) << outcome.why;
    EXPECT_TRUE(outcome.walker->place.certified);
  }
}

TEST(WalkerOnLine, RefusesAPlaceBesideTheGap) {
  EXPECT_THROW((void)walker_on_line(plain_rig(), -0.1), InputError);
  EXPECT_THROW((void)walker_on_line(plain_rig(), 50.1), InputError);
  EXPECT_THROW((void)walker_on_line(plain_rig(), NAN), InputError);
}

TEST(PlanStates, WalkerAloneHasTheSameNumbersAndLeavesTheRestEmpty) {
  Rig rig = plain_rig();
  rig.wind = wind_with_defaults();
  rig.wind->speed = 5.0;
  rig.extra_places = {12.0};
  const Plan all = *make_plan(rig).plan, walker = *make_plan(rig, {.states = PlanStates::walker}).plan;
  ASSERT_EQ(walker.walker.size(), all.bays.size());   // one a bay: none is longer than a tenth of the gap
  for (std::size_t i = 0; i < all.bays.size(); ++i) EXPECT_EQ(all.walker[2 * i + 1].tension_max, walker.walker[i].tension_max);
  for (std::size_t k = 0; k < all.bays.size(); ++k) EXPECT_EQ(all.bays[k].ankle_margin, walker.bays[k].ankle_margin);
  EXPECT_FALSE(all.rescue.empty());
  EXPECT_TRUE(walker.rescue.empty() && walker.extra.empty() && !walker.wind && !walker.pull_through);
}

}  // namespace
}  // namespace spanloom
