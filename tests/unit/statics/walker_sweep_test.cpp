#include "statics/walker_sweep.h"

#include <gtest/gtest.h>

#include <cmath>

#include "base/constants.h"
#include "statics/plan.h"
#include "support/plain_rig.h"

namespace spanloom {
namespace {

Plan plan_of(const Rig& rig) {
  PlanOutcome out = make_plan(rig);
  if (!out.plan) throw std::runtime_error(out.failure->words);
  return std::move(*out.plan);
}

double weight(const Rig& rig, const Plan& plan) {
  return kGravity * (plan.standing.main_natural_length * rig.webbings[0].mass_per_length +
                     plan.standing.backup_natural_length * rig.webbings[1].mass_per_length);
}

TEST(WalkerSweep, VisitsBothTapesAndTheMiddleOfEveryBay) {
  const Plan plan = plan_of(plain_rig());
  ASSERT_EQ(plan.walker.size(), 2 * plan.bays.size() + 1);
  for (std::size_t i = 1; i < plan.walker.size(); ++i) EXPECT_GT(plan.walker[i].position, plan.walker[i - 1].position);
}

TEST(WalkerSweep, BalancesAnchorsAgainstAllWeights) {
  const Rig rig = plain_rig();
  const Plan plan = plan_of(rig);
  for (const WalkerPlace& p : plan.walker) {
    const Vec3 sum = p.near.total() + p.far.total();
    EXPECT_NEAR(sum.z, -(weight(rig, plan) + 80.0 * kGravity), 1e-6);
    EXPECT_NEAR(sum.x, 0.0, 1e-6);
  }
}

TEST(WalkerSweep, SharesTheWeightByTheLever) {
  // Statics of a level span: the far anchor bears walker weight times x over the gap.
  const Rig rig = plain_rig();
  const Plan plan = plan_of(rig);
  const double own = -plan.standing.far.total().z;
  const WalkerPlace& p = plan.walker[5];
  const double foot = p.position;  // the foot moves sideways by millimetres only
  EXPECT_NEAR((-p.far.total().z - own) / (80.0 * kGravity), foot / 50.0, 2e-3);
}

TEST(WalkerSweep, OfASymmetricLineIsItsOwnMirrorImage) {
  const Plan plan = plan_of(plain_rig());
  const std::size_t n = plan.walker.size();
  for (std::size_t i = 0; i < n; ++i) {
    const WalkerPlace &a = plan.walker[i], &b = plan.walker[n - 1 - i];
    // The crew measures the first tape to the centimetre, so the two end bays differ by up to 10 mm.
    EXPECT_NEAR(a.sag, b.sag, 2e-3);
    EXPECT_NEAR(a.tension_near, b.tension_far, 3.0);
  }
}

TEST(WalkerSweep, MirroredTapesGiveMirroredAnswers) {
  Rig rig = plain_rig();
  rig.main.tension.reset();
  rig.main.run.segments[0].natural_length = 48.5;
  rig.backup.amount = LoopLength{{8.0, 13.0, 9.0, 23.0}};
  rig.spacing.pattern = TapesAt{{7.0, 19.0, 27.0}};
  const Plan plan = plan_of(rig);
  rig.backup.amount = LoopLength{{23.0, 9.0, 13.0, 8.0}};
  rig.spacing.pattern = TapesAt{{21.5, 29.5, 41.5}};
  const Plan turned = plan_of(rig);
  const std::size_t n = plan.walker.size();
  for (std::size_t i = 0; i < n; ++i) {
    const WalkerPlace &a = plan.walker[i], &b = turned.walker[n - 1 - i];
    EXPECT_NEAR(a.position, 50.0 - b.position, 1e-8);
    EXPECT_NEAR(a.sag, b.sag, 1e-8);
    EXPECT_NEAR(a.tension_near, b.tension_far, 1e-8 * a.tension_near);
    EXPECT_NEAR(a.backup_tension_max, b.backup_tension_max, 1e-6);
  }
}

TEST(WalkerSweep, HeavierWalkersNeverSagLess) {
  Rig rig = plain_rig();
  std::vector<double> before(1, 0.0);
  for (double mass : {20.0, 60.0, 61.0, 120.0, 300.0}) {
    rig.walker.mass = mass;
    const Plan plan = plan_of(rig);
    before.resize(plan.walker.size(), -1.0);
    for (std::size_t i = 1; i + 1 < plan.walker.size(); ++i) {
      EXPECT_GT(plan.walker[i].sag, before[i]) << mass;
      before[i] = plan.walker[i].sag;
    }
  }
}

TEST(WalkerSweep, TwoPeopleWeighTheirSum) {
  Rig rig = plain_rig();
  const Plan pair = plan_of(rig);
  rig.walker.mass = 160.0;
  const Plan heavy = plan_of(rig);
  for (std::size_t k = 0; k < pair.rescue.size(); ++k) {
    EXPECT_NEAR(pair.rescue[k].sag, heavy.walker[2 * k + 1].sag, 1e-9);
    EXPECT_NEAR(pair.rescue[k].tension_max, heavy.walker[2 * k + 1].tension_max, 1e-5);
  }
}

TEST(WalkerSweep, AgreesWithItselfAtAskedPlaces) {
  Rig rig = plain_rig();
  const Plan first = plan_of(rig);
  rig.extra_places = {first.walker[4].s, first.walker[7].s};
  const Plan plan = plan_of(rig);
  for (const auto& [extra, own] : {std::pair{0, 4}, {1, 7}}) {
    EXPECT_NEAR(plan.extra[extra].s, plan.walker[own].s, 1e-9);
    EXPECT_NEAR(plan.extra[extra].sag, plan.walker[own].sag, 1e-8);
    EXPECT_NEAR(plan.extra[extra].tension_max, plan.walker[own].tension_max, 1e-4);
  }
}

TEST(WalkerSweep, PutsAnAskedPlaceOfTheLastBayWhereItWasAsked) {
  Rig rig = plain_rig();
  rig.main.tension = 1200.0;  // slack enough that the first guess of the length is some centimetres out
  rig.extra_places = {44.0, 48.0};
  const Plan plan = plan_of(rig);
  // Interpolated between the sweep's own places in natural length.
  for (const WalkerPlace& p : plan.extra) {
    for (std::size_t i = 1; i < plan.walker.size(); ++i) {
      const WalkerPlace &a = plan.walker[i - 1], &b = plan.walker[i];
      if (p.s < a.s || p.s > b.s) continue;
      const double wanted = a.position + (b.position - a.position) * (p.s - a.s) / (b.s - a.s);
      EXPECT_NEAR(p.position, wanted, 2e-3);
    }
  }
}

TEST(WalkerSweep, LeavesTheBodyHangingByLeashAndHip) {
  const Plan plan = plan_of(plain_rig());
  for (const WalkerPlace& p : plan.walker) {
    if (!p.ground_clearance) continue;
    EXPECT_NEAR(*p.ground_clearance - *p.hang_clearance, 1.4 + 0.95, 1e-12);
    if (!p.in_anchor_zone) {
      EXPECT_NEAR(*p.ground_clearance, 30.0 - p.sag, 1e-9);
    }
  }
}

TEST(WalkerSweep, KinksTheMainAsAPointLoadOnATautString) {
  // At midspan the two slopes beside the foot differ by P / H; steepest is half of it where the line is level.
  Rig rig = plain_rig();
  const Plan plan = plan_of(rig);
  const WalkerPlace& p = plan.walker[plan.walker.size() / 2];
  ASSERT_NEAR(p.position, 25.0, 0.02);
  const double h = std::abs(p.near.main.x);
  EXPECT_NEAR(p.slope, 80.0 * kGravity / (2.0 * h), 0.01 * p.slope);
}

}  // namespace
}  // namespace spanloom
