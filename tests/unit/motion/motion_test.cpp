#include "motion/motion.h"

#include <gtest/gtest.h>

#include <cmath>
#include <numbers>

#include "base/constants.h"
#include "base/input_error.h"
#include "motion/moving_rig.h"
#include "support/r100.h"
#include "support/short_rig.h"

namespace spanloom {
namespace {

const MovingRig& short_line() {
  static const MovingRig rig = *moving_rig(short_rig()).rig;
  return rig;
}

// As the short line, with nothing that takes energy.
MotionLine without_loss() {
  MotionLine line = short_line().line;
  line.loss.assign(line.bars(), 0.0);
  line.drag.assign(line.nodes(), {});
  return line;
}

Push cycle(std::size_t node, double force, double frequency, const Vec3& direction) {
  return {node, direction, [force, frequency](double t) {
            return t * frequency < 1.0 ? force * std::sin(2.0 * std::numbers::pi * frequency * t) : 0.0;
          }};
}

Drive sideways_shake(double force) {
  Drive drive;
  drive.pushes.push_back(cycle(short_line().tape_node[2], force, 2.5, {0.0, 1.0, 0.0}));
  return drive;
}

double farthest_from(const Motion& motion, const std::vector<Vec3>& places) {
  double farthest = 0.0;
  for (std::size_t i = 0; i < motion.nodes(); ++i) farthest = std::max(farthest, norm(motion.place(i) - places[i]));
  return farthest;
}

TEST(Motion, StaysAtRestWhereTheStaticsSayItRests) {
  Motion motion(short_line().line, short_line().rest);
  ASSERT_TRUE(motion.advance(2.0));
  // The rest is proven to 1e-9 of 2500 N; the softest thing there is a loop of 0.1 kg at 1 Hz, 4 N/m.
  EXPECT_LT(farthest_from(motion, short_line().rest), 1e-6);
}

TEST(Motion, KeepsTheEnergyOfAnUndampedShakeForTenSeconds) {
  for (const Scheme scheme : {Scheme::leapfrog, Scheme::fourth_order}) {
    const MotionLine line = without_loss();
    Motion motion(line, short_line().rest, sideways_shake(8.0), {scheme, 0.2 * longest_steady_step(line, scheme)});
    ASSERT_TRUE(motion.advance(10.0));
    const EnergyLedger ledger = motion.ledger();
    EXPECT_GT(ledger.put_in, 0.01);
    EXPECT_LT(std::abs(ledger.drift), 1e-3 * ledger.put_in) << int(scheme);
    EXPECT_EQ(ledger.lost_in_webbing, 0.0);
    EXPECT_EQ(ledger.lost_to_air, 0.0);
  }
}

TEST(Motion, ClosesTheLedgerOfAShakeToAThousandthOverAMinute) {
  const MovingRig coarse = *moving_rig(short_rig(), {0.9, 0.45, 4}).rig;
  const MotionLine& line = coarse.line;
  // A shake whose loops snap: the fast waves that this makes want a step well below the longest.
  Drive drive;
  drive.pushes.push_back(cycle(coarse.tape_node[2], 60.0, 2.5, {0.0, 1.0, 0.0}));
  Motion motion(line, coarse.rest, drive, {Scheme::leapfrog, 0.08 * longest_steady_step(line, Scheme::leapfrog)});
  ASSERT_TRUE(motion.advance(60.0));
  const EnergyLedger ledger = motion.ledger();
  EXPECT_LT(std::abs(ledger.drift), 1e-3 * ledger.put_in);
  EXPECT_GT(ledger.lost_to_air, 0.0);
  EXPECT_GT(ledger.lost_in_webbing, 0.0);
  // It has calmed: all but what little it still swings is lost.
  EXPECT_NEAR(ledger.lost_to_air + ledger.lost_in_webbing, ledger.put_in, 0.05 * ledger.put_in);
}

// Richardson: differences of three halved steps fall by 2^order while nothing snaps.
double order_of(const MotionLine& line, Scheme scheme, double step, double force) {
  const auto at = [&](double h) {
    Motion motion(line, short_line().rest, sideways_shake(force), {scheme, h});
    EXPECT_TRUE(motion.advance(0.32));
    return motion.place(short_line().tape_node[4]).y;
  };
  const double coarse = at(step), middle = at(0.5 * step), fine = at(0.25 * step);
  return std::log2(std::abs(coarse - middle) / std::abs(middle - fine));
}

TEST(Motion, IsOfSecondOrderInTimeWithLossAndAir) {
  EXPECT_NEAR(order_of(short_line().line, Scheme::leapfrog, 4e-5, 10.0), 2.0, 0.05);
}

TEST(Motion, ClosesTheLedgerOfLossToSecondOrder) {
  MotionLine line = short_line().line;
  line.loss.assign(line.bars(), 0.1);
  const auto drift = [&](double step) {
    Motion motion(line, short_line().rest, sideways_shake(5.0), {Scheme::leapfrog, step});
    EXPECT_TRUE(motion.advance(0.3));
    EXPECT_GT(motion.ledger().lost_in_webbing, 0.0);
    return motion.ledger().drift;
  };
  EXPECT_NEAR(drift(4e-5) / drift(2e-5), 4.0, 0.3);
}

TEST(Motion, IsOfFourthOrderInTimeWithoutLoss) {
  EXPECT_NEAR(order_of(without_loss(), Scheme::fourth_order, 4.8e-4, 3.0), 4.0, 0.1);
}

TEST(Motion, RunsBackToItsStartWithoutLoss) {
  const MotionLine line = without_loss();
  std::vector<Vec3> pulled = short_line().rest;
  Motion there(line, pulled, {}, {Scheme::leapfrog, 4e-5});
  there.set_velocity(short_line().tape_node[3], {0.0, 0.5, 0.0});
  ASSERT_TRUE(there.advance(0.1));
  std::vector<Vec3> places;
  for (std::size_t i = 0; i < there.nodes(); ++i) places.push_back(there.place(i));
  Motion back(line, places, {}, {Scheme::leapfrog, 4e-5});
  for (std::size_t i = 0; i < line.nodes(); ++i) {
    if (!line.held[i]) back.set_velocity(i, -1.0 * there.velocity(i));
  }
  ASSERT_TRUE(back.advance(0.1));
  EXPECT_LT(farthest_from(back, pulled), 1e-9);
}

TEST(Motion, SeesNoSide) {
  Drive left = sideways_shake(60.0), right = sideways_shake(-60.0);
  Motion a(short_line().line, short_line().rest, left), b(short_line().line, short_line().rest, right);
  ASSERT_TRUE(a.advance(0.5) && b.advance(0.5));
  for (std::size_t i = 0; i < a.nodes(); ++i) {
    EXPECT_EQ(a.place(i).x, b.place(i).x);
    EXPECT_EQ(a.place(i).y, -b.place(i).y);
    EXPECT_EQ(a.place(i).z, b.place(i).z);
  }
}

TEST(Motion, KeepsTapedNodesTogether) {
  Motion motion(short_line().line, short_line().rest, sideways_shake(80.0));
  ASSERT_TRUE(motion.advance(1.0));
  for (const Tie& tie : short_line().line.ties) EXPECT_EQ(motion.place(tie.main), motion.place(tie.backup));
}

TEST(Motion, PullsNoBarApartBelowNothing) {
  Motion motion(short_line().line, short_line().rest, sideways_shake(80.0));
  for (int look = 0; look < 50; ++look) {
    ASSERT_TRUE(motion.advance(0.02));
    for (std::size_t bar = 0; bar < short_line().line.bars(); ++bar) EXPECT_GE(motion.tension(bar), 0.0);
  }
}

TEST(Motion, TakesInTheWorkOfAMovedAnchor) {
  MotionLine line = without_loss();
  Drive drive;
  const double rise = 0.05, time = 0.5;
  const auto ramp = [=](double t) { return t < time ? rise * (t / time - std::sin(2.0 * std::numbers::pi * t / time) / (2.0 * std::numbers::pi)) : rise; };
  const auto rate = [=](double t) { return t < time ? rise / time * (1.0 - std::cos(2.0 * std::numbers::pi * t / time)) : 0.0; };
  drive.moved.push_back({line.main_nodes - 1, [=](double t) { return Vec3{ramp(t), 0.0, 0.0}; }, [=](double t) { return Vec3{rate(t), 0.0, 0.0}; }});
  Motion motion(line, short_line().rest, drive, {Scheme::leapfrog, 2e-5});
  ASSERT_TRUE(motion.advance(1.0));
  const EnergyLedger ledger = motion.ledger();
  // Pulled from 2.5 kN on by EA / L: work is about the mean tension times the way.
  EXPECT_NEAR(ledger.put_in, rise * (2500.0 + 0.5 * 120e3 * rise / 15.67), 0.02 * ledger.put_in);
  EXPECT_LT(std::abs(ledger.drift), 1e-3 * ledger.put_in);
  EXPECT_NEAR(motion.place(line.main_nodes - 1).x, 16.05, 1e-12);
}

TEST(Motion, CarriesAWalkerAsAMassAtTheFoot) {
  MotionLine line = short_line().line;
  const std::size_t node = short_line().tape_node[4];
  line.mass[node] += 80.0;
  Motion motion(line, short_line().rest);
  double lowest = 0.0;
  for (int look = 0; look < 200; ++look) {
    ASSERT_TRUE(motion.advance(0.01));
    lowest = std::min(lowest, motion.place(node).z - short_line().rest[node].z);
  }
  // Set on suddenly, a weight goes about twice as far down as where it would hang still, less on a line that stiffens.
  Line walked = short_line().mesh.line;
  add_main_load(walked, {4, 0}, {0.0, 0.0, -80.0 * kGravity});
  EquilibriumSolver solver(walked);
  const double still = solver.solve_from(short_line().standing).tapes[4].z - short_line().rest[node].z;
  EXPECT_LT(lowest, 1.3 * still);
  EXPECT_GT(lowest, 2.0 * still);
}

TEST(Motion, IsBlownToWhereTheStaticsSayInASteadyWind) {
  const MotionLine line = motion_line(short_line().mesh, short_line().rig, short_line().standing, Facing::broadside);
  Drive drive;
  drive.air = [](double) { return Vec3{0.0, 8.0, 0.0}; };
  Motion motion(line, short_line().rest, drive);
  ASSERT_TRUE(motion.advance(30.0));
  // A strip of 25 mm in 8 m/s: 1.98 * 1.225 / 2 * 0.025 * 64 = 1.94 N/m on main and on backup, T 2.5 kN: w L^2 / 8 T.
  const double load = 2.0 * 0.5 * kAirDensity * kStripDragCoefficient * 0.025 * 64.0;
  EXPECT_NEAR(motion.place(short_line().tape_node[4]).y, load * 256.0 / (8.0 * 2500.0), 0.15 * load * 256.0 / (8.0 * 2500.0));
}

TEST(Motion, ShowsInItsLedgerThatTheStepIsTooLong) {
  const MotionLine line = without_loss();
  Motion motion(line, short_line().rest, sideways_shake(60.0), {Scheme::leapfrog, 4.0 * longest_steady_step(line, Scheme::leapfrog)});
  const bool finite = motion.advance(1.0);
  EXPECT_TRUE(!finite || std::abs(motion.ledger().drift) > 0.05 * motion.ledger().put_in);
}

TEST(Motion, StaysBoundedJustBelowTheLongestStep) {
  for (const Scheme scheme : {Scheme::leapfrog, Scheme::fourth_order}) {
    const MotionLine line = without_loss();
    Motion motion(line, short_line().rest, {}, {scheme, 0.95 * longest_steady_step(line, scheme)});
    ASSERT_TRUE(motion.advance(1.0));
    EXPECT_LT(farthest_from(motion, short_line().rest), 1e-5);
  }
}

TEST(Motion, RefusesAFreeNodeWithoutMass) {
  MotionLine line = without_loss();
  line.mass[5] = 0.0;
  EXPECT_THROW(Motion(line, short_line().rest), InputError);
}

TEST(MotionLine, WeighsWhatTheStandingLineWeighs) {
  const Line line = r100::standing();
  const MotionLine moving = motion_line(line);
  double mass = 0.0;
  for (std::size_t i = 0; i < moving.nodes(); ++i) mass += moving.mass[i];
  const double whole = r100::kMainMass * r100::kMainNaturalLength + r100::kLoopMass * r100::kLoopNaturalLength * double(r100::kBays);
  // Half a bar of each at the near anchor is held and carries none.
  const double held = 0.5 * (r100::kMainMass * r100::kMainNaturalLength / double(r100::kBays * r100::kMainBars) +
                             r100::kLoopMass * r100::kLoopNaturalLength / double(r100::kLoopBars));
  EXPECT_NEAR(mass, whole - held, 1e-9 * whole);
  EXPECT_EQ(moving.ties.size(), r100::kBays - 1);
  EXPECT_EQ(moving.nodes(), 401u + 321u);
}

TEST(MotionLine, RefusesLoopsInSomeBaysOnly) {
  LineBuilder builder({StretchCurve::linear(1e5)}, {{}, {2.0, 0.0, 0.0}, {}, {2.0, 0.0, 0.0}});
  const std::vector<BarSpec> bars(4, {0.25, 0, 0.06});
  builder.add_bay(bars, bars);
  builder.add_bay(bars, {});
  const Line line = std::move(builder).build();
  EXPECT_THROW(motion_line(line), InputError);
}

}  // namespace
}  // namespace spanloom
