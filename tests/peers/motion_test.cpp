// Our motion against two programs that share nothing with it: SUNDIALS 6.4.1 (ARKODE, explicit Runge-Kutta with
// error control) on the same masses and bars set up a second time, and CalculiX 2.20. What each case is good
// for stands in motion_cases.h.
#include <gtest/gtest.h>

#include <cmath>

#include "peers/motion_cases.h"
#include "peers/r100_model.h"

namespace spanloom {
namespace {
using peers::greatest_difference;
using peers::History;
using peers::MotionCase;
using peers::tolerance;

// A case with SUNDIALS's answer to it, both made once for all tests.
struct Known {
  MotionCase motion;
  peers::SundialsRun run;
  History history = watched(run);

  double error(Scheme scheme, double step) const {
    Motion ours = our_motion(motion, {scheme, step});
    return greatest_difference(watched(ours, motion), history);
  }
};

const Known& walker() {
  static const MotionCase motion = peers::walker_steps_off();
  static const Known known{motion, by_sundials(motion, tolerance(4, 1e-7))};
  return known;
}

const Known& bare() {
  static const MotionCase motion = peers::walker_steps_off_bare_main();
  static const Known known{motion, by_sundials(motion, tolerance(5, 1e-7))};
  return known;
}

const Known& shake() {
  static const MotionCase motion = peers::gentle_shake();
  static const Known known{motion, by_sundials(motion, tolerance(4, 1e-6))};
  return known;
}

double energy_drift(const peers::SundialsRun& run) {
  double greatest = 0.0;
  for (const peers::PeerEnergy& energy : run.energy) {
    greatest = std::max(greatest, std::abs(energy.sum() - run.energy.front().sum()));
  }
  return greatest;
}

// Ten times looser moves them by 9e-8, less than 1e-8 and 2e-9 m; ten times tighter the first by 1e-8 m.
TEST(Sundials, IsConvergedToATenthOfAMicrometre) {
  const auto moved_by_looser = [](const Known& known, int order, double relative) {
    return greatest_difference(known.history, watched(by_sundials(known.motion, tolerance(order, relative))));
  };
  EXPECT_LT(moved_by_looser(walker(), 4, 1e-6), 1.5e-7);
  EXPECT_LT(moved_by_looser(bare(), 5, 1e-6), 1e-8);
  EXPECT_LT(moved_by_looser(shake(), 4, 1e-5), 1e-8);
}

// The start holds 9.4 kJ.
TEST(Sundials, KeepsTheEnergyOfALineLetGo) {
  EXPECT_LT(energy_drift(walker().run), 1e-5);
  EXPECT_LT(energy_drift(bare().run), 5e-5);
}

TEST(R100ReleasedWalker, MatchesSundialsToTenMicrometresByLeapfrog) {
  EXPECT_LT(walker().error(Scheme::leapfrog, 1.25e-5), 1e-5);
}

TEST(R100ReleasedWalker, MatchesSundialsToTenMicrometresByFourthOrder) {
  EXPECT_LT(walker().error(Scheme::fourth_order, 5e-5), 1e-5);
}

TEST(R100ReleasedWalker, MatchesSundialsToATenthOfAMicrometreByShortSteps) {
  EXPECT_LT(walker().error(Scheme::fourth_order, 6.25e-6), 1e-7);
}

TEST(R100ReleasedWalker, HasItsEnergyWhereSundialsHasIt) {
  Motion ours = our_motion(walker().motion, {Scheme::fourth_order, 1.25e-5});
  ASSERT_TRUE(ours.advance(walker().motion.times.back()));
  const EnergyLedger ledger = ours.ledger();
  const peers::PeerEnergy peer = walker().run.energy.back();
  EXPECT_NEAR(ledger.kinetic, peer.kinetic, 1e-3);
  EXPECT_NEAR(ledger.stretch, peer.stretch, 1e-3);
  EXPECT_NEAR(ledger.height, peer.height, 1e-3);
}

// Why twenty milliseconds and no more: a start moved by a picometre.
TEST(R100ReleasedWalker, IsChaoticOnceLoopsSnap) {
  MotionCase motion = peers::walker_steps_off(0.1, 10);
  const auto run = [&] {
    Motion ours = our_motion(motion, {Scheme::leapfrog, 1.25e-5});
    return watched(ours, motion);
  };
  const History as_it_is = run();
  motion.start.loop[r100::kBays / 2][4].z += 1e-12;
  const History nudged = run();
  EXPECT_LT(norm(as_it_is.front() - nudged.front()), 1e-8);  // after 10 ms
  EXPECT_GT(norm(as_it_is.back() - nudged.back()), 1e-5);
}

// No two solutions, SUNDIALS's own at two tolerances included, stay closer than one or two centimetres; the mid
// point travels nearly 7 m. Twice that is allowed, sampled every 10 ms.
TEST(R100ReleasedWalker, StaysOnSundialsCourseForHalfASecond) {
  const MotionCase motion = peers::walker_steps_off(0.5, 50);
  const History peer = watched(by_sundials(motion, tolerance(5, 1e-3)));
  Motion ours = our_motion(motion, {Scheme::leapfrog, 2.5e-5});
  EXPECT_LT(greatest_difference(watched(ours, motion), peer), 0.05);
}

TEST(BareMainReleasedWalker, MatchesSundialsForHalfASecond) {
  EXPECT_LT(bare().error(Scheme::leapfrog, 1.25e-5), 4e-5);
  EXPECT_LT(bare().error(Scheme::fourth_order, 1e-4), 5e-8);
}

TEST(BareMainReleasedWalker, ConvergesAtTheOrderOfEachScheme) {
  EXPECT_NEAR(bare().error(Scheme::leapfrog, 5e-5) / bare().error(Scheme::leapfrog, 2.5e-5), 4.0, 0.2);
  EXPECT_NEAR(bare().error(Scheme::fourth_order, 2e-4) / bare().error(Scheme::fourth_order, 1e-4), 16.0, 0.8);
}

TEST(R100GentleShake, MatchesSundialsForHalfASecond) {
  EXPECT_LT(shake().error(Scheme::leapfrog, 1e-4), 2.5e-7);
  EXPECT_LT(shake().error(Scheme::fourth_order, 2e-4), 3e-9);
}

TEST(R100GentleShake, ConvergesAtSecondOrderByLeapfrog) {
  EXPECT_NEAR(shake().error(Scheme::leapfrog, 1e-4) / shake().error(Scheme::leapfrog, 5e-5), 4.0, 0.2);
}

// CalculiX prints the sag with seven digits, 5e-7 m. Its own step decides: over these 8 ms it is 2.8e-5 m off at
// 1e-4 s, 6.8e-6 at 5e-5 and 1.2e-6 at 2e-5.
TEST(R100ReleasedWalker, AgreesWithCalculixToTenMicrometresForEightMilliseconds) {
  const MotionCase motion = peers::walker_steps_off(0.008, 4);
  Motion ours = our_motion(motion, {Scheme::fourth_order, 1.25e-5});
  const History history = watched(ours, motion);
  peers::PeerRun peer;
  ASSERT_NO_THROW(peer = peers::run_calculix(peers::r100_release(0.008, 5e-5)));
  for (std::size_t i = 0; i < history.size(); ++i) {
    EXPECT_NEAR(norm(history[i] - peer.place_at(motion.times[i])), 0.0, 1e-5) << motion.times[i] << " s";
  }
}

}  // namespace
}  // namespace spanloom
