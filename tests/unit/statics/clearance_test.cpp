#include "statics/clearance.h"

#include <gtest/gtest.h>

#include <array>
#include <cmath>
#include <utility>

#include "statics/plan.h"
#include "support/plain_rig.h"

namespace spanloom {
namespace {

Shape straight_line(double gap, double height) {
  Shape shape;
  shape.main = {{{0, 0, height}, {gap, 0, height}}};
  shape.loop = {{}};
  return shape;
}

TEST(GroundHeight, TakesTheHigherSideOfAStep) {
  const std::vector<GroundPoint> ground{{0, -1}, {5, -1}, {5, -20}, {10, -10}};
  EXPECT_DOUBLE_EQ(*ground_height(ground, 5.0), -1.0);
  EXPECT_DOUBLE_EQ(*ground_height(ground, 7.5), -15.0);
  EXPECT_DOUBLE_EQ(*ground_height(ground, 0.0), -1.0);
  EXPECT_FALSE(ground_height(ground, 10.1));
  EXPECT_FALSE(ground_height({}, 1.0));
}

TEST(GroundHeight, AtARisingStepIsTheTopToo) {
  const std::vector<GroundPoint> ground{{0, -20}, {5, -20}, {5, -1}, {10, -1}};
  EXPECT_DOUBLE_EQ(*ground_height(ground, 5.0), -1.0);
}

TEST(LineClearance, FindsAPeakBetweenTheNodes) {
  Rig rig = plain_rig();
  rig.limits.anchor_zone.value = 4.0;
  rig.site.ground = {{0, -30}, {20, -30}, {21, -3}, {22, -30}, {50, -30}};
  const auto least = line_clearance(rig, straight_line(50, -1));
  ASSERT_TRUE(least);
  EXPECT_DOUBLE_EQ(least->distance, 2.0);
  EXPECT_DOUBLE_EQ(least->at, 21.0);
}

TEST(LineClearance, LeavesTheAnchorZonesOutAndMeetsTheirBorders) {
  Rig rig = plain_rig();
  rig.limits.anchor_zone.value = 4.0;
  // The ground falls from the line at the anchor by 1 in 1: 4 m below it where the zone ends.
  rig.site.ground = {{0, 0}, {25, -25}, {50, -25}};
  const auto least = line_clearance(rig, straight_line(50, 0));
  ASSERT_TRUE(least);
  EXPECT_NEAR(least->distance, 4.0, 1e-12);
  EXPECT_DOUBLE_EQ(least->at, 4.0);
}

TEST(LineClearance, CountsTheLoops) {
  Rig rig = plain_rig();
  Shape shape = straight_line(50, 0);
  shape.loop = {{{0, 0, 0}, {25, 0, -2.5}, {50, 0, 0}}};
  EXPECT_NEAR(line_clearance(rig, shape)->distance, 27.5, 1e-12);
}

TEST(LineClearance, IsUnknownWithoutGroundOrWhereTheZonesCoverTheGap) {
  Rig rig = plain_rig();
  rig.limits.anchor_zone.value = 26.0;
  EXPECT_FALSE(line_clearance(rig, straight_line(50, 0)));
  rig.limits.anchor_zone.value = 4.0;
  rig.site.ground.clear();
  EXPECT_FALSE(line_clearance(rig, straight_line(50, 0)));
}

/// A line of one bay through stated points, no loop.
Shape line_through(std::vector<Vec3> nodes) {
  Shape shape;
  shape.main = {std::move(nodes)};
  shape.loop = {{}};
  return shape;
}

TEST(EdgeDistance, IsTakenSquareToTheLine) {
  Rig rig = plain_rig();
  rig.far_anchor.edge.reset();
  rig.site.ground = {{0, -3}, {2, -3}, {2, -30}, {50, -30}};
  // The line falls by 3 in 4; the edge lies 2 m out and 1.5 m below the line: 1.5 m times 4/5 away.
  const auto least = edge_distance(rig, line_through({{0, 0, 0}, {4, 0, -3}, {50, 0, -3}}));
  ASSERT_TRUE(least);
  EXPECT_NEAR(least->distance, 1.2, 1e-12);
  EXPECT_DOUBLE_EQ(least->at, 2.0);
}

TEST(EdgeDistance, IsMinusTheDepthWhereTheLinePassesBelowTheEdge) {
  Rig rig = plain_rig();
  rig.site.ground = {{0, -0.5}, {2, -0.5}, {2, -30}, {50, -30}};
  const auto least = edge_distance(rig, line_through({{0, 0, 0}, {4, 0, -3}, {50, 0, -3}}));
  ASSERT_TRUE(least);
  EXPECT_NEAR(least->distance, -1.0, 1e-12);
  EXPECT_DOUBLE_EQ(least->at, 2.0);
  EXPECT_NEAR(edge_distance(rig, straight_line(50, 0))->distance, 0.5, 1e-12);
}

// An edge runs across the gap: a line blown aside is as near to it as one that hangs still.
TEST(EdgeDistance, IsNoGreaterForALineBlownAside) {
  Rig rig = plain_rig();
  const auto still = edge_distance(rig, line_through({{0, 0, 0}, {10, 0, -1}, {50, 0, 0}}));
  const auto blown = edge_distance(rig, line_through({{0, 0, 0}, {10, 6, -1}, {50, 0, 0}}));
  ASSERT_TRUE(still && blown);
  EXPECT_DOUBLE_EQ(blown->distance, still->distance);
}

TEST(EdgeDistance, SeesARockBeyondTheEdge) {
  Rig rig = plain_rig();
  rig.site.ground = {{0, -1.5}, {2, -1.5}, {2.5, -4}, {3, -0.3}, {3.5, -4}, {4, -30}, {50, -30}};
  const auto least = edge_distance(rig, straight_line(50, 0));
  ASSERT_TRUE(least);
  EXPECT_NEAR(least->distance, 0.3, 1e-12);
  EXPECT_DOUBLE_EQ(least->at, 3.0);
}

// The anchor stands on the ground: what lies before the edge is near the line and may be.
TEST(EdgeDistance, LeavesGroundBeforeTheEdgeOutWhileTheLinePassesOverIt) {
  Rig rig = plain_rig();
  rig.far_anchor.edge.reset();
  rig.site.ground = {{0, 0}, {1, -0.05}, {2, -1.5}, {2, -30}, {50, -30}};
  EXPECT_NEAR(edge_distance(rig, straight_line(50, 0))->distance, 1.5, 1e-12);
}

TEST(EdgeDistance, IsNegativeWhereTheLinePassesBelowGroundBeforeTheEdge) {
  Rig rig = plain_rig();
  rig.site.ground = {{0, -1.5}, {1, 0.4}, {2, -1.5}, {2, -30}, {50, -30}};
  const auto least = edge_distance(rig, straight_line(50, 0));
  ASSERT_TRUE(least);
  EXPECT_NEAR(least->distance, -0.4, 1e-12);
  EXPECT_DOUBLE_EQ(least->at, 1.0);
}

TEST(EdgeDistance, CatchesALineBelowTheGroundThoughNoEdgeIsStated) {
  Rig rig = plain_rig();
  rig.near_anchor.edge.reset();
  rig.far_anchor.edge.reset();
  EXPECT_FALSE(edge_distance(rig, straight_line(50, 0)));
  rig.site.ground = {{0, -30}, {48, -30}, {49, 0.4}, {50, -1.5}};
  const auto least = edge_distance(rig, straight_line(50, 0));
  ASSERT_TRUE(least);
  EXPECT_NEAR(least->distance, -0.4, 1e-12);
  EXPECT_DOUBLE_EQ(least->at, 49.0);
}

TEST(EdgeDistance, DoesNotCountTheWallAnAnchorIsFixedTo) {
  Rig rig = plain_rig();
  rig.near_anchor.edge.reset();
  rig.far_anchor.edge.reset();
  rig.site.ground = {{0, 10}, {0, -20}, {50, -20}, {50, 10}};
  EXPECT_FALSE(edge_distance(rig, straight_line(50, 0)));
}

TEST(EdgeDistance, NeedsTheGround) {
  Rig rig = plain_rig();
  rig.site.ground.clear();
  EXPECT_FALSE(edge_distance(rig, straight_line(50, 0)));
}

TEST(EdgeDistance, OfAPlanIsNoLessSafeInTheWindThanItsWorstPlaceThere) {
  Rig rig = plain_rig();
  rig.wind = Wind{6.0};
  const PlanOutcome out = make_plan(rig, {8, 8});
  ASSERT_TRUE(out.plan) << out.failure->words;
  const WindState& wind = *out.plan->wind;
  ASSERT_TRUE(wind.edge_distance && wind.worst.edge_distance);
  EXPECT_LE(*wind.edge_distance, *wind.worst.edge_distance);
  EXPECT_EQ(wind.feet.size(), out.plan->bays.size());
  ASSERT_TRUE(wind.hang_clearance);
  EXPECT_DOUBLE_EQ(*wind.hang_clearance, foot_clearance(rig, wind.feet, *between_zones(rig))->distance -
                                             out.plan->body_below_main);
}

// A rock of the practice line: its top lies between two places of the foot, at neither of them.
TEST(FootClearance, SeesARockBetweenTwoPlaces) {
  Rig rig = plain_rig();
  rig.site.ground = {{0, -5.3}, {7.3, -5.3}, {7.5, -2.6}, {7.7, -5.3}, {50, -5.3}};
  const std::array<Vec3, 2> feet{Vec3{7.18, 0, -0.6}, Vec3{8.05, 0, -0.7}};
  const auto least = foot_clearance(rig, feet, {7.0, 9.0});
  ASSERT_TRUE(least);
  EXPECT_NEAR(least->distance, 1.9, 1e-12);  // under the lower of the two feet
  EXPECT_DOUBLE_EQ(least->at, 7.5);
}

TEST(FootClearance, SeesASlopeAndStopsWhereTheStretchEnds) {
  Rig rig = plain_rig();
  rig.site.ground = {{0, -20}, {10, -20}, {20, -10}, {50, -20}};
  const std::array<Vec3, 3> feet{Vec3{30, 2, -1}, Vec3{12, 0, -1}, Vec3{16, 0, -2}};  // any order
  const auto slope = foot_clearance(rig, feet, {12.0, 15.0});
  ASSERT_TRUE(slope);
  EXPECT_NEAR(slope->distance, 13.0, 1e-12);
  EXPECT_DOUBLE_EQ(slope->at, 15.0);
  EXPECT_NEAR(foot_clearance(rig, feet, {12.0, 40.0})->distance, 8.0, 1e-12);
}

TEST(FootClearance, IsUnknownWithoutFeetOrGround) {
  Rig rig = plain_rig();
  EXPECT_FALSE(foot_clearance(rig, {}, {4.0, 46.0}));
  rig.site.ground.clear();
  const std::array<Vec3, 1> feet{Vec3{25, 0, -1}};
  EXPECT_FALSE(foot_clearance(rig, feet, {4.0, 46.0}));
}

TEST(GroundMet, GoesToWhereTheSlopeFallsAwayUnderTheFeet) {
  Rig rig = plain_rig();
  rig.site.ground = {{0, -1.5}, {2, -1.5}, {4, -3.5}, {50, -30}};
  const std::array<Vec3, 4> feet{Vec3{1, 0, -0.2}, Vec3{1.8, 0, -0.3}, Vec3{3, 0, -0.5}, Vec3{4.5, 0, -0.6}};
  const auto met = ground_met(rig, feet, {0.0, 4.0}, 1.5);
  ASSERT_TRUE(met);
  EXPECT_DOUBLE_EQ(met->from, 0.0);
  EXPECT_NEAR(met->to, 2.5, 1e-12);  // the lower foot of 1.8 m and 3 m, and the body: -2.0 m
  EXPECT_FALSE(ground_met(rig, feet, {0.0, 2.5}, 0.9));
}

TEST(AnchorZone, CoversBothEnds) {
  Rig rig = plain_rig();
  rig.limits.anchor_zone.value = 4.0;
  EXPECT_TRUE(in_anchor_zone(rig, 3.9));
  EXPECT_FALSE(in_anchor_zone(rig, 4.1));
  EXPECT_FALSE(in_anchor_zone(rig, 45.9));
  EXPECT_TRUE(in_anchor_zone(rig, 46.1));
}

}  // namespace
}  // namespace spanloom
