#include "statics/gap_effect.h"

#include <gtest/gtest.h>

#include <cmath>

#include "base/input_error.h"
#include "statics/plan.h"
#include "support/plain_rig.h"

namespace spanloom {
namespace {

GapRise measured(const Rig& rig, double gap_sd, double rise_sd) {
  return {rig.site.gap, rig.site.rise, gap_sd * gap_sd, rise_sd * rise_sd, 0.0};
}

TEST(GapEffect, AddsWebbingLessItsStretch) {
  const Rig rig = plain_rig();
  const GapEffectOutcome outcome = effect_of_gap(rig, measured(rig, 0.1, 0.01));
  ASSERT_TRUE(outcome.effect) << outcome.why;
  const PlanOutcome plan = make_plan(rig);
  const GapEffect& e = *outcome.effect;
  EXPECT_NEAR(e.main.length, plan.plan->standing.main_natural_length, 1e-9);
  // At the same tension one metre more of gap takes 1 / (1 + stretch) of webbing; sag adds a thousandth.
  const double stretch = rig.webbings[0].curve.stretch_at(plan.plan->standing.tension_near).stretch;
  EXPECT_NEAR(e.main.by_gap / 0.1 * (1.0 + stretch), 1.0, 2e-3);
  EXPECT_NEAR(e.main.sd, std::hypot(e.main.by_gap, e.main.by_rise), 1e-12);
}

TEST(GapEffect, PullsAMainCutTooShortByItsStiffness) {
  const Rig rig = plain_rig();
  const double sd = 0.02;
  const GapEffectOutcome outcome = effect_of_gap(rig, measured(rig, sd, 0.01));
  ASSERT_TRUE(outcome.effect) << outcome.why;
  const TensionInDoubt& t = outcome.effect->tension;
  ASSERT_TRUE(t.longer && t.shorter && t.higher && t.lower);
  EXPECT_LT(*t.shorter, t.planned);
  // dT = EA / L dx for a taut line without sag, EA the slope of the curve at the standing tension. Sag softens it, a
  // few percent.
  const StretchCurve& curve = rig.webbings[0].curve;
  const double stiffness = curve.stiffness(curve.stretch_at(t.planned).stretch) / outcome.effect->main.length;
  EXPECT_NEAR((*t.longer - *t.shorter) / (2.0 * sd) / stiffness, 1.0, 0.1);
  EXPECT_LT((*t.longer - *t.shorter) / (2.0 * sd), stiffness);
}

TEST(GapEffect, CountsARiseOverALevelGapThoughItIsOfSecondOrder) {
  Rig rig = plain_rig();
  rig.site.rise = 0.0;
  const GapEffectOutcome outcome = effect_of_gap(rig, measured(rig, 0.01, 1.0));
  ASSERT_TRUE(outcome.effect) << outcome.why;
  // sqrt(gap^2 + 1) - gap, stretched by a few percent.
  const double longer = std::hypot(rig.site.gap, 1.0) - rig.site.gap;
  EXPECT_NEAR(std::abs(outcome.effect->main.by_rise) / longer, 1.0, 0.1);
}

TEST(GapEffect, RefusesAGapThatIsKnownForCertain) {
  const Rig rig = plain_rig();
  EXPECT_THROW((void)effect_of_gap(rig, measured(rig, 0.1, 0.0)), InputError);
  EXPECT_THROW((void)effect_of_gap(rig, measured(rig, 0.0, 0.1)), InputError);
}

TEST(GapEffect, SaysWhenTheGapIsHardlyKnownAtAll) {
  const Rig rig = plain_rig();
  const GapEffectOutcome outcome = effect_of_gap(rig, measured(rig, rig.site.gap, 0.1));
  EXPECT_FALSE(outcome.effect);
  EXPECT_FALSE(outcome.why.empty());
}

}  // namespace
}  // namespace spanloom
