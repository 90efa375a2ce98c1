#include "spacing/layout_judge.h"

#include <gtest/gtest.h>

#include "base/input_error.h"
#include "motion/moving_rig.h"
#include "motion/shake.h"
#include "support/planned.h"
#include "support/short_rig.h"

namespace spanloom {
namespace {

// Without loss, air and swings that snap, the full motion is the small one: two ways to one number, one by time steps, one
// by a spectrum.
TEST(SmallReturn, IsThatOfTheFullMotionOfTinyShakesWithoutLoss) {
  Rig rig = short_rig();
  for (Webbing& webbing : rig.webbings) webbing.loss.reset();
  MotionMesh fine;
  MovingOutcome standing = moving_rig(rig, fine);
  ASSERT_TRUE(standing.rig);
  MovingRig line = std::move(*standing.rig);
  for (DragArea& drag : line.line.drag) drag = {};
  SmallReturnOptions options;
  options.frequencies = {1.25, 2.5};
  options.places = {0.15, 0.5};
  options.watched = 200;
  options.early = 40, options.late = 60;
  options.highest = 20.0;
  options.loop_drag = 0.0;
  SmallReturn small(line.round_trip, options);
  std::vector<double> along;
  for (std::size_t i = 0; i < line.line.main_nodes; ++i) along.push_back(line.rest[i].x);
  const SmallReturns returns = small.judge(lateral_line(line.line, line.rest), along);
  std::size_t at = 0;
  for (const double place : options.places) {
    for (const double frequency : options.frequencies) {
      const ShakeOutcome full = run_shake(line, {frequency, place, ShakeDirection::sideways, 1e-5});
      ASSERT_TRUE(full.result);
      // Found within 1.3 %: what wraps around the period of the spectrum is e^-4 of what it was.
      EXPECT_NEAR(returns.each[at], full.result->returned, 0.02 * full.result->returned + 0.004) << place << " " << frequency;
      ++at;
    }
  }
}

TEST(LayoutJudge, FindsTheDropsAndMarginsOfThePlan) {
  const Planned line = planned(short_rig());
  const auto score = LayoutJudge(line.rig, line.plan).judge(layout_of(line.plan));
  ASSERT_TRUE(score);
  for (std::size_t k = 0; k < line.plan.bays.size(); ++k) {
    const bool end = k == 0 || k + 1 == line.plan.bays.size();  // hardware hangs in them
    EXPECT_NEAR(score->drop[k], line.plan.bays[k].drop, 0.02 * line.plan.bays[k].drop);
    EXPECT_NEAR(score->ankle_margin[k], line.plan.bays[k].ankle_margin, end ? 0.03 : 0.010) << k;
  }
  EXPECT_NEAR(score->tension, line.plan.standing.tension_near, 1e-6 * score->tension);
}

TEST(LayoutJudge, GivesTheSameForLengthsAsForTheSlackThatMadeThem) {
  const Planned line = planned(short_rig());
  LayoutJudge judge(line.rig, line.plan);
  const Layout layout = layout_of(line.plan);
  const auto asked = judge.judge(layout);
  const auto loops = judge.loop_lengths(layout);
  ASSERT_TRUE(asked && loops);
  const auto cut = judge.judge_as_cut(layout.bays, *loops);
  ASSERT_TRUE(cut);
  EXPECT_NEAR(cut->return_mean, asked->return_mean, 1e-4);
  EXPECT_NEAR(cut->drop[1], asked->drop[1], 1e-5);
}

TEST(LayoutJudge, RefusesLayoutsThatDoNotFit) {
  const Planned line = planned(short_rig());
  LayoutJudge judge(line.rig, line.plan);
  EXPECT_THROW((void)judge.judge({{1.0, 2.0}, {0.01}}), InputError);
  EXPECT_THROW((void)with_layout(line.rig, {{1.0, -2.0}, {0.01, 0.01}}), InputError);
}

}  // namespace
}  // namespace spanloom
