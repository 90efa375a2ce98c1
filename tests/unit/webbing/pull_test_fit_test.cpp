#include "webbing/pull_test_fit.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <random>

#include "base/input_error.h"

namespace spanloom {
namespace {

std::vector<FitReading> readings_of(const std::vector<double>& tensions) {
  std::vector<FitReading> readings;
  for (const double t : tensions) readings.push_back({0.001 * static_cast<double>(readings.size() + 1), t});
  return readings;
}

// By hand: 3 and 2 pool to 2.5; 6, 5 and 4 to 5; 7 and three times 4 to (7 + 12) / 4 = 4.75.
TEST(IsotonicTensions, PoolsWhatFalls) {
  EXPECT_EQ(isotonic_tensions(readings_of({1, 3, 2, 6, 5, 4, 8})), (std::vector<double>{1, 2.5, 2.5, 5, 5, 5, 8}));
  EXPECT_EQ(isotonic_tensions(std::vector<FitReading>{{0.1, 7, 1}, {0.2, 4, 3}}), (std::vector<double>{4.75, 4.75}));
  EXPECT_EQ(isotonic_tensions(readings_of({3, 2, 1})), (std::vector<double>{2, 2, 2}));
}

// Robertson, Wright & Dykstra (1988), theorem 1.4.4, from memory: the isotonic regression is the greatest over s <= i of
// the least over t >= i of the weighted mean from s to t. It shares nothing with the pooling.
double max_min(const std::vector<FitReading>& r, std::size_t i) {
  double greatest = -INFINITY;
  for (std::size_t s = 0; s <= i; ++s) {
    double least = INFINITY;
    double sum = 0.0, weight = 0.0;
    for (std::size_t t = s; t < r.size(); ++t) {
      sum += r[t].weight * r[t].tension;
      weight += r[t].weight;
      if (t >= i) least = std::min(least, sum / weight);
    }
    greatest = std::max(greatest, least);
  }
  return greatest;
}

TEST(IsotonicTensions, AgreesWithTheMaxMinFormula) {
  std::mt19937 random(7);
  for (int round = 0; round < 50; ++round) {
    std::vector<FitReading> readings;
    for (int i = 0; i < 30; ++i) {
      readings.push_back({0.01 * i, 10.0 * i + static_cast<double>(random() % 200), 1.0 + static_cast<double>(random() % 5)});
    }
    const std::vector<double> fitted = isotonic_tensions(readings);
    for (std::size_t i = 0; i < readings.size(); ++i) ASSERT_NEAR(fitted[i], max_min(readings, i), 1e-9) << round << ' ' << i;
  }
}

TEST(Binned, KeepsTheMeanAndTheOrder) {
  const std::vector<FitReading> bins = binned({{0.03, 30}, {0.01, 10}, {0.011, 20}, {0.02, 25}, {0.02, 15}}, 4);
  ASSERT_EQ(bins.size(), 3u);
  EXPECT_DOUBLE_EQ(bins[0].tension, 15.0);
  EXPECT_DOUBLE_EQ(bins[0].stretch, 0.0105);
  EXPECT_DOUBLE_EQ(bins[1].weight, 2.0);
  EXPECT_DOUBLE_EQ(bins[2].tension, 30.0);
}

TEST(FitRisingCurve, LiesNearAPowerLawWithFewPoints) {
  std::vector<FitReading> readings;
  for (int i = 1; i <= 400; ++i) readings.push_back({0.12 * i / 400.0, 20e3 * std::pow(i / 400.0, 1.414)});
  const RisingFit fit = fit_rising_curve(readings);
  EXPECT_LE(fit.points.size(), kMostCurvePoints);
  const StretchCurve curve = StretchCurve::from_points(fit.points);
  for (const FitReading& r : readings) EXPECT_NEAR(curve.tension(r.stretch), r.tension, 0.01 * 20e3);
  EXPECT_LE(fit.from_isotonic_rms, 0.002 * 20e3);
}

TEST(FitRisingCurve, RisesThroughNoise) {
  std::mt19937 random(3);
  std::vector<FitReading> readings;
  for (int i = 1; i <= 300; ++i) {
    const double noise = 1500.0 * (static_cast<double>(random()) / 4294967295.0 - 0.5);
    readings.push_back({0.12 * i / 300.0, 20e3 * std::pow(i / 300.0, 1.414) + noise});
  }
  const StretchCurve curve = StretchCurve::from_points(fit_rising_curve(readings).points);  // would throw if it fell
  // Twelve points share 300 readings of 433 N each: some 90 N off the truth, at the ends some more.
  double sum = 0.0;
  for (int i = 1; i <= 300; ++i) sum += std::pow(curve.tension(0.12 * i / 300.0) - 20e3 * std::pow(i / 300.0, 1.414), 2);
  EXPECT_LT(std::sqrt(sum / 300.0), 130.0);
}

TEST(FitRisingCurve, RefusesReadingsThatOnlyFall) {
  std::vector<FitReading> readings;
  for (int i = 1; i <= 40; ++i) readings.push_back({0.003 * i, 5e3 - 100.0 * i});
  EXPECT_THROW(fit_rising_curve(readings), InputError);
  EXPECT_THROW(fit_rising_curve(readings_of({1, 2, 3})), InputError);
}

TEST(InFiveFigures, GivesTheDoublesOfTheirDecimals) {
  const auto points = in_five_figures({{1234.56789, 0.0123456}, {18017.4, 0.123456789}});
  EXPECT_EQ(points[0].tension, 1235.0);
  EXPECT_EQ(points[0].stretch, 0.01235);
  EXPECT_EQ(points[1].stretch, 0.12346);
}

}  // namespace
}  // namespace spanloom
