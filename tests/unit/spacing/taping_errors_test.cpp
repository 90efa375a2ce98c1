#include "spacing/taping_errors.h"

#include <gtest/gtest.h>

#include "base/input_error.h"
#include "support/short_rig.h"

namespace spanloom {
namespace {

struct Line {
  Rig rig = short_rig();
  Plan plan = *make_plan(rig).plan;
  LayoutJudge judge{rig, plan};
  Layout layout = layout_of(plan);
};

TEST(ReturnAsTaped, WithoutErrorsIsTheReturnOfTheLayout) {
  Line line;
  const double own = line.judge.judge(line.layout)->return_mean;
  const auto taped = return_as_taped(line.judge, line.layout, {0.0, 0.0}, 3, 1);
  ASSERT_TRUE(taped);
  EXPECT_EQ(taped->samples, 3u);
  EXPECT_NEAR(taped->mean, own, 1e-4);
  EXPECT_NEAR(taped->p95, own, 1e-4);
}

TEST(ReturnAsTaped, IsTheSameForTheSameSeedAndMostlyBelowItsNinetyFifthPart) {
  Line line;
  const auto a = return_as_taped(line.judge, line.layout, {}, 40, 7), b = return_as_taped(line.judge, line.layout, {}, 40, 7);
  ASSERT_TRUE(a && b);
  EXPECT_EQ(a->mean, b->mean);
  EXPECT_EQ(a->p95, b->p95);
  EXPECT_GE(a->p95, a->mean);
  EXPECT_EQ(a->samples + a->taut, 40u);
  EXPECT_THROW((void)return_as_taped(line.judge, line.layout, {}, 0, 7), InputError);
}

TEST(ReturnAsTaped, OfAnEvenLineIsLowerThanPlannedSinceErrorsMakeItsDropsDiffer) {
  Line line;  // even bays, equal drops: 1 % of a loop is nearly its slack, so its drop goes from a third to one and a half
  const double own = line.judge.judge(line.layout)->return_mean;
  const auto taped = return_as_taped(line.judge, line.layout, {0.0, 0.008}, 40, 3);
  ASSERT_TRUE(taped);
  EXPECT_LT(taped->mean, own);
}

// Shallow loop: extra length 8 d^2 / (3 l), so a length more makes the drop grow by 3 l / (16 d).
TEST(TouchOfBays, DeepensALoopAsTheShallowRuleSays) {
  Line line;
  const auto touches = touch_of_bays(line.judge, line.layout);
  ASSERT_TRUE(touches);
  for (std::size_t k = 1; k + 1 < line.layout.bays.size(); ++k) {
    const double by_rule = 3.0 * line.plan.bays[k].main_standing / (16.0 * line.plan.bays[k].drop) * kTouch;
    EXPECT_NEAR((*touches)[k].drop, by_rule, 0.15 * by_rule) << k;  // 10 mm are a third of the extra length
    EXPECT_GT((*touches)[k].ankle_margin, 0.0);
  }
}

}  // namespace
}  // namespace spanloom
