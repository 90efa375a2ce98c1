// Tapes that part: what belongs to the backup goes with it, and nothing is won or lost by parting.
#include <gtest/gtest.h>

#include <cmath>
#include <string>

#include "base/constants.h"
#include "base/input_error.h"
#include "motion/motion.h"
#include "motion/moving_rig.h"
#include "support/motion_checks.h"
#include "support/short_rig.h"

namespace spanloom {
namespace {

MovingRig standing() {
  const MovingOutcome made = moving_rig(short_rig(), {0.6, 0.45, 4});
  EXPECT_TRUE(made.rig) << made.why;
  return *made.rig;
}

struct Sums { double mass = 0.0, sideways = 0.0, upright = 0.0; };
Sums sums_of(const MotionLine& line) {
  Sums sums;
  for (std::size_t i = 0; i < line.nodes(); ++i) {
    sums.mass += line.mass[i], sums.sideways += line.drag[i].sideways, sums.upright += line.drag[i].upright;
  }
  return sums;
}

TEST(Untie, KeepsMassAndDrag) {
  MotionLine line = standing().line;
  const Sums tied = sums_of(line);
  const std::size_t ties = line.ties.size();
  const Tie third = line.ties[2], fourth = line.ties[3];
  const double together = line.mass[third.main];
  untie(line, 2);
  EXPECT_EQ(line.ties.size(), ties - 1);
  EXPECT_EQ(line.ties[2].main, fourth.main);
  EXPECT_EQ(line.mass[third.backup], third.backup_mass);
  EXPECT_NEAR(line.mass[third.main] + line.mass[third.backup], together, 1e-15);
  EXPECT_NEAR(sums_of(line).mass, tied.mass, 1e-13);
  EXPECT_NEAR(sums_of(line).sideways, tied.sideways, 1e-15);
  EXPECT_NEAR(sums_of(line).upright, tied.upright, 1e-15);
}

TEST(Untie, GivesTheBackupHalfOfTheBarsBesideIt) {
  const MovingRig rig = standing();
  for (const Tie& tie : rig.line.ties) {
    const double bars = rig.line.length[tie.backup - 1] + rig.line.length[tie.backup];
    EXPECT_NEAR(tie.backup_mass, 0.5 * 0.055 * bars, 1e-12);  // 0.055 kg/m; no hardware near a tape
  }
}

TEST(Untie, RefusesATieThatIsNotThereOrHasNoMassOfItsOwn) {
  MotionLine line = standing().line;
  EXPECT_THROW(untie(line, line.ties.size()), InputError);
  line.ties[0].backup_mass = 0.0;
  EXPECT_THROW(untie(line, 0), InputError);
  try {
    untie(line, 0);
  } catch (const InputError& error) {
    EXPECT_NE(std::string(error.what()).find("line.ties[0]"), std::string::npos) << error.what();
  }
}

Vec3 momentum(const Motion& motion, const MotionLine& line) {
  Vec3 sum;
  for (std::size_t i = 0; i < line.nodes(); ++i) {
    if (!line.held[i]) sum += line.mass[i] * motion.velocity(i);
  }
  return sum;
}

TEST(Tear, KeepsPlacesVelocitiesMomentumAndEnergy) {
  const MovingRig rig = standing();
  MotionLine line = rig.line;
  Motion motion(line, rig.rest, {}, {.step = 2e-5});
  for (std::size_t i = 1; i + 1 < line.main_nodes; ++i) motion.set_velocity(i, {0.0, 1.0, 0.5});
  run(motion, 0.1);
  const Tie tie = motion.ties()[4];
  const Vec3 before = momentum(motion, line), place = motion.place(tie.main), velocity = motion.velocity(tie.main);
  const EnergyLedger ledger = motion.ledger();
  motion.tear(4);
  untie(line, 4);
  EXPECT_EQ(norm(motion.place(tie.backup) - place), 0.0);
  EXPECT_EQ(norm(motion.velocity(tie.backup) - velocity), 0.0);
  EXPECT_LT(norm(momentum(motion, line) - before), 1e-12);
  EXPECT_NEAR(motion.ledger().kinetic, ledger.kinetic, 1e-12 * ledger.kinetic);
  EXPECT_NEAR(motion.ledger().drift, ledger.drift, 1e-10);
  EXPECT_EQ(motion.ties().size(), rig.line.ties.size() - 1);
  run(motion, 0.3);
  EXPECT_GT(norm(motion.place(tie.main) - motion.place(tie.backup)), 0.01);  // they do part
  expect_closed(motion, ledger.kinetic, 1e-3);
}

TEST(LineTornBeforeItMoves, MovesAsOneUntied) {
  const MovingRig rig = standing();
  MotionLine untied = rig.line;
  for (const std::size_t tie : {5, 1}) untie(untied, tie);
  const MotionOptions options{.step = 5e-5};
  Motion torn(rig.line, rig.rest, {}, options), never_tied(untied, rig.rest, {}, options);
  for (const std::size_t tie : {5, 1}) torn.tear(tie);
  run(torn, 0.05);
  run(never_tied, 0.05);
  for (std::size_t i = 0; i < untied.nodes(); ++i) EXPECT_LT(norm(torn.place(i) - never_tied.place(i)), 1e-12) << i;
}

TEST(TieForce, CarriesWhatOfItsLoopsATapeHolds) {
  // At rest: half of each loop beside it hangs on a tape (level bays, alike: by symmetry), hardly any pull along.
  const MovingRig rig = standing();
  const Motion motion(rig.line, rig.rest);
  for (std::size_t tie = 1; tie + 1 < rig.line.ties.size(); ++tie) {
    double weight = 0.0;
    for (std::size_t bar = rig.line.ties[tie - 1].backup; bar < rig.line.ties[tie + 1].backup; ++bar) {
      weight += 0.5 * 0.055 * rig.line.length[bar] * kGravity;
    }
    EXPECT_NEAR(motion.tie_force(tie).z, -weight, 0.01 * weight) << tie;
  }
}

TEST(TieForce, BalancesTheMainAtATape) {
  const MovingRig rig = standing();
  const Motion motion(rig.line, rig.rest);
  for (std::size_t tie = 0; tie < rig.line.ties.size(); ++tie) {
    const Tie& at = rig.line.ties[tie];
    const double main_mass = rig.line.mass[at.main] - at.backup_mass;
    const Vec3 main = motion.pull_of(at.main) - motion.pull_of(at.main - 1) + Vec3{0.0, 0.0, -main_mass * kGravity};
    EXPECT_LT(norm(main + motion.tie_force(tie)), 1e-5) << tie;
  }
}

TEST(PushOn, MovesBothNodesOfATieByOneMass) {
  const MovingRig rig = standing();
  Motion motion(rig.line, rig.rest);
  const Tie tie = rig.line.ties[3];
  motion.push_on(tie.backup, {0.0, 0.2, 0.0});
  motion.push_on(tie.main, {0.1, 0.0, 0.0});
  const Vec3 expected{0.1 / rig.line.mass[tie.main], 0.2 / rig.line.mass[tie.main], 0.0};
  EXPECT_LT(norm(motion.velocity(tie.main) - expected), 1e-12);
  EXPECT_LT(norm(motion.velocity(tie.backup) - expected), 1e-12);
  motion.push_on(0, {1.0, 1.0, 1.0});
  EXPECT_EQ(norm(motion.velocity(0)), 0.0);  // held
}

TEST(PullOf, IsNothingOverACut) {
  MovingRig rig = standing();
  rig.line.cut.assign(rig.line.bars(), 0);
  rig.line.cut[7] = 1;
  const Motion motion(rig.line, rig.rest);
  EXPECT_EQ(norm(motion.pull_of(7)), 0.0);
  EXPECT_EQ(motion.tension(7), 0.0);
  EXPECT_EQ(norm(motion.pull_of(rig.line.main_nodes - 1)), 0.0);  // joins the strands in numbering only
  EXPECT_NEAR(norm(motion.pull_of(8)), 2500.0, 5.0);
  EXPECT_NEAR(motion.pull_of(8).x, norm(motion.pull_of(8)), 1.0);  // on the near node, towards the far one
}

}  // namespace
}  // namespace spanloom
