#include "webbing/stretch_curve.h"

#include <gtest/gtest.h>

#include <cmath>
#include <limits>
#include <vector>

#include "base/input_error.h"

namespace spanloom {
namespace {

// Invented curves: webbing that stiffens, one that softens, one with uneven points, one of two points.
const std::vector<std::vector<CurvePoint>> kPoints{
    {{2e3, 0.021}, {5e3, 0.040}, {10e3, 0.066}, {20e3, 0.108}, {32e3, 0.150}},
    {{0.0, 0.0}, {4e3, 0.005}, {7e3, 0.02}, {9e3, 0.08}},
    {{100.0, 0.03}, {150.0, 0.031}, {20e3, 0.06}, {21e3, 0.2}},
    {{30e3, 0.2}},
};

class Curve : public testing::TestWithParam<std::size_t> {
 protected:
  const StretchCurve curve = StretchCurve::from_points(kPoints[GetParam()]);
  const double last_stretch = curve.points().back().stretch, last_tension = curve.points().back().tension;
};

TEST_P(Curve, RunsThroughItsPoints) {
  for (const CurvePoint& p : kPoints[GetParam()]) {
    EXPECT_NEAR(curve.tension(p.stretch), p.tension, 1e-12 * last_tension);
  }
}

TEST_P(Curve, GivesBackTheStretchOfEveryTension) {
  for (int i = 0; i <= 2000; ++i) {
    const double tension = last_tension * 1.5 * i / 2000.0;
    const double back = curve.tension(curve.stretch_at(tension).stretch);
    EXPECT_NEAR(back, tension, 4e-15 * last_tension) << "at " << tension;
  }
}

TEST_P(Curve, GivesBackTheTensionOfEveryStretch) {
  for (int i = 1; i <= 2000; ++i) {
    const double stretch = last_stretch * 1.5 * i / 2000.0;
    const StretchAt back = curve.stretch_at(curve.tension(stretch));
    // What rounding of the tension can do to the stretch where the curve is flat.
    const double rounding = 1e-15 * last_stretch + 1e-15 * last_tension * back.compliance;
    EXPECT_NEAR(back.stretch, stretch, rounding) << "at " << stretch;
  }
}

TEST_P(Curve, RisesEverywhere) {
  double before = 0.0;
  for (int i = 1; i <= 3000; ++i) {
    const double now = curve.tension(last_stretch * 1.5 * i / 3000.0);
    ASSERT_GT(now, before) << "step " << i;
    before = now;
  }
}

TEST_P(Curve, HasTheStiffnessOfItsFiniteDifferences) {
  const double step = 1e-6 * last_stretch;
  for (int i = 1; i < 400; ++i) {
    const double stretch = last_stretch * 1.3 * (i + 0.37) / 400.0;
    const double difference = (curve.tension(stretch + step) - curve.tension(stretch - step)) / (2.0 * step);
    EXPECT_NEAR(difference / curve.stiffness(stretch), 1.0, 1e-5) << "at " << stretch;
    EXPECT_NEAR(curve.stretch_at(curve.tension(stretch)).compliance * curve.stiffness(stretch), 1.0, 1e-8);
  }
}

TEST_P(Curve, StoresTheAreaUnderItself) {
  // Simpson's rule is exact for the cubics between points when its steps end there.
  double area = 0.0;
  std::vector<CurvePoint> points = curve.points();
  points.push_back({0.0, 1.4 * last_stretch});
  for (std::size_t i = 0; i + 1 < points.size(); ++i) {
    const double a = points[i].stretch, b = points[i + 1].stretch;
    // The curve has a kink at 0 only from the left; take its right side.
    const double at_a = a > 0.0 ? curve.tension(a) : 0.0;
    area += (b - a) / 6.0 * (at_a + 4.0 * curve.tension(0.5 * (a + b)) + curve.tension(b));
    EXPECT_NEAR(curve.energy(b) / area, 1.0, 1e-12);
  }
}

TEST_P(Curve, SharesTheRectangleBetweenEnergyAndCoenergy) {
  for (int i = 1; i <= 50; ++i) {
    const double tension = last_tension * 1.3 * i / 50.0, stretch = curve.stretch_at(tension).stretch;
    EXPECT_NEAR((curve.energy(stretch) + curve.coenergy(tension)) / (tension * stretch), 1.0, 1e-12);
    EXPECT_GT(curve.coenergy(tension), 0.0);
  }
}

TEST_P(Curve, GoesOnByItsLastSlopeBeyondTheLastPoint) {
  const double slope = curve.stiffness(last_stretch);
  for (double more : {0.01, 0.5, 3.0}) {
    const double expected = last_tension + slope * more * last_stretch;
    EXPECT_NEAR(curve.tension((1.0 + more) * last_stretch) / expected, 1.0, 1e-12);
    EXPECT_NEAR(curve.stretch_at(expected).stretch / ((1.0 + more) * last_stretch), 1.0, 1e-12);
  }
  EXPECT_EQ(curve.last_measured_tension(), last_tension);
}

TEST_P(Curve, NeverPushes) {
  for (double stretch : {-1.0, -0.3, -1e-300, -0.0, 0.0, std::numeric_limits<double>::quiet_NaN()}) {
    EXPECT_EQ(curve.tension(stretch), 0.0);
    EXPECT_EQ(curve.stiffness(stretch), 0.0);
    EXPECT_EQ(curve.energy(stretch), 0.0);
  }
}
INSTANTIATE_TEST_SUITE_P(Invented, Curve, testing::Range(std::size_t(0), kPoints.size()));

TEST(StretchCurve, IsStraightWhenLinear) {
  const StretchCurve curve = StretchCurve::linear(150e3);
  EXPECT_DOUBLE_EQ(curve.tension(0.04), 6000.0);
  EXPECT_DOUBLE_EQ(curve.stiffness(3.0), 150e3);
  EXPECT_DOUBLE_EQ(curve.energy(0.04), 120.0);
  EXPECT_DOUBLE_EQ(curve.stretch_at(6000.0).stretch, 0.04);
  EXPECT_EQ(curve.last_measured_tension(), std::numeric_limits<double>::infinity());
  EXPECT_EQ(curve.constant_stiffness(), 150e3);
}

TEST(StretchCurve, IsTheChordWhenOnePointIsGiven) {
  EXPECT_DOUBLE_EQ(StretchCurve::from_points({{30e3, 0.2}}).constant_stiffness(), 150e3);
}

std::string key_of(const std::vector<CurvePoint>& points) {
  try {
    StretchCurve::from_points(points);
  } catch (const InputError& error) {
    return error.problems().front().key;
  }
  return "no error";
}

TEST(StretchCurve, NamesThePointThatDoesNotRise) {
  // The origin is put in front, so the second given point is [2].
  EXPECT_EQ(key_of({{2e3, 0.02}, {1e3, 0.03}}), "[2]");
  EXPECT_EQ(key_of({{2e3, 0.02}, {3e3, 0.02}}), "[2]");
  EXPECT_EQ(key_of({{0.0, 0.0}, {2e3, 0.02}, {2e3, 0.03}}), "[2]");
}

TEST(StretchCurve, RefusesWhatIsNoPoint) {
  const double nan = std::numeric_limits<double>::quiet_NaN(), infinite = std::numeric_limits<double>::infinity();
  EXPECT_EQ(key_of({{nan, 0.02}}), "[1]");
  EXPECT_EQ(key_of({{2e3, infinite}}), "[1]");
  EXPECT_EQ(key_of({{-2e3, 0.02}}), "[1]");
  EXPECT_NE(key_of({}), "no error");
  EXPECT_NE(key_of({{0.0, 0.0}}), "no error");
}

TEST(StretchCurve, RefusesAStiffnessThatIsNone) {
  for (double ea : {0.0, -1.0, std::numeric_limits<double>::quiet_NaN(), std::numeric_limits<double>::infinity()}) {
    EXPECT_THROW(StretchCurve::linear(ea), InputError) << ea;
  }
}

}  // namespace
}  // namespace spanloom
