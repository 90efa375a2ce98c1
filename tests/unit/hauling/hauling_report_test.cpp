#include "hauling/hauling_report.h"

#include <gtest/gtest.h>

#include <cmath>

#include "base/constants.h"
#include "base/input_error.h"
#include "support/hauling_sample.h"

namespace spanloom {
namespace {

using fixture::full_hauling_options;
using fixture::hauled;

TEST(HaulingReport, SizesTheHandForceForStandingTensionAndBend) {
  const HaulingReport report = hauled(short_rig(), full_hauling_options());
  ASSERT_EQ(report.sets.size(), 1u);
  const SetAtWork& set = report.sets.front();
  const double bend = std::exp(0.2 * 1.0);
  EXPECT_NEAR(report.load, 2500.0 * bend, 1e-6);
  EXPECT_NEAR(set.hand * set.ratio, report.load, 1e-9);
  EXPECT_EQ(set.people, static_cast<int>(std::ceil(set.hand / 250.0)));
  EXPECT_NEAR(set.rope, 5.0 * report.steps.back().travel, 1e-12);
  EXPECT_EQ(set.anchor, report.load);   // its rope tied off there
  EXPECT_NEAR(set.holding_at_most, 2500.0 / 5.0, 1e-6);
  EXPECT_LT(set.holding, 2500.0 / bend / 5.0);
  EXPECT_GT(set.hand_on_bushings, set.hand);
}

TEST(HaulingReport, LoadsTheAnchorWithTheFirstRopeTooWhereItLeavesTheFixedBlock) {
  HaulingOptions options;
  options.leaves = RopeLeaves::fixed_block;
  for (const SetAtWork& set : hauled(short_rig(), options).sets) {
    // Free body of the first block: n parts of eta-reduced rope carry the load (handbook sum, from memory).
    double sum = 0.0;
    for (int k = 1; k <= set.set.parts[0]; ++k) sum += std::pow(0.9, k);
    EXPECT_NEAR(set.anchor, 2500.0 * (1.0 + 1.0 / sum), 1e-6);
  }
}

TEST(HaulingReport, CountsHaulsByTheReach) {
  HaulingOptions options;
  const double travel = hauled(short_rig()).steps.back().travel;
  options.reach = travel;
  EXPECT_EQ(hauled(short_rig(), options).hauls, 1);
  options.reach = travel / 3.0;
  EXPECT_EQ(hauled(short_rig(), options).hauls, 3);
  options.reach = travel / 3.5;
  EXPECT_EQ(hauled(short_rig(), options).hauls, 4);
  EXPECT_FALSE(hauled(short_rig()).hauls);
}

TEST(HaulingReport, ShowsSeveralSetsWhereNoneWasGiven) {
  EXPECT_EQ(hauled(short_rig()).sets.size(), common_sets().size());
}

TEST(HaulingReport, TellsWhatIsStored) {
  const LettingDown down = hauled(short_rig()).down;
  EXPECT_NEAR(down.same_fall, down.stored / (80.0 * kGravity), 1e-12);
  EXPECT_GT(down.stored, 0.5 * 300.0 * down.stretch);
  EXPECT_LT(down.stored, 2600.0 * down.stretch);
}

TEST(Settling, LosesLessAndLessAndIsPulledInAgain) {
  const HaulingReport report = hauled(plain_rig(), {.creep = 0.002});
  ASSERT_EQ(report.settling.size(), 4u);
  double before = report.standing;
  const double main = 50.0 / (1.0 + 4000.0 / 120e3);
  for (const Settled& at : report.settling) {
    EXPECT_LT(at.tension, before);
    EXPECT_GT(at.sag, report.steps.back().sag);
    EXPECT_LT(at.creep, 0.002 * std::log10(at.time / 60.0));  // for the tension falls
    EXPECT_GT(at.creep, 0.002 * std::log10(at.time / 60.0) * at.tension / report.standing);
    // What has grown has to come in, but for what the stiffer geometry of the last bay changes.
    EXPECT_NEAR(at.pull_in / (main * at.creep), 1.0, 0.02);
    before = at.tension;
  }
}

TEST(Settling, ScalesWithSmallCreep) {
  const double one = hauled(plain_rig(), {.creep = 1e-5}).settling.back().tension;
  const double two = hauled(plain_rig(), {.creep = 2e-5}).settling.back().tension;
  EXPECT_NEAR((4000.0 - two) / (4000.0 - one), 2.0, 5e-3);
}

TEST(HaulingReport, SaysWhereTheLineLiesOnTheGround) {
  Rig rig = short_rig();
  rig.site.ground = {{0.0, -0.15}, {16.0, -0.15}};
  const HaulingReport report = hauled(rig);
  ASSERT_EQ(report.notes.size(), 1u);
  EXPECT_NE(report.notes[0].find("lie on it"), std::string::npos) << report.notes[0];
  EXPECT_TRUE(hauled(short_rig()).notes.empty());
}

TEST(HaulingReport, SaysWhyThereIsNone) {
  Rig rig = short_rig();
  rig.main.hand_tight = Stated<double>::given(2500.0);
  EXPECT_NE(make_hauling_report(rig).why.find("nothing to pull through"), std::string::npos);
  rig.main.hand_tight = Stated<double>::given(1.0);
  EXPECT_NE(make_hauling_report(rig).why.find("no hanging line"), std::string::npos);
  rig.main.tension = 50e3;
  EXPECT_NE(make_hauling_report(rig).why.find("not below the strength"), std::string::npos);
}

TEST(HaulingOptions, AreRefusedAllInOneGo) {
  HaulingOptions options = full_hauling_options();
  options.efficiency.value = 0.0;
  options.person_force.value = -1.0;
  options.reach = 0.0;
  options.bend->friction.value = 2.0;
  options.creep = 0.5;
  options.step = -1.0;
  try {
    check(options);
    FAIL();
  } catch (const InputError& error) {
    std::vector<std::string> keys;
    for (const Problem& problem : error.problems()) keys.push_back(problem.key);
    EXPECT_EQ(keys,
              (std::vector<std::string>{"efficiency", "bend_friction", "person_force", "reach", "step", "creep"}));
  }
}

}  // namespace
}  // namespace spanloom
