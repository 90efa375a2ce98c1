#include "statics/loop_geometry.h"

#include <gtest/gtest.h>

#include <vector>

namespace spanloom {
namespace {

std::vector<Vec3> parabola(double span, double drop, double rise, int bars) {
  std::vector<Vec3> nodes;
  for (int i = 0; i <= bars; ++i) {
    const double t = double(i) / bars;
    nodes.push_back({span * t, 0.0, rise * t - 4.0 * drop * t * (1.0 - t)});
  }
  return nodes;
}

TEST(LoopDrop, OfAParabolaIsItsSag) {
  for (double rise : {0.0, 2.0, -3.0}) {
    EXPECT_NEAR(loop_drop(parabola(4.0, 0.0, rise, 1), parabola(4.0, 0.2, rise, 16)), 0.2, 1e-15) << rise;
  }
}

TEST(LoopDrop, IsMeasuredFromAMainThatSagsItself) {
  // 0.25 m and 0.10 m below the same chord: 0.15 m between them.
  EXPECT_NEAR(loop_drop(parabola(4.0, 0.10, 0.0, 16), parabola(4.0, 0.25, 0.0, 16)), 0.15, 1e-15);
}

TEST(LoopDrop, FindsNodesOfTheMainBetweenThoseOfTheLoop) {
  // The main peaks at x = 1, where the loop has no node: 1 above its straight line at -0.5.
  const std::vector<Vec3> main{{0, 0, 0}, {1, 0, 1}, {2, 0, 0}}, loop{{0, 0, 0}, {0.5, 0, -0.5}, {1.5, 0, -0.5}, {2, 0, 0}};
  EXPECT_NEAR(loop_drop(main, loop), 1.5, 1e-15);
}

TEST(LoopDrop, IsNotAboveZeroWhereTheLoopIsNowhereBelow) {
  EXPECT_NEAR(loop_drop(parabola(4.0, 0.3, 0.0, 16), parabola(4.0, 0.1, 0.0, 16)), 0.0, 1e-15);
}

TEST(HeightAt, IsStraightBetweenNodesAndHeldBeyondThem) {
  const std::vector<Vec3> line{{1, 0, 2}, {3, 0, 6}};
  EXPECT_DOUBLE_EQ(height_at(line, 1.5), 3.0);
  EXPECT_DOUBLE_EQ(height_at(line, 0.0), 2.0);
  EXPECT_DOUBLE_EQ(height_at(line, 9.0), 6.0);
}

TEST(AnkleMargin, IsTheLeastWithinFifteenCentimetresOfMain) {
  // Main kinked at the foot: slopes +-0.75, so 0.15 m of main is 0.12 m of x. The loop hangs level, 0.5 m
  // below the anchors: foot 0.3 m below them, so 0.2 m at the foot and more beside it.
  const std::vector<Vec3> main{{0, 0, 0}, {0.4, 0, -0.3}, {0.8, 0, 0}}, level{{0, 0, -0.5}, {0.8, 0, -0.5}};
  EXPECT_NEAR(ankle_margin(main, level, 1), 0.2, 1e-15);
  // A loop that rises by 1 in 1: highest at the far edge of the window, x = 0.52, where the main is at -0.21.
  const std::vector<Vec3> rising{{0, 0, -1.0}, {0.8, 0, -0.2}};
  EXPECT_NEAR(ankle_margin(main, rising, 1), -0.21 - (-0.48), 1e-15);
}

TEST(AnkleMargin, IsNegativeWhereTheLoopRidesUp) {
  const std::vector<Vec3> main{{0, 0, 0}, {1, 0, -0.2}, {2, 0, 0}}, loop{{0, 0, 0}, {1, 0, -0.05}, {2, 0, 0}};
  EXPECT_NEAR(ankle_margin(main, loop, 1), -0.15, 1e-15);
}

TEST(AnkleMargin, StopsAtTheEndsOfItsBay) {
  // A bay of 0.2 m: the window of 0.3 m is cut to it, where main and loop meet.
  const std::vector<Vec3> main{{0, 0, 0}, {0.1, 0, 0}, {0.2, 0, 0}}, loop{{0, 0, 0}, {0.1, 0, -0.1}, {0.2, 0, 0}};
  EXPECT_NEAR(ankle_margin(main, loop, 1), 0.0, 1e-15);
}

}  // namespace
}  // namespace spanloom
