#include "survey/laser.h"

#include <gtest/gtest.h>

#include <cmath>
#include <numbers>

#include "base/input_error.h"

namespace spanloom {
namespace {

constexpr double kDegree = std::numbers::pi / 180.0;

TEST(LaserSight, GivesGapAndRiseOfATriangle) {
  // The 3-4-5 triangle: 50 m up at asin 0.6 are 40 m along and 30 m up.
  const GapRise g = gap_of_sight({{50.0, 0.005}, {std::asin(0.6), 0.3 * kDegree}});
  EXPECT_NEAR(g.gap, 40.0, 1e-12);
  EXPECT_NEAR(g.rise, 30.0, 1e-12);
  // By hand: sd of the gap^2 = (0.8 x 5 mm)^2 + (30 m x 5.236 mrad)^2; of the rise^2 = (0.6 x 5 mm)^2 + (40 m x 5.236
  // mrad)^2.
  EXPECT_NEAR(g.gap_sd(), std::hypot(0.004, 30.0 * 0.3 * kDegree), 1e-12);
  EXPECT_NEAR(g.rise_sd(), std::hypot(0.003, 40.0 * 0.3 * kDegree), 1e-12);
  EXPECT_NEAR(g.covariance, 0.004 * 0.003 - 30.0 * 40.0 * std::pow(0.3 * kDegree, 2), 1e-12);
}

TEST(LaserSight, LeavesTheGapToTheDistanceWhereItIsLevel) {
  const GapRise g = gap_of_sight({{62.0, 0.005}, {0.0, 0.3 * kDegree}});
  EXPECT_NEAR(g.gap_sd(), 0.005, 1e-15);
  EXPECT_NEAR(g.rise_sd(), 62.0 * 0.3 * kDegree, 1e-12);
}

TEST(LaserStand, FollowsTheLawOfCosines) {
  // Legs of 30 m and 40 m at a right angle: 50 m between the anchors.
  const GapRise square =
      gap_from_stand({{30.0, 0.01}, {0.0, 0.001}}, {{40.0, 0.01}, {0.0, 0.001}}, {90.0 * kDegree, 0.001});
  EXPECT_NEAR(square.gap, 50.0, 1e-12);
  EXPECT_NEAR(square.rise, 0.0, 1e-12);
  // Derivatives by hand: dg/dh = 0.6 and 0.8, dg/dbeta = 30 x 40 / 50 = 24 m.
  EXPECT_NEAR(square.gap_sd(), std::sqrt(0.006 * 0.006 + 0.008 * 0.008 + 0.024 * 0.024), 1e-12);
  EXPECT_NEAR(square.rise_sd(), std::hypot(0.03, 0.04), 1e-12);
}

TEST(LaserStand, OnTheLineBetweenTheAnchorsAddsUp) {
  const GapRise g =
      gap_from_stand({{20.0, 0.01}, {0.0, 0.001}}, {{42.0, 0.01}, {0.0, 0.001}}, {std::numbers::pi, 0.001});
  EXPECT_NEAR(g.gap, 62.0, 1e-12);
}

TEST(LaserStand, SpreadsAsItsReadingsMoveIt) {
  // Derivatives against differences: each reading moved by a ten-thousandth of its sd.
  const LaserSight near{{16.25, 0.005}, {7.0 * kDegree, 0.003}}, far{{71.39, 0.006}, {0.4 * kDegree, 0.004}};
  const Reading between{48.9 * kDegree, 0.005};
  const double step = 1e-4;
  double gap = 0.0, rise = 0.0, both = 0.0;
  for (int i = 0; i < 5; ++i) {
    const auto at = [&](double sds) {
      LaserSight n = near, f = far;
      Reading b = between;
      Reading* const moved[] = {&n.distance, &n.angle, &f.distance, &f.angle, &b};
      moved[i]->value += sds * moved[i]->sd;
      return gap_from_stand(n, f, b);
    };
    const GapRise more = at(step), less = at(-step);
    const double g = 0.5 * (more.gap - less.gap) / step, r = 0.5 * (more.rise - less.rise) / step;
    gap += g * g;
    rise += r * r;
    both += g * r;
  }
  const GapRise found = gap_from_stand(near, far, between);
  // Rounding of 60 m over a step of 5e-7 m: 1e-8 relative.
  EXPECT_NEAR(found.gap_variance / gap, 1.0, 1e-7);
  EXPECT_NEAR(found.rise_variance / rise, 1.0, 1e-7);
  EXPECT_NEAR(found.covariance / both, 1.0, 1e-6);
}

TEST(LaserSight, RefusesWhatCannotBe) {
  EXPECT_THROW(gap_of_sight({{0.0, 0.01}, {0.0, 0.01}}), InputError);
  EXPECT_THROW(gap_of_sight({{5.0, 0.01}, {2.0, 0.01}}), InputError);
  EXPECT_THROW(gap_from_stand({{5.0, 0.01}, {0.0, 0.01}}, {{5.0, 0.01}, {0.0, 0.01}}, {0.0, 0.01}), InputError);
}

}  // namespace
}  // namespace spanloom
