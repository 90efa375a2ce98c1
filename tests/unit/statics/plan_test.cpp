#include "statics/plan.h"

#include <gtest/gtest.h>

#include <cmath>

#include "base/constants.h"
#include "base/input_error.h"
#include "support/plain_rig.h"

namespace spanloom {
namespace {

Plan plan_of(const Rig& rig) {
  PlanOutcome out = make_plan(rig);
  if (!out.plan) throw std::runtime_error(out.failure->words);
  return std::move(*out.plan);
}

TEST(Plan, RefusesAnInconsistentRig) {
  Rig rig = plain_rig();
  rig.walker.mass = -1.0;
  EXPECT_THROW((void)make_plan(rig), InputError);
}

TEST(Plan, BaysAddUpToTheLengths) {
  Rig rig = plain_rig();
  rig.main.run.near_hardware = {"near", 1.0, 0.9, {}};
  rig.backup.run.far_hardware = {"far", 1.0, 0.4, {}};
  const Plan plan = plan_of(rig);
  double main = 0.0, backup = 0.0;
  for (const PlanBay& bay : plan.bays) {
    main += bay.main_natural;
    backup += bay.backup_natural;
    EXPECT_NEAR(bay.tape_s, main, 1e-9);
    EXPECT_NEAR(bay.arm_spans, bay.main_natural / 1.75, 1e-12);
  }
  EXPECT_NEAR(main, plan.standing.main_natural_length, 1e-9);
  EXPECT_NEAR(backup, plan.standing.backup_natural_length, 1e-9);
  EXPECT_DOUBLE_EQ(plan.bays.front().from, 0.0);
  EXPECT_DOUBLE_EQ(plan.bays.back().to, 50.0);
}

TEST(Plan, SagOfTheStandingLineIsTheParabolas) {
  const Rig rig = plain_rig();
  const Plan plan = plan_of(rig);
  const double q = kGravity * (plan.standing.main_natural_length * 0.060 + plan.standing.backup_natural_length * 0.050) / 50.0;
  // The main carries 4000 N less nothing; loops add about 8 N of pull between the tapes.
  EXPECT_NEAR(plan.standing.sag, q * 2500.0 / (8.0 * 4000.0), 0.005 * plan.standing.sag);
  EXPECT_NEAR(plan.standing.sag_at, 25.0, 0.5);
}

TEST(Plan, RoundTripIsTwoGapsAtTheWaveSpeed) {
  const Plan plan = plan_of(plain_rig());
  const double mass = (plan.standing.main_natural_length * 0.060 + plan.standing.backup_natural_length * 0.050) / 50.0;
  EXPECT_NEAR(plan.standing.round_trip, 2.0 * 50.0 / std::sqrt(4000.0 / mass), 1e-9);
}

TEST(Plan, NotesTheLeftoverBayAsItStands) {
  Rig rig = plain_rig();
  rig.main.tension = 1200.0;
  rig.spacing.pattern = RepeatArmSpans{{1.0, 2.0}};
  const Plan plan = plan_of(rig);
  EXPECT_TRUE(plan.bays.back().ends_leftover);
  ASSERT_FALSE(plan.notes.empty());
  const std::string& note = plan.notes.front();
  const double told = std::stod(note.substr(note.find(": ") + 2));
  EXPECT_NEAR(told, plan.bays.back().main_natural, 0.0051) << note;
}

TEST(Plan, PicksTheWorstPlaces) {
  const Plan plan = plan_of(plain_rig());
  for (const WalkerPlace& p : plan.walker) {
    EXPECT_LE(p.tension_max, plan.walker[plan.worst_tension].tension_max);
    EXPECT_LE(p.sag, plan.walker[plan.worst_sag].sag);
    if (p.hang_clearance && !p.in_anchor_zone) {
      EXPECT_GE(*p.hang_clearance, *plan.walker[*plan.worst_hang].hang_clearance);
    }
  }
  for (const PlanBay& bay : plan.bays) EXPECT_GE(bay.ankle_margin, plan.bays[plan.worst_ankle_bay].ankle_margin);
}

TEST(Plan, PutsAWalkerAtLeastEveryTwentiethOfTheGap) {
  Rig rig = plain_rig();
  rig.spacing.pattern = TapesAt{{12.0, 44.0}};
  const Plan plan = plan_of(rig);
  double before = 0.0, deepest_of_two = 0.0;
  for (const WalkerPlace& p : plan.walker) {
    EXPECT_LE(p.position - before, 50.0 / 20.0 * 1.05);  // unloaded lengths, 3 % stretch
    before = p.position;
  }
  for (const WalkerPlace& p : plan.rescue) deepest_of_two = std::max(deepest_of_two, p.sag);
  EXPECT_NEAR(plan.walker[plan.worst_sag].position, 25.0, 1.3);
  EXPECT_GT(deepest_of_two, plan.walker[plan.worst_sag].sag);
}

TEST(Plan, AnkleMarginIsWhatKinkAndStretchLeaveOfTheDrop) {
  // Hand rules: a string of tension T under P at its middle falls P l / (4 T) below its ends (any statics text);
  // a shallow loop of length L over l hangs d = sqrt(3 l (L - l) / 8). The walker's extra stretch makes l longer
  // and so eats drop. With the second term of the parabola's length,
  // L = l (1 + 8/3 r^2 - 32/5 r^4), r = d / l. Predicted to 1.4 mm of 117 mm; 2 mm are allowed.
  const Rig rig = plain_rig();
  const Plan plan = plan_of(rig);
  const std::size_t middle = plan.bays.size() / 2;
  const PlanBay& bay = plan.bays[middle];
  const WalkerPlace& walked = plan.walker[2 * middle + 1];
  ASSERT_FALSE(walked.at_tape);
  const double h = std::abs(walked.near.main.x);
  const double stretched = bay.main_natural * (1.0 + rig.webbings[0].curve.stretch_at(walked.tension_max).stretch);
  double span = stretched, kink = 0.0;  // straight from tape to tape, and how far the foot is below
  for (int pass = 0; pass < 5; ++pass) {
    kink = rig.walker.mass * kGravity * span / (4.0 * h);
    span = 2.0 * std::sqrt(0.25 * stretched * stretched - kink * kink);
  }
  const double share = 3.0 * (bay.backup_natural - span) / (8.0 * span);  // (d / l)^2, first term
  const double drop = span * std::sqrt(share * (1.0 + 2.4 * share));      // and the second of the series
  EXPECT_NEAR(bay.ankle_margin, drop - kink, 2e-3) << drop << " " << kink;
  EXPECT_LT(bay.ankle_margin, bay.drop - 0.9 * kink);
}

TEST(Plan, LedgerHoldsTheGreatestOfAllStates) {
  Rig rig = plain_rig();
  rig.extra_places = {13.0};
  const Plan plan = plan_of(rig);
  double main = plan.standing.tension_near, backup = plan.standing.backup_tension_max;
  for (const auto* places : {&plan.walker, &plan.extra, &plan.rescue}) {
    for (const WalkerPlace& p : *places) main = std::max(main, p.tension_max), backup = std::max(backup, p.backup_tension_max);
  }
  ASSERT_EQ(plan.forces.size(), 2u);
  EXPECT_NEAR(plan.forces[0].tension, main, 1e-9 * main);
  EXPECT_NEAR(plan.forces[1].tension, backup, 1e-9 * backup);
  EXPECT_EQ(plan.forces[0].state.rfind("two people at", 0), 0u) << plan.forces[0].state;
}

TEST(Plan, SaysWhenATensionIsPastTheMeasuredCurve) {
  Rig rig = plain_rig();
  rig.webbings[0].curve = StretchCurve::from_points({{4500.0, 4500.0 / 120e3}});
  const Plan plan = plan_of(rig);
  EXPECT_TRUE(std::any_of(plan.notes.begin(), plan.notes.end(),
                          [](const std::string& n) { return n.find("4.50 kN") != std::string::npos; }));
}

TEST(Plan, OfALongLineDoesWithoutAHandTightOne) {
  // Half of its weight alone, 0.5 x 1.08 N/m x 1000 m, is more than the 300 N it would be pulled to by hand.
  Rig rig = plain_rig();
  rig.site = {1000.0, 0.0, {}};
  rig.near_anchor.edge = rig.far_anchor.edge = std::nullopt;
  rig.main.tension = 12e3;
  rig.main.hand_tight = Stated<double>::by_default(300.0);
  rig.spacing.pattern = EvenBays{50.0};
  const Plan plan = plan_of(rig);
  EXPECT_FALSE(plan.pull_through);
  EXPECT_TRUE(std::any_of(plan.notes.begin(), plan.notes.end(),
                          [](const std::string& n) { return n.find("hand-tight") != std::string::npos; }));
}

}  // namespace
}  // namespace spanloom
