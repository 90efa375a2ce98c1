// The instant before: body, leash, ring and line in balance, so that nothing moves until something happens.
#include "events/fall_start.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <string>

#include "base/input_error.h"
#include "support/fall_cases.h"
#include "support/held_strand.h"
#include "support/motion_checks.h"

namespace spanloom {
namespace {

struct Moved { double line = 0.0, hip = 0.0; };  // farthest from the start [m]

// Half a second of somebody who keeps their balance, on a main that does not fail.
Moved left_alone(const MovingRig& rig, Posture posture, std::size_t walker) {
  FallCase what;
  what.walker = walker;
  what.posture = posture;
  FallStartOutcome begun = start_of_fall(rig, what);
  EXPECT_TRUE(begun.start) << begun.why;
  FallStart& start = *begun.start;
  start.faller.loses_balance = 1e9;
  Faller faller = faller_of(start, rig.rig);
  Motion motion(start.line, start.places, beside(faller), {.step = start.step});
  Moved moved;
  while (motion.time() < 0.5) {
    run(motion, 5e-3);
    for (std::size_t i = 0; i < motion.nodes(); ++i) moved.line = std::max(moved.line, norm(motion.place(i) - start.places[i]));
    moved.hip = std::max(moved.hip, norm(faller.hip() - start.faller.hip));
  }
  EXPECT_EQ(faller.stands(), posture != Posture::hanging);
  expect_closed(motion, 100.0, 1e-4);
  return moved;
}

constexpr Posture kPostures[] = {Posture::standing, Posture::sitting, Posture::hanging};

// A line that is not at rest moves by centimetres and more in that time: a walker whose weight it does not carry drops 1 m.
TEST(LineLeftAlone, StaysAtRestUnderAWalkerInTheMiddle) {
  const MovingRig rig = moving(short_rig(), kToldMesh);
  for (const Posture posture : kPostures) {
    const Moved moved = left_alone(rig, posture, middle_of(rig));
    EXPECT_LT(moved.line, 1e-7) << name_of(posture);
    EXPECT_LT(moved.hip, 1e-7) << name_of(posture);
  }
}

TEST(LineLeftAlone, StaysAtRestUnderABodyOfTwoMasses) {
  Rig two = short_rig();
  two.walker.body = Stated<BodyModel>::given(BodyModel::two_masses);
  const MovingRig rig = moving(two, kToldMesh);
  for (const Posture posture : kPostures) EXPECT_LT(left_alone(rig, posture, middle_of(rig)).hip, 1e-7) << name_of(posture);
}

TEST(LineLeftAlone, StaysNearlyAtRestUnderAWalkerAside) {
  // The ring hangs straight down from a main that slopes: it settles in its friction's spring, and all of it by millimetres.
  const MovingRig rig = moving(short_rig(), kToldMesh);
  const std::size_t aside = rig.node_near(4.0);
  EXPECT_LT(left_alone(rig, Posture::standing, aside).line, 2e-4);
  EXPECT_LT(left_alone(rig, Posture::sitting, aside).line, 2e-4);
  EXPECT_LT(left_alone(rig, Posture::hanging, aside).line, 3e-3);
  EXPECT_LT(left_alone(rig, Posture::hanging, aside).hip, 1e-3);
}

TEST(LineLeftAlone, StaysNearlyAtRestUnderAWalkerAtATape) {
  for (const MotionMesh& mesh : {kSearchMesh, kToldMesh}) {
    const MovingRig rig = moving(short_rig(), mesh);
    EXPECT_LT(left_alone(rig, Posture::standing, rig.tape_node[4]).line, 1e-5);
    EXPECT_LT(left_alone(rig, Posture::hanging, rig.tape_node[4]).line, 2e-4);
  }
}

// ---- What it begins with

TEST(StartOfAFall, HasTheBodyWhereThePosturePutsIt) {
  const MovingRig rig = moving(short_rig());
  FallCase what = failure(middle_of(rig), 0);
  const FallStart standing = *start_of_fall(rig, what).start;
  const Vec3 foot = standing.places[what.walker];
  EXPECT_NEAR(standing.faller.hip.z - foot.z, 0.95, 1e-12);
  EXPECT_EQ(standing.faller.foot, what.walker);
  what.posture = Posture::sitting;
  const FallStart sitting = *start_of_fall(rig, what).start;
  EXPECT_NEAR(sitting.faller.hip.z - sitting.places[what.walker].z, kSittingHip, 1e-12);
  what.posture = Posture::hanging;
  const FallStart hanging = *start_of_fall(rig, what).start;
  EXPECT_FALSE(hanging.faller.foot);
  const double leash = 1.4 * (1.0 + 80.0 * kGravity / 30e3);  // generic leash, EA 30 kN
  EXPECT_NEAR(hanging.faller.ring.z - hanging.faller.hip.z, leash, 1e-9);
}

TEST(StartOfALeashFall, HasTheWalkerOffTheLineAndMoving) {
  const MovingRig rig = moving(short_rig());
  const FallStart sideways = *start_of_fall(rig, leash_fall(9)).start;
  EXPECT_FALSE(sideways.faller.foot);
  EXPECT_EQ(sideways.faller.velocity.x, 0.0);
  EXPECT_GT(sideways.faller.velocity.y, 0.0);
  EXPECT_EQ(sideways.faller.velocity.z, 0.0);
  EXPECT_LT(start_of_fall(rig, leash_fall(9, StepOff::backwards)).start->faller.velocity.x, 0.0);
}

TEST(StartOfAFall, LetsTheRingRunToTheCutAndNoFarther) {
  const MovingRig rig = moving(short_rig());
  const std::size_t walker = 10, last = rig.line.main_nodes - 1;
  const FallStart farther = *start_of_fall(rig, failure(walker, 15)).start;
  EXPECT_EQ(farther.main.first, 0u);
  EXPECT_EQ(farther.main.last, 15u);
  EXPECT_TRUE(farther.main.open_last);
  EXPECT_FALSE(farther.main.open_first);
  const FallStart nearer = *start_of_fall(rig, failure(walker, 4)).start;
  EXPECT_EQ(nearer.main.first, 5u);
  EXPECT_EQ(nearer.main.last, last);
  EXPECT_TRUE(nearer.main.open_first);
  EXPECT_FALSE(nearer.main.open_last);
  FallCase caught = leash_fall(walker);
  caught.ring = RingRun::caught_between_tapes;
  const FallStart held = *start_of_fall(rig, caught).start;
  const std::size_t bay = bay_of(rig, walker);
  EXPECT_EQ(held.main.first, rig.tape_node[bay]);
  EXPECT_EQ(held.main.last, rig.tape_node[bay + 1]);
  EXPECT_FALSE(held.main.open_first || held.main.open_last);
}

TEST(StartOfAFall, UntiesTapesThatHoldNothingAndKeepsTheirMass) {
  const MovingRig rig = moving(short_rig());
  const FallStart holds = *start_of_fall(rig, failure(10, 0)).start;
  const FallStart torn = *start_of_fall(rig, failure(10, 0, 0.0)).start;
  EXPECT_EQ(holds.line.ties.size(), rig.line.ties.size());
  EXPECT_TRUE(torn.line.ties.empty());
  double with = 0.0, without = 0.0;
  for (std::size_t i = 0; i < rig.line.nodes(); ++i) with += holds.line.mass[i], without += torn.line.mass[i];
  EXPECT_NEAR(with, without, 1e-12);
  EXPECT_LE(holds.step, steady_step(torn.line, Scheme::leapfrog));  // it must do for a line that tears, too
}

TEST(StartOfAFall, PutsTheRingAroundTheBackupOnlyWhereItIsAroundBoth) {
  Rig rig = short_rig();
  EXPECT_TRUE(start_of_fall(moving(rig), failure(10, 0)).start->backup);
  rig.walker.leash_ring = Stated<LeashRing>::given(LeashRing::around_main);
  EXPECT_FALSE(start_of_fall(moving(rig), failure(10, 0)).start->backup);
}

// ---- What cannot be

void expect_refused(const MovingRig& rig, const FallCase& what, const std::string& key) {
  try {
    (void)start_of_fall(rig, what);
    ADD_FAILURE() << "not refused: " << key;
  } catch (const InputError& error) {
    EXPECT_NE(std::string(error.what()).find(key), std::string::npos) << error.what();
  }
}

TEST(StartOfAFall, RefusesALeashThatNobodyCanStandOn) {
  Rig rig = short_rig();
  rig.walker.leash.value = 0.90;  // foot to hip 0.95 m
  expect_refused(moving(rig), failure(10, 0), "walker.leash");
  rig.walker.leash.value = 0.95;
  expect_refused(moving(rig), failure(10, 0), "walker.leash");
  rig.walker.leash.value = 1.05;
  EXPECT_TRUE(start_of_fall(moving(rig), failure(10, 0)).start);
}

TEST(StartOfAFall, RefusesWalkersAndCutsThatAreNotOnTheMain) {
  const MovingRig rig = moving(short_rig());
  const std::size_t last = rig.line.main_nodes - 1;
  expect_refused(rig, failure(0, 3), "walker");
  expect_refused(rig, failure(last, 3), "walker");
  expect_refused(rig, failure(10, last), "cut");
  EXPECT_TRUE(start_of_fall(rig, failure(1, last - 1)).start);
}

}  // namespace
}  // namespace spanloom
