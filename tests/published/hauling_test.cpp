// Pulling up against handbooks: the block and tackle, the capstan, the elastic catenary and the parabola.
#include <gtest/gtest.h>

#include <cmath>
#include <numbers>

#include "base/constants.h"
#include "support/elastic_cable.h"
#include "support/hauling_sample.h"

namespace spanloom {
namespace {

using fixture::hauled;

// Machinery's Handbook, simple machines, from memory: without friction the load over the force is the number of ropes
// at the moving block; with a share eta handed on by each sheave the ropes carry P, eta P, eta^2 P ... The sums are
// worked out by hand: 1 + 0.9 + 0.81 = 2.71; and on to 0.6561 = 4.0951; times 0.9 from the fixed block.
TEST(BlockAndTackle, MatchesTheHandbook) {
  EXPECT_DOUBLE_EQ(hauling_ratio({.parts = {6}, .efficiency = 1.0}), 6.0);
  EXPECT_NEAR(hauling_ratio({.parts = {3}, .efficiency = 0.9}), 2.71, 1e-12);
  EXPECT_NEAR(hauling_ratio({.parts = {5}, .efficiency = 0.9}), 4.0951, 1e-12);
  EXPECT_NEAR(hauling_ratio({.parts = {5}, .leaves = RopeLeaves::fixed_block, .efficiency = 0.9}), 0.9 * 4.0951, 1e-12);
  EXPECT_NEAR(hauling_ratio({.parts = {3, 3}, .efficiency = 0.9}), 2.71 * 2.71, 1e-12);
}

// A single pulley that only turns the rope: eta to haul, 1 / eta to hold.
TEST(BlockAndTackle, IsASheaveAloneWithOnePartFromTheFixedBlock) {
  const PulleySet sheave{.parts = {1}, .leaves = RopeLeaves::fixed_block, .efficiency = 0.7};
  EXPECT_NEAR(hauling_ratio(sheave), 0.7, 1e-12);
  EXPECT_NEAR(holding_ratio(sheave), 1.0 / 0.7, 1e-12);
}

// exp(mu theta), Euler 1769, Eytelwein 1808; own digits, by another program.
TEST(Capstan, MatchesTheTable) {
  constexpr double kPi = std::numbers::pi;
  EXPECT_NEAR(capstan_ratio(0.15, 0.5 * kPi), 1.265693, 5e-7);
  EXPECT_NEAR(capstan_ratio(0.15, kPi), 1.601978, 5e-7);
  EXPECT_NEAR(capstan_ratio(0.15, 2.0 * kPi), 2.566332, 5e-7);
  EXPECT_NEAR(capstan_ratio(0.2, 2.0 * kPi), 3.513586, 5e-7);
  EXPECT_NEAR(capstan_ratio(0.1, 2.0 * kPi), 1.874456, 5e-7);
}

constexpr double kStiffness = 120e3;  // [N]

// A main alone, for the backup weighs nothing to speak of.
Rig bare_rig(double gap) {
  Rig rig = plain_rig_of(gap);
  rig.webbings[0].curve = StretchCurve::linear(kStiffness);
  rig.webbings[1].mass_per_length = 1e-9;
  return rig;
}

// Unstretched length that gives the tension at the near end: bisection on Irvine's catenary.
double catenary_length(double gap, double weight, double tension) {
  double low = 0.9 * gap, high = 1.2 * gap;
  for (int i = 0; i < 200; ++i) {
    const double length = 0.5 * (low + high);
    const ElasticCable cable{kStiffness, weight, {length}, {}};
    const ElasticCable::Ends ends = cable.solve(gap, 0.0);
    (std::hypot(ends.h, ends.v) > tension ? low : high) = length;
  }
  return 0.5 * (low + high);
}

// Irvine, Cable Structures (1981), sect. 1.3. Error of 160 bars at 500 N: the extra length of the sag, 7.2 mm, over the
// square of their number, 0.3 um; and the weight of half a bar at the anchor, 0.09 N on a slope of 0.03, which is 1.2
// um at 0.45 mm/N. 2 um is allowed.
TEST(PulledLength, IsThatOfTheElasticCatenary) {
  const double gap = 50.0, weight = 0.060 * kGravity;
  const HaulingReport report = hauled(bare_rig(gap));
  const double loosest = catenary_length(gap, weight, report.hand_tight);
  for (const PullStep& step : report.steps) {
    EXPECT_NEAR(step.pulled, loosest - catenary_length(gap, weight, step.tension_near), 2e-6) << step.tension_near;
  }
}

// Handbook parabola: length l + 8 d^2 / 3 l at d = w l^2 / 8 T, over 1 + T / EA, w per stretched metre. It takes the
// tension of the near end for that of the whole line, which is (16/3) (d / l)^2 T = 0.14 N less at 500 N: 60 um of
// stretch; the curve's next terms add some. The sag misses by as large a share, 8 (d / l)^2 = 4e-4.
TEST(PulledLength, IsThatOfTheHandbookParabola) {
  const double gap = 50.0;
  const HaulingReport report = hauled(bare_rig(gap));
  const auto sag = [&](double tension) {
    return 0.060 * kGravity / (1.0 + tension / kStiffness) * gap * gap / (8.0 * tension);
  };
  const auto natural = [&](double tension) {
    return (gap + 8.0 * sag(tension) * sag(tension) / (3.0 * gap)) / (1.0 + tension / kStiffness);
  };
  for (const PullStep& step : report.steps) {
    EXPECT_NEAR(step.pulled, natural(report.hand_tight) - natural(step.tension_near), 70e-6) << step.tension_near;
    EXPECT_NEAR(step.sag, sag(step.tension_near), 6e-4 * step.sag) << step.tension_near;
  }
}

// A straight spring that creeps in proportion to its tension by `c` a decade relaxes as T0 exp(-c EA n / T0) after n
// decades (Maxwell's element in the logarithm of time). True to shares of the stretch, 3 % here; sag adds less.
TEST(Settling, IsThatOfARelaxingSpring) {
  Rig rig = bare_rig(20.0);
  rig.main.tension = 3600.0;
  const double creep = 0.002;
  const HaulingReport report = hauled(rig, {.creep = creep});
  ASSERT_EQ(report.settling.size(), 4u);
  for (const Settled& at : report.settling) {
    const double lost = 1.0 - std::exp(-creep * kStiffness * std::log10(at.time / 60.0) / 3600.0);
    EXPECT_NEAR((1.0 - at.tension / 3600.0) / lost, 1.0, 0.04) << at.time;
  }
}

// A straight spring holds T^2 L / 2 EA and is T L / EA longer than unloaded; sag and weight change the tension by less
// than a thousandth.
TEST(StoredEnergy, IsThatOfASpring) {
  Rig rig = bare_rig(20.0);
  rig.main.tension = 3600.0;
  const LettingDown down = hauled(rig).down;
  const double length = 20.0 / (1.0 + 3600.0 / kStiffness);
  EXPECT_NEAR(down.stored / (0.5 * 3600.0 * 3600.0 * length / kStiffness), 1.0, 1e-3);
  EXPECT_NEAR(down.stretch / (3600.0 * length / kStiffness), 1.0, 1e-3);
}

}  // namespace
}  // namespace spanloom
