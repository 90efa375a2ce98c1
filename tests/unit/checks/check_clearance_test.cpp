#include "checks/check_clearance.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <stdexcept>

#include "support/judged.h"
#include "support/plain_rig.h"

namespace spanloom {
namespace {

Check judged(const Rig& rig, const Plan& plan, const std::string& name, UnitSystem units = UnitSystem::metric) {
  return named(check_clearance(rig, plan, units), name);
}

bool says(const Check& check, const std::string& part) { return check.words.find(part) != std::string::npos; }

/// A needle of rock under the middle between two places of the walker, as high as asked, in ground 30 m deep.
Rig rig_with_needle(const Plan& plan, double top) {
  Rig rig = plain_rig();
  const std::size_t at = plan.walker.size() / 2;
  const double x = 0.5 * (plan.walker[at].foot.x + plan.walker[at + 1].foot.x);
  rig.site.ground = {{0, -30}, {x - 0.1, -30}, {x, top}, {x + 0.1, -30}, {50, -30}};
  return rig;
}

TEST(ClearanceChecks, SeeARockBetweenThePlacesOfTheSweep) {
  const Plan plan = plan_of(plain_rig());
  ASSERT_EQ(judged(plain_rig(), plan, "foot_clearance").verdict, Verdict::ok);
  const Rig rig = rig_with_needle(plan, -plan.walker[plan.worst_sag].sag - 1.0);
  for (const char* name : {"foot_clearance", "hang_clearance"}) {
    const Check check = judged(rig, plan, name);
    EXPECT_EQ(check.verdict, Verdict::stop) << name;
    EXPECT_TRUE(says(check, quantity_text(rig.site.ground[2].distance, Measure::length, UnitSystem::metric)))
        << check.words;
    EXPECT_TRUE(says(check, "Between two computed places the lower foot counts")) << check.words;
  }
}

TEST(ClearanceChecks, TakeTheFeetInTheWindToo) {
  Rig rig = plain_rig();
  rig.wind = Wind{6.0};
  Plan plan = plan_of(rig);
  for (Vec3& foot : plan.wind->feet) foot.z = -20.0;
  const Check check = judged(rig, plan, "foot_clearance");
  EXPECT_NEAR(check.value, 10.0, 1e-9);
  EXPECT_TRUE(says(check, "in the wind")) << check.words;
}

TEST(ClearanceChecks, TakeTheEdgeInTheWindToo) {
  Rig rig = plain_rig();
  rig.wind = Wind{6.0};
  Plan plan = plan_of(rig);
  plan.wind->edge_distance = 0.01;
  const Check check = judged(rig, plan, "edge_distance");
  EXPECT_EQ(check.verdict, Verdict::stop);
  EXPECT_TRUE(says(check, "in the wind")) << check.words;
}

TEST(EdgeCheck, StopsALineBelowTheGroundThoughNoEdgeIsStated) {
  Rig rig = plain_rig();
  rig.near_anchor.edge.reset();
  rig.far_anchor.edge.reset();
  Check check = judged(rig, plan_of(rig), "edge_distance");
  EXPECT_FALSE(check.computed);
  EXPECT_EQ(check.verdict, Verdict::caution);
  rig.site.ground = {{0, -1.5}, {1, 0.4}, {2, -1.5}, {2, -30}, {50, -30}};
  check = judged(rig, plan_of(rig), "edge_distance");
  EXPECT_TRUE(check.computed);
  EXPECT_EQ(check.verdict, Verdict::stop);
  EXPECT_LT(check.value, -0.4);
  EXPECT_TRUE(says(check, "passes below the ground")) << check.words;
  EXPECT_TRUE(says(check, "The distance to the near edge is not known")) << check.words;
  EXPECT_TRUE(says(check, "The distance to the far edge is not known")) << check.words;
}

TEST(ZoneHang, WarnsWhereABodyOnTheLeashReachesTheGround) {
  const Rig rig = plain_rig();  // the rims, 1.5 m below the anchors, end 2 m from them; the body hangs 2.35 m
  const Plan plan = plan_of(rig);
  const Check check = judged(rig, plan, "zone_hang");
  EXPECT_EQ(check.verdict, Verdict::caution);
  EXPECT_LT(check.value, 1.5 - 2.35);
  EXPECT_TRUE(says(check, "from 0.00 m to 2.00 m of the gap and from 48.00 m to 50.00 m of the gap")) << check.words;
  EXPECT_TRUE(says(check, "a fall there ends on the ground")) << check.words;
  EXPECT_TRUE(says(judged(rig, plan, "zone_hang", UnitSystem::us), "from 0.00 ft to 6.56 ft")) << check.words;
}

TEST(ZoneHang, IsInOrderOverDeepGround) {
  Rig rig = plain_rig();
  rig.site.ground = {{0, -30}, {50, -30}};
  const Check check = judged(rig, plan_of(rig), "zone_hang");
  EXPECT_EQ(check.verdict, Verdict::ok) << check.words;
  EXPECT_GT(check.value, 25.0);
}

TEST(ZoneHang, WarnsOfZonesThatCoverMoreThanAThirdOfTheGap) {
  Rig rig = plain_rig();
  rig.site.ground = {{0, -30}, {50, -30}};
  const Plan plan = plan_of(rig);
  rig.limits.anchor_zone.value = 8.3;  // 33.2 %
  EXPECT_EQ(judged(rig, plan, "zone_hang").verdict, Verdict::ok);
  rig.limits.anchor_zone.value = 8.5;  // 34 %
  const Check check = judged(rig, plan, "zone_hang");
  EXPECT_EQ(check.verdict, Verdict::caution);
  EXPECT_TRUE(says(check, "34 % of the gap")) << check.words;
}

TEST(ZoneHang, IsLeftOutWhereThereIsNoZone) {
  Rig rig = plain_rig();
  const Plan plan = plan_of(rig);
  rig.limits.anchor_zone.value = 0.0;
  for (const Check& check : check_clearance(rig, plan, UnitSystem::metric)) EXPECT_NE(check.name, "zone_hang");
}

}  // namespace
}  // namespace spanloom
