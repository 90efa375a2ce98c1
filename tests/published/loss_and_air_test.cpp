// What takes energy out of a line in motion, against handbook values and the share that a webbing states.
// "Own" marks closed forms worked out for the purpose.
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <numbers>
#include <utility>
#include <vector>

#include "base/constants.h"
#include "motion/motion.h"
#include "support/at_rest.h"

namespace spanloom {
namespace {

constexpr double kPi = std::numbers::pi;

// ---- Air

// 4 m of a strip 25 mm wide, 0.060 kg/m, level and untaut, all of it free. Air 1.225 kg/m3 (ISO 2533:1975); drag
// coefficient of a long flat plate square to the wind 1.98 (Aeronautical Engineer's Data Book, fig. 5.13(b)).
constexpr double kStripMass = 0.060, kStripWidth = 0.025;  // [kg/m], [m]

AtRest free_strip() {
  const std::size_t bars = 8;
  const double bar = 0.5;
  AtRest strip = beaded_string(1e3, bar, std::vector<double>(bars - 1, kStripMass * bar));
  strip.line.length.assign(bars, bar);
  strip.line.mass.front() = strip.line.mass.back() = 0.5 * kStripMass * bar;
  strip.line.held.assign(bars + 1, 0);
  for (std::size_t i = 0; i <= bars; ++i) {
    const double area = 1.98 * kStripWidth * (strip.line.mass[i] / kStripMass);
    strip.line.drag[i] = {area, area};
  }
  return strip;
}

constexpr double kTerminal = 4.40534897;  // sqrt(2 m g / (rho Cd w)), own [m/s]

// Speed of fall of every part of the strip, greatest and least [m/s].
std::pair<double, double> falling(double duration, double step) {
  const AtRest strip = free_strip();
  Motion motion(strip.line, strip.places, {}, {.step = step});
  EXPECT_TRUE(motion.advance(duration));
  const EnergyLedger ledger = motion.ledger();
  EXPECT_LT(std::abs(ledger.drift), 1e-11 * -ledger.height);
  EXPECT_GT(ledger.lost_to_air, 0.0);
  const auto speeds = motion.velocities(2);
  const auto [fastest, slowest] = std::minmax_element(speeds.begin(), speeds.end());
  return {-*fastest, -*slowest};
}

TEST(StripFallingFlat, ComesToItsTerminalSpeed) {
  // Own from the handbook's coefficient: 4.40534897 m/s. Six seconds are enough to 5e-12. The step's error is of second
  // order in blocks of eight steps and 5e-8 m/s here.
  const auto [fastest, slowest] = falling(6.0, 1e-5);
  EXPECT_NEAR(fastest, kTerminal, 2e-7);
  EXPECT_NEAR(slowest, kTerminal, 2e-7);
  EXPECT_NEAR((falling(6.0, 2e-4).first - kTerminal) / (falling(6.0, 1e-4).first - kTerminal), 4.0, 0.02);
}

TEST(StripFallingFlat, GathersSpeedAsTextbooksSay) {
  // v = vt tanh(g t / vt), any textbook on quadratic drag.
  for (const double time : {0.1, 0.3, 1.0}) {
    EXPECT_NEAR(falling(time, 1e-5).first, kTerminal * std::tanh(kGravity * time / kTerminal), 2e-7) << time;
  }
}

TEST(StripInWind, IsPushedAsTheHandbookSays) {
  // 1/2 rho v^2 Cd w = 3.031875 N/m at 10 m/s. The strip gives way: speed through the air falls as 1 / (1 + k v t)
  // (own), from which the force at the start follows. In 0.01 s it falls by 0.1 m/s too, which adds up to 1e-4 to
  // its speed through the air squared, 5e-5 N/m in all; twice that is allowed.
  const AtRest strip = free_strip();
  for (const Vec3& wind : {Vec3{0.0, 10.0, 0.0}, Vec3{0.0, -10.0, 0.0}}) {
    Drive drive;
    drive.air = [=](double) { return wind; };
    Motion motion(strip.line, strip.places, drive, {.step = 1e-5});
    const double time = 0.01;
    ASSERT_TRUE(motion.advance(time));
    for (std::size_t i = 0; i < motion.nodes(); ++i) {
      const double still = 10.0 - std::copysign(1.0, wind.y) * motion.velocity(i).y;
      EXPECT_NEAR(kStripMass * 10.0 * (10.0 / still - 1.0) / time, 3.031875, 1e-4) << i;
    }
    EXPECT_LT(motion.ledger().lost_to_air, 0.0);  // wind drives it
    EXPECT_LT(std::abs(motion.ledger().drift), 1e-11 * motion.ledger().kinetic);
  }
}

TEST(StripInWind, IsNotDraggedAlongItsLength) {
  // Drag of this engine is across the line only; skin friction along it is left out.
  const AtRest strip = free_strip();
  Drive drive;
  drive.air = [](double) { return Vec3{10.0, 0.0, 0.0}; };
  Motion motion(strip.line, strip.places, drive, {.step = 1e-3});
  ASSERT_TRUE(motion.advance(0.1));
  for (const double speed : motion.velocities(0)) EXPECT_EQ(speed, 0.0);
}

// ---- Loss in the webbing

// One bar of EA 100 kN and 1 m, one end moved by a (1 - cos w t) from where the bar is shortest.
constexpr double kAmplitude = 0.01;  // [m]

struct Cycles {
  double shortest = 0.0;   // length over natural length at the shortest [-]
  double frequency = 0.0;  // [Hz]
  int before = 0;          // cycles before the one that is looked at
};

struct Cycle {
  double lost = 0.0;       // [J]
  double loading = 0.0;    // what goes in from the shortest to the longest [J]
  double swing = 0.0;      // tension at the longest less that at the shortest [N]
  double drift = 0.0;      // of the ledger, all cycles [J]
};

Cycle cycle_of(double loss, const Cycles& of, double steps_a_cycle = 1000.0) {
  AtRest bar = beaded_string(100e3, of.shortest, {});
  bar.line.length = {1.0};
  bar.line.loss = {loss};
  const double w = 2.0 * kPi * of.frequency;
  Drive drive;
  drive.moved.push_back({1, [=](double t) { return Vec3{kAmplitude * (1.0 - std::cos(w * t)), 0.0, 0.0}; },
                         [=](double t) { return Vec3{kAmplitude * w * std::sin(w * t), 0.0, 0.0}; }});
  Motion motion(bar.line, bar.places, std::move(drive), {.step = 1.0 / (of.frequency * steps_a_cycle)});
  const auto half = [&] { EXPECT_TRUE(motion.advance(0.5 / of.frequency)); };
  for (int i = 0; i < 2 * of.before; ++i) half();
  const EnergyLedger start = motion.ledger();
  const double low = motion.tension(0);
  half();
  const EnergyLedger top = motion.ledger();
  const double high = motion.tension(0);
  half();
  const EnergyLedger end = motion.ledger();
  return {end.lost_in_webbing - start.lost_in_webbing,
          top.stretch + top.lost_in_webbing - start.stretch - start.lost_in_webbing, high - low, end.drift};
}

// Cycles until the slowest branch, of time constant 0.32 s, has forgotten the start to 1e-7.
int long_enough(double frequency) { return int(std::ceil(5.0 * frequency)) + 2; }

// Share of the energy that swings into the bar, (Tmax - Tmin) a, in a steady cycle far from slack.
double steady_share(double loss, double frequency, double steps_a_cycle = 1000.0) {
  const Cycle cycle = cycle_of(loss, {1.19, frequency, long_enough(frequency)}, steps_a_cycle);
  return cycle.lost / (cycle.swing * kAmplitude);
}

TEST(LossOfWebbing, IsTheStatedShareOfASteadyCycleAtFiveHertz) {
  // The definition of the loss tangent (any text on viscoelasticity, e.g. Ferry 1980, ch. 1, from memory): a harmonic
  // cycle loses pi E'' a^2 and 2 E' a^2 goes in on the way up. Second order in the step.
  for (const double loss : {0.02, 0.1, 0.3}) {
    EXPECT_NEAR(steady_share(loss, 5.0) / loss, 1.0, 1e-4) << loss;
  }
  EXPECT_NEAR((steady_share(0.1, 5.0, 250.0) - 0.1) / (steady_share(0.1, 5.0, 500.0) - 0.1), 4.0, 0.2);
}

TEST(LossOfWebbing, KeepsWithinTwoTenthsFromHalfAHertzToFifty) {
  // What three branches do, for losses up to 10 %: found 0.80 to 1.01 of what is stated, least at 50 Hz.
  for (const double loss : {0.02, 0.05, 0.1}) {
    for (const double frequency : {0.5, 1.0, 2.0, 5.0, 10.0, 20.0, 50.0}) {
      const double share = steady_share(loss, frequency) / loss;
      EXPECT_GT(share, 0.79) << loss << " at " << frequency << " Hz";
      EXPECT_LT(share, 1.02) << loss << " at " << frequency << " Hz";
    }
  }
}

TEST(LossOfWebbing, OfCyclesFromSlackToAPeakIsWithinAnEighthOfTheStatedShare) {
  // The same, over the energy of loading from nothing to the peak, steady. Below nothing the webbing cannot push, which
  // bends the cycle: found 1.01 to 1.06 at 5 Hz, 0.88 to 1.06 from 0.5 to 50 Hz.
  for (const double loss : {0.02, 0.05, 0.1}) {
    for (const double frequency : {0.5, 1.0, 2.0, 5.0, 10.0, 20.0, 50.0}) {
      const Cycle cycle = cycle_of(loss, {1.0, frequency, long_enough(frequency)});
      const double allowed = frequency == 5.0 ? 0.06 : 0.125;
      EXPECT_NEAR(cycle.lost / cycle.loading / loss, 1.0, allowed) << loss << " at " << frequency << " Hz";
    }
  }
}

TEST(LossOfWebbing, OfTheFirstCycleFromRestIsUpToAThirdMore) {
  // The slow branch also settles under the mean of the cycle. Found 1.32, 1.29 and 1.20 of what is stated.
  for (const double loss : {0.02, 0.1, 0.3}) {
    const Cycle first = cycle_of(loss, {1.0, 5.0, 0});
    EXPECT_GT(first.lost / first.loading / loss, 1.19) << loss;
    EXPECT_LT(first.lost / first.loading / loss, 1.33) << loss;
  }
}

TEST(LossOfWebbing, ClosesTheLedgerAsTheStepShortens) {
  // Four cycles, of second order. At a thousand steps a cycle within 1e-4 of what is lost.
  const Cycles four{1.0, 5.0, 3};
  const Cycle coarse = cycle_of(0.1, four), fine = cycle_of(0.1, four, 2000.0);
  EXPECT_LT(std::abs(coarse.drift), 1e-4 * 4.0 * coarse.lost);
  EXPECT_NEAR(coarse.drift / fine.drift, 4.0, 0.1);
}

}  // namespace
}  // namespace spanloom
