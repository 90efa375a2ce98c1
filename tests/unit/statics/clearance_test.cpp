#include "statics/clearance.h"

#include <gtest/gtest.h>

#include <cmath>

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

TEST(EdgeDistance, IsTakenSquareToTheLine) {
  Rig rig = plain_rig();
  rig.far_anchor.edge.reset();
  rig.site.ground = {{0, -0.5}, {2, -0.5}, {2, -30}, {50, -30}};
  // The line falls by 3 in 4; the edge lies 2 m out and 0.5 m below the anchor, 1 m above the line.
  Shape shape;
  shape.main = {{{0, 0, 0}, {4, 0, -3}, {50, 0, -3}}};
  shape.loop = {{}};
  const auto least = edge_distance(rig, shape);
  ASSERT_TRUE(least);
  EXPECT_NEAR(least->distance, -0.8, 1e-12);  // below the edge: 1 m times 4/5
  shape.main = {{{0, 0, 0}, {50, 0, 0}}};
  EXPECT_NEAR(edge_distance(rig, shape)->distance, 0.5, 1e-12);
}

TEST(EdgeDistance, NeedsAnEdgeAndTheGround) {
  Rig rig = plain_rig();
  rig.near_anchor.edge.reset();
  rig.far_anchor.edge.reset();
  EXPECT_FALSE(edge_distance(rig, straight_line(50, 0)));
  rig.near_anchor.edge = 2.0;
  rig.site.ground.clear();
  EXPECT_FALSE(edge_distance(rig, straight_line(50, 0)));
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
