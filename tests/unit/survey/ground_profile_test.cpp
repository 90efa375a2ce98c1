#include "survey/ground_profile.h"

#include <gtest/gtest.h>

#include "base/input_error.h"

namespace spanloom {
namespace {

TEST(ProjectedGround, MeasuresAlongTheLineWhereverItPoints) {
  // Towards (3, 4): 5 m along is 25 m of the 50 m gap at (15, 20).
  const ProjectedGround g = project_ground({{15.0, 20.0, -7.0}, {0.0, 0.0, -1.0}}, {30.0, 40.0, -1.5}, 5.0);
  ASSERT_EQ(g.points.size(), 2u);
  EXPECT_NEAR(g.points[0].distance, 0.0, 1e-12);
  EXPECT_NEAR(g.points[1].distance, 25.0, 1e-12);
  EXPECT_EQ(g.points[1].height, -7.0);
}

TEST(ProjectedGround, LeavesOutWhatIsAsideOrBehindAndSaysHowMany) {
  const ProjectedGround g = project_ground(
      {{10.0, 4.9, -3.0}, {10.0, -5.1, -3.0}, {-6.0, 0.0, -1.0}, {70.0, 0.0, -1.0}}, {62.0, 0.0, 0.0}, 5.0);
  EXPECT_EQ(g.points.size(), 1u);
  EXPECT_EQ(g.sideways, 1u);
  EXPECT_EQ(g.beyond, 2u);
}

TEST(ProjectedGround, RisesStrictlyAndKeepsTheHighestOfNeighbours) {
  const ProjectedGround g =
      project_ground({{9.0, 0.0, -9.0}, {3.0, 0.0, -5.0}, {3.0, 1.0, -4.0}, {3.1, 0.0, -6.0}}, {62.0, 0.0, 0.0}, 5.0);
  ASSERT_EQ(g.points.size(), 2u);
  EXPECT_EQ(g.points[0].height, -4.0);
  EXPECT_LT(g.points[0].distance, g.points[1].distance);
  EXPECT_EQ(g.thinned, 2u);
}

TEST(ThinnedGround, KeepsARimBeforeADrop) {
  const auto g = thinned({{9.0, 0.0}, {9.9, 0.0}, {10.10, 0.0}, {10.16, -50.0}, {12.0, -50.0}});
  ASSERT_EQ(g.size(), 5u);
  EXPECT_EQ(g[2].distance, 10.10);
  EXPECT_EQ(g[2].height, 0.0);
}

TEST(JoinedGround, TakesAndTellsAHigherPointOfAPoorerSource) {
  const GroundProfile g =
      join_ground({{"laser", {{0.0, -30.0}, {62.0, -30.0}}}, {"the track", {{31.0, -5.0}, {40.0, -29.6}}, 7.0}}, 62.0);
  ASSERT_EQ(g.points.size(), 3u);
  EXPECT_EQ(g.points[1].height, -5.0);
  EXPECT_EQ(g.height_sd, 7.0);
  ASSERT_EQ(g.notes.size(), 1u);
  EXPECT_NE(g.notes[0].find("31.00 m from the near anchor, height -5.00 m"), std::string::npos) << g.notes[0];
}

TEST(JoinedGround, HasNoWordForNoLength) {
  EXPECT_TRUE(join_ground({{"track", {{0.001, -1.0}, {62.0, -2.0}}}}, 62.0).notes.empty());
}

TEST(ProjectedGround, NeedsALine) { EXPECT_THROW(project_ground({}, {0.0, 0.0, -3.0}, 5.0), InputError); }

TEST(JoinedGround, PrefersTheBetterSourceWhereItReaches) {
  const GroundProfile g = join_ground(
      {{"laser", {{0.0, -1.0}, {20.0, -9.0}}}, {"track", {{10.0, -4.7}, {40.0, -20.0}, {62.0, -2.0}}}}, 62.0);
  ASSERT_EQ(g.points.size(), 4u);
  EXPECT_EQ(g.points[1].distance, 20.0);
  EXPECT_EQ(g.points[2].height, -20.0);
  EXPECT_EQ(g.from.size(), 2u);
  EXPECT_TRUE(g.notes.empty());
}

TEST(JoinedGround, IsTakenLevelForAShortPieceAndSaysSo) {
  const GroundProfile g = join_ground({{"track", {{1.0, -1.0}, {61.0, -2.0}}}}, 62.0);
  ASSERT_EQ(g.points.size(), 4u);
  EXPECT_EQ(g.points.front().distance, 0.0);
  EXPECT_EQ(g.points.back().distance, 62.0);
  EXPECT_EQ(g.points.back().height, -2.0);
  EXPECT_EQ(g.notes.size(), 2u);
}

TEST(JoinedGround, IsNoneWhereItDoesNotReachAnAnchor) {
  const GroundProfile g = join_ground({{"laser", {{0.0, -1.0}, {20.0, -9.0}}}}, 62.0);
  EXPECT_TRUE(g.points.empty());
  ASSERT_EQ(g.notes.size(), 1u);
  EXPECT_NE(g.notes[0].find("42.00 m before the far anchor"), std::string::npos) << g.notes[0];
}

}  // namespace
}  // namespace spanloom
