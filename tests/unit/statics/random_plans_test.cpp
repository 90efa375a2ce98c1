// Properties of whole plans over random rigs far wider than anything rigged: 5 m to 3 km, as steep as wide,
// soft and stiff, slack and overtight, with rings, wind, connectors and hardware. Seeds are fixed.
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>

#include "base/constants.h"
#include "base/input_error.h"
#include "statics/certify.h"
#include "unit/statics/random_rig.h"

namespace spanloom {
namespace {

#if defined(__SANITIZE_ADDRESS__)
constexpr int kRigs = 150;
#else
constexpr int kRigs = 1500;
#endif

RandomRig numbered(int i, const RandomRigKind& kind = {}) {
  std::mt19937_64 random(std::uint64_t(i) + 20240917u);
  return random_rig(random, kind);
}

double weight_of(const Rig& rig, const WebbingRun& run, const std::vector<double>& lengths) {
  double mass = 0.0;
  for (std::size_t i = 0; i < lengths.size(); ++i) mass += lengths[i] * rig.webbings[run.segments[i].webbing].mass_per_length;
  for (const Link& link : run.connectors) mass += link.mass;
  for (const Link* link : {&run.near_hardware, &run.far_hardware}) mass += link->length > 0.0 ? link->mass : 0.0;
  return mass * kGravity;
}

double weight_of(const Rig& rig, const Plan& plan) {
  return weight_of(rig, rig.main.run, plan.rigged.main_segment_length) +
         weight_of(rig, rig.backup.run, plan.rigged.backup_segment_length) +
         rig.backup.tape_mass * kGravity * double(plan.rigged.bays() - 1);
}

void expect_balance(const AnchorLoad& near, const AnchorLoad& far, double down, double greatest, double apart,
                    const char* where) {
  const Vec3 sum = near.total() + far.total();
  const double allowed = 1e-8 * greatest + 1e-9 * down;  // a residual of 1e-9 of the greatest force at each end
  EXPECT_NEAR(sum.x, 0.0, allowed) << where;
  EXPECT_NEAR(sum.y, 0.0, allowed) << where;
  EXPECT_NEAR(sum.z, -down, allowed + apart) << where;
}

bool finite_place(const WalkerPlace& p) {
  return std::isfinite(p.position + p.s + p.sag + p.slope + p.tension_near + p.tension_far + p.tension_max +
                       p.backup_tension_max + p.sideways) &&
         is_finite(p.near.total()) && is_finite(p.far.total());
}

bool finite_plan(const Plan& plan) {
  const StandingLine& s = plan.standing;
  bool finite = std::isfinite(s.tension_near + s.tension_far + s.sag + s.main_natural_length +
                              s.backup_natural_length + s.round_trip + s.backup_tension_max);
  for (const Vec3& node : s.main_shape) finite = finite && is_finite(node);
  for (const auto& loop : s.loop_shapes) finite = finite && std::all_of(loop.begin(), loop.end(), is_finite);
  for (const PlanBay& b : plan.bays) {
    finite = finite && std::isfinite(b.from + b.to + b.tape_s + b.main_natural + b.backup_natural + b.arm_spans +
                                     b.main_standing + b.drop + b.slack + b.ankle_margin);
  }
  for (const auto* places : {&plan.walker, &plan.extra, &plan.rescue, &plan.walker_other_joint}) {
    finite = finite && std::all_of(places->begin(), places->end(), finite_place);
  }
  for (const PieceForce& f : plan.forces) finite = finite && std::isfinite(f.tension) && f.tension > 0.0;
  return finite;
}

void check_plan(const RandomRig& made, const Plan& plan) {
  SCOPED_TRACE(made.words);
  const Rig& rig = made.rig;
  EXPECT_TRUE(finite_plan(plan));
  EXPECT_TRUE(holds(plan.standing.certificate));
  EXPECT_GE(plan.walker.size(), 2 * plan.bays.size() + 1);
  const double weight = weight_of(rig, plan);
  // A joint of the backup that lies at a tape is cut to 20 mm only: 0.02 N of webbing of 0.1 kg/m.
  const double apart = rig.backup.run.segments.size() > 1 ? 0.02 : 0.0;  // [N]
  expect_balance(plan.standing.near, plan.standing.far, weight, plan.standing.certificate.greatest_force, apart, "standing");
  for (const WalkerPlace& p : plan.walker) {
    EXPECT_TRUE(holds(p.certificate));
    expect_balance(p.near, p.far, weight + rig.walker.mass * kGravity, p.certificate.greatest_force, apart, "walker");
  }
  const double two = (rig.walker.mass + rig.walker.rescuer_mass.value) * kGravity;
  for (const WalkerPlace& p : plan.rescue) {
    EXPECT_TRUE(holds(p.certificate));
    expect_balance(p.near, p.far, weight + two, p.certificate.greatest_force, apart, "two people");
  }
  if (rig.main.tension) {
    EXPECT_NEAR(plan.standing.tension_near / *rig.main.tension, 1.0, 1e-9);
  }
}

TEST(RandomPlans, AreBalancedAndCertifiedOrRefusedInWords) {
  int plans = 0, unproven = 0, refused = 0, impossible = 0;
  for (int i = 0; i < kRigs; ++i) {
    const RandomRig made = numbered(i);
    try {
      const PlanOutcome outcome = make_plan(made.rig, made.options);
      ASSERT_NE(outcome.plan.has_value(), outcome.failure.has_value()) << made.words;
      if (outcome.plan) {
        ++plans;
        check_plan(made, *outcome.plan);
        continue;
      }
      EXPECT_GT(outcome.failure->words.size(), 30u);
      EXPECT_EQ(outcome.failure->words.back(), '.') << outcome.failure->words;
      const bool proven = outcome.failure->reason == PlanFailure::Reason::cannot_stand;
      ++(proven ? refused : unproven);
      // Taped lines are convex: there is always a proof. Rings may have no place of rest.
      EXPECT_TRUE(proven || made.rig.backup.joint == Joint::ring) << i << ": " << outcome.failure->words << made.words;
    } catch (const InputError& error) {
      ++impossible;
      EXPECT_FALSE(error.problems().empty()) << made.words;
    }
  }
  RecordProperty("plans", plans);
  RecordProperty("refused", refused);
  RecordProperty("unproven", unproven);
  EXPECT_GT(plans, kRigs / 2) << refused << " refused, " << impossible << " impossible";
  EXPECT_LE(unproven, 1 + kRigs / 200) << "rings that found no place of rest";
}

// What riggers do: bays of 1 to 6 m, webbings of 30 to 300 kN, slack loops. All of it must plan.
TEST(RandomPlans, OfOrdinaryTapedRigsNeverFail) {
  RandomRigKind kind;
  kind.least_gap = 12.0, kind.greatest_gap = 150.0, kind.steepest = 0.2, kind.rings = 0.0;
  kind.softest = 50e3, kind.stiffest = 300e3;
  std::mt19937_64 random(7);
  for (int i = 0; i < kRigs / 5; ++i) {
    RandomRig made = random_rig(random, kind);
    Rig& rig = made.rig;
    const double stiffness = 50e3 * std::pow(6.0, double(i % 7) / 6.0);
    for (Webbing& w : rig.webbings) w.curve = StretchCurve::from_points({{10e3, 10e3 / stiffness}});
    rig.main.tension = 1500.0 + 40.0 * rig.site.gap;
    rig.main.run.segments = {{0, std::nullopt}};
    rig.main.run.connectors.clear();
    rig.backup.run.segments = {{1, std::nullopt}};
    rig.backup.run.connectors.clear();
    rig.backup.run.near_hardware.length = rig.backup.run.far_hardware.length = 0.0;
    rig.backup.near_offset = rig.backup.far_offset = {};
    rig.backup.tape_mass = 0.01;
    rig.spacing.pattern = RepeatArmSpans{{1.0, 2.0, 1.5}};
    rig.spacing.arm_span = Stated<double>::given(1.7);
    rig.spacing.close.reset();
    rig.extra_places.clear();
    if (i % 2 == 0) rig.backup.amount = SlackShare{{0.01 + 0.0002 * (i % 200)}};
    else rig.backup.amount = LoopDrop{{0.08 + 0.001 * (i % 200)}};
    const PlanOutcome outcome = make_plan(rig, {4, 6});
    ASSERT_TRUE(outcome.plan) << i << ": " << outcome.failure->words << "\n" << made.words;
    check_plan(made, *outcome.plan);
  }
}

}  // namespace
}  // namespace spanloom
