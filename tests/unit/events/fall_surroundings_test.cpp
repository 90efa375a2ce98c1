// Distances of a falling body to ground and walls, on grounds drawn by hand.
#include "events/fall_surroundings.h"

#include <gtest/gtest.h>

#include "support/plain_rig.h"

namespace spanloom {
namespace {

// A V of slope 1 from both anchors down to a flat of 10 m depth, 50 m wide in all.
Rig valley() {
  Rig rig = plain_rig();
  rig.site.ground = {{0.0, 0.0}, {10.0, -10.0}, {40.0, -10.0}, {50.0, 0.0}};
  return rig;
}

// ---- Walls

TEST(WallDistance, IsToWhereASlopeRisesToTheBody) {
  const Rig rig = valley();
  EXPECT_NEAR(*wall_distance(rig, 12.0, -5.0, AnchorEnd::near), 7.0, 1e-12);
  EXPECT_NEAR(*wall_distance(rig, 12.0, -5.0, AnchorEnd::far), 33.0, 1e-12);
  EXPECT_NEAR(*wall_distance(rig, 12.0, -9.99, AnchorEnd::near), 2.01, 1e-12);
}

TEST(WallDistance, IsToAStepOfTheGround) {
  const Rig rig = plain_rig();  // from -1.5 m straight down to -30 m at 2 m and at 48 m
  EXPECT_NEAR(*wall_distance(rig, 10.0, -10.0, AnchorEnd::near), 8.0, 1e-12);
  EXPECT_NEAR(*wall_distance(rig, 10.0, -10.0, AnchorEnd::far), 38.0, 1e-12);
}

TEST(WallDistance, IsNothingToSayWhereNothingStandsThatHigh) {
  const Rig rig = plain_rig();
  EXPECT_FALSE(wall_distance(rig, 10.0, -1.0, AnchorEnd::near));
  EXPECT_FALSE(wall_distance(rig, 10.0, -1.0, AnchorEnd::far));
  Rig bare = plain_rig();
  bare.site.ground.clear();
  EXPECT_FALSE(wall_distance(bare, 10.0, -20.0, AnchorEnd::near));
}

TEST(WallDistance, IsNoneInsideTheGround) {
  const Rig rig = valley();
  EXPECT_EQ(*wall_distance(rig, 3.0, -5.0, AnchorEnd::near), 0.0);
  EXPECT_EQ(*wall_distance(rig, 3.0, -5.0, AnchorEnd::far), 0.0);
  EXPECT_EQ(*wall_distance(rig, 20.0, -10.5, AnchorEnd::near), 0.0);
}

TEST(WallDistance, TakesTheStatedWallBelowItsAnchor) {
  Rig rig = plain_rig();
  rig.near_anchor.wall = 3.0;
  rig.far_anchor.wall = 1.0;
  EXPECT_NEAR(*wall_distance(rig, 10.0, -10.0, AnchorEnd::near), 7.0, 1e-12);   // stands out from the step
  EXPECT_NEAR(*wall_distance(rig, 10.0, -10.0, AnchorEnd::far), 38.0, 1e-12);   // the step stands out from it
  EXPECT_NEAR(*wall_distance(rig, 10.0, -1.0, AnchorEnd::near), 7.0, 1e-12);
  EXPECT_EQ(*wall_distance(rig, 2.5, -1.0, AnchorEnd::near), 0.0);
  EXPECT_FALSE(wall_distance(rig, 10.0, 0.5, AnchorEnd::near));                 // feet above the anchor
  rig.site.rise = 4.0;
  EXPECT_NEAR(*wall_distance(rig, 10.0, 0.5, AnchorEnd::far), 39.0, 1e-12);     // the far anchor is higher
}

// ---- What a result keeps

TEST(NotedDistances, KeepTheLeastOfAPath) {
  const Rig rig = valley();  // feet 0.95 m under the hip
  FallResult result;
  note_distances(rig, {20.0, 0.0, -4.05}, {1.0, 0.0, -5.0}, result);
  ASSERT_TRUE(result.clearance && result.wall);
  EXPECT_NEAR(*result.clearance, 5.0, 1e-12);
  EXPECT_NEAR(*result.clearance_at, 20.0, 1e-12);
  EXPECT_NEAR(*result.wall, 15.0, 1e-12);
  EXPECT_EQ(result.wall_speed, 0.0);  // moves away from the nearer one
  note_distances(rig, {14.0, 0.0, -6.05}, {-2.5, 3.0, -1.0}, result);
  EXPECT_NEAR(*result.clearance, 3.0, 1e-12);
  EXPECT_NEAR(*result.wall, 14.0 - 7.0, 1e-12);
  EXPECT_NEAR(result.wall_speed, 2.5, 1e-12);
  note_distances(rig, {25.0, 0.0, -1.0}, {-9.0, 0.0, 0.0}, result);
  EXPECT_NEAR(*result.clearance, 3.0, 1e-12);
  EXPECT_NEAR(*result.clearance_at, 14.0, 1e-12);
  EXPECT_NEAR(*result.wall, 7.0, 1e-12);
  EXPECT_NEAR(result.wall_speed, 2.5, 1e-12);
}

TEST(NotedDistances, GoBelowZeroWhereTheBodyHits) {
  FallResult result;
  note_distances(valley(), {25.0, 0.0, -9.55}, {0.0, 0.0, -8.0}, result);
  EXPECT_NEAR(*result.clearance, -0.5, 1e-12);
  EXPECT_EQ(*result.wall, 0.0);
}

TEST(NotedDistances, AreLeftOutWithoutGround) {
  Rig rig = valley();
  rig.site.ground.clear();
  FallResult result;
  note_distances(rig, {25.0, 0.0, -9.0}, {}, result);
  EXPECT_FALSE(result.clearance);
  EXPECT_FALSE(result.wall);
}

// ---- The standing main

TEST(MainHeight, FollowsTheStandingMain) {
  Rig rig = plain_rig();
  rig.site.rise = 2.0;
  const MovingOutcome made = moving_rig(rig, kSearchMesh);
  ASSERT_TRUE(made.rig) << made.why;
  const MovingRig& line = *made.rig;
  const std::size_t last = line.line.main_nodes - 1;
  for (std::size_t i = 0; i < last; ++i) {
    const Vec3 middle = 0.5 * (line.rest[i] + line.rest[i + 1]);
    EXPECT_NEAR(main_height(line, line.rest[i].x), line.rest[i].z, 1e-12);
    EXPECT_NEAR(main_height(line, middle.x), middle.z, 1e-12);
  }
  EXPECT_NEAR(main_height(line, -3.0), 0.0, 1e-12);
  EXPECT_NEAR(main_height(line, 53.0), 2.0, 1e-12);
}

}  // namespace
}  // namespace spanloom
