// Full-size shakes as a search sees them, against the full reckoning of a shake.
#include "spacing/moved_return.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>

#include "base/constants.h"
#include "motion/shake_report.h"
#include "support/planned.h"
#include "support/short_rig.h"

namespace spanloom {
namespace {

Rig with_slack() {
  Rig rig = short_rig();
  rig.backup.amount = SlackShare{{kShortSlack}};
  return rig;
}

TEST(JudgedShakes, CoverEveryThirdOctaveOnceAndThePlacesInTurn) {
  const Rig rig = short_rig();
  const std::vector<Shake> shakes = judged_shakes(rig);
  const std::vector<double> octaves = third_octaves();
  ASSERT_EQ(shakes.size(), octaves.size());
  EXPECT_EQ(octaves.front(), 0.5);
  EXPECT_EQ(octaves.back(), 4.0);
  const double places[] = {0.15, 0.35, 0.5};
  for (std::size_t i = 0; i < shakes.size(); ++i) {
    EXPECT_EQ(shakes[i].frequency, octaves[i]);
    EXPECT_EQ(shakes[i].place, places[i % 3]);
    EXPECT_EQ(shakes[i].direction, ShakeDirection::sideways);
    EXPECT_EQ(shakes[i].first_swing, rig.shake.swing.value);
  }
}

TEST(JudgedShakes, AreFastFromOneAndAQuarterHertzUp) {
  const MovedJudge moved(short_rig());
  const auto shakes = judged_shakes(short_rig());
  EXPECT_EQ(moved.shakes(ShakeSet::all), shakes.size());
  const auto fast = std::count_if(shakes.begin(), shakes.end(), [](const Shake& shake) { return shake.frequency >= 1.25; });
  EXPECT_EQ(moved.shakes(ShakeSet::fast), std::size_t(fast));
}

// A loop pulls H = w l^2 / 8 d on itself. Softer by 1 / EA' - 1 / EA it is longer by H l times that, and a loop longer by e
// hangs deeper by 3 l e / (16 d) (parabola; Irvine 1981, Cable Structures, from memory).
TEST(SoftBackup, HangsDeeperByWhatItsOwnWeightStretchesItAndNoMore) {
  const Rig rig = with_slack(), soft = with_soft_backup(rig);
  const MovingOutcome own = moving_rig(rig), softened = moving_rig(soft);
  ASSERT_TRUE(own.rig && softened.rig);
  const double mass = 0.055, stiff = 120e3, soft_stiff = 800.0 * 800.0 * mass;
  for (std::size_t k = 0; k < own.rig->drop.size(); ++k) {
    const double l = own.rig->bay_length[k], d = own.rig->drop[k];
    const double longer = mass * kGravity * l * l / (8.0 * d) * l * (1.0 / soft_stiff - 1.0 / stiff);
    const double deeper = 3.0 * l / (16.0 * d) * longer;
    EXPECT_NEAR(softened.rig->drop[k] - d, deeper, 0.1 * deeper) << k;
    EXPECT_LT(deeper, 0.5e-3);
  }
}

TEST(SoftBackup, WithDropsAskedForHangsTheSame) {
  const MovingOutcome own = moving_rig(short_rig()), softened = moving_rig(with_soft_backup(short_rig()));
  ASSERT_TRUE(own.rig && softened.rig);
  for (std::size_t k = 0; k < own.rig->drop.size(); ++k) EXPECT_NEAR(softened.rig->drop[k], own.rig->drop[k], 1e-6) << k;
  EXPECT_NEAR(softened.rig->round_trip, own.rig->round_trip, 2e-5 * own.rig->round_trip);
}

TEST(SoftBackup, LeavesTheMainAndWhatIsSoftAlready) {
  Rig rig = short_rig();
  const Rig soft = with_soft_backup(rig);
  EXPECT_EQ(soft.main.run.segments.front().webbing, rig.main.run.segments.front().webbing);
  EXPECT_NEAR(soft.webbings[soft.backup.run.segments.front().webbing].curve.stiffness(100.0), 35.2e3, 1.0);
  EXPECT_EQ(soft.webbings[soft.backup.run.segments.front().webbing].loss, rig.webbings[1].loss);
  rig.webbings[1].curve = StretchCurve::linear(20e3);
  EXPECT_EQ(with_soft_backup(rig).webbings.size(), rig.webbings.size());
}

TEST(MovedJudge, CountsRoundTripsOfTheRigOnEveryLine) {
  const MovedJudge moved(with_slack());
  ASSERT_TRUE(moved.stands());
  const Layout two{{5.2, 5.2, 5.27}, {0.01, 0.02, 0.01}}, many{std::vector<double>(10, 1.567), std::vector<double>(10, 0.01)};
  const auto a = moved.line(two), b = moved.line(many);
  ASSERT_TRUE(a && b);
  EXPECT_EQ(a->round_trip, b->round_trip);
  EXPECT_EQ(a->bays(), 3u);
  EXPECT_EQ(b->bays(), 10u);
}

// Both are draws of the same chaotic motion, one of a softer backup on a coarser mesh in longer steps.
TEST(MovedJudge, SeesWhatTheFullReckoningOfTheSameShakesReturns) {
  const Rig rig = with_slack();
  const MovedJudge moved(rig);
  const MovingOutcome own = moving_rig(rig);
  const auto line = moved.line(layout_of(planned(rig).plan));
  ASSERT_TRUE(own.rig && line);
  const MovedReturn seen = moved.shake(*line, ShakeSet::all);
  const std::vector<Shake> shakes = judged_shakes(rig);
  ASSERT_EQ(seen.each.size(), shakes.size());
  EXPECT_EQ(seen.shakes, shakes.size());
  EXPECT_EQ(seen.without, 0u);
  double mean = 0.0;
  for (std::size_t i = 0; i < shakes.size(); ++i) {
    const ShakeOutcome full = run_shake(*own.rig, shakes[i]);
    ASSERT_TRUE(full.result) << full.why.words;
    mean += full.result->returned / double(shakes.size());
    EXPECT_NEAR(seen.each[i], full.result->returned, 0.1) << shakes[i].frequency;
  }
  EXPECT_NEAR(seen.mean, mean, 0.02);
}

TEST(MovedJudge, ShakesTheFastOnesOfAllAlike) {
  const MovedJudge moved(with_slack());
  const auto line = moved.line(layout_of(planned(with_slack()).plan));
  ASSERT_TRUE(line);
  const MovedReturn all = moved.shake(*line, ShakeSet::all), fast = moved.shake(*line, ShakeSet::fast);
  EXPECT_EQ(fast.each, std::vector<double>(all.each.end() - std::ptrdiff_t(fast.each.size()), all.each.end()));
  EXPECT_EQ(fast.worst, *std::max_element(fast.each.begin(), fast.each.end()));
}

TEST(MovedJudge, GivesEachRoundOtherCrewsAndTheSameOnesAgain) {
  const Layout layout = layout_of(planned(with_slack()).plan);
  const MovedJudge moved(with_slack(), 4), again(with_slack(), 4), other(with_slack(), 5);
  const MovedReturn first = moved.shake_as_taped(layout, ShakeSet::fast, 0);
  EXPECT_EQ(first.each, again.shake_as_taped(layout, ShakeSet::fast, 0).each);
  EXPECT_NE(first.each, moved.shake_as_taped(layout, ShakeSet::fast, 1).each);
  EXPECT_NE(first.each, other.shake_as_taped(layout, ShakeSet::fast, 0).each);
}

TEST(MovedJudge, WithoutErrorsCutsTheLineAsPlanned) {
  const Planned line = planned(with_slack());
  const MovedJudge moved(line.rig, 1, {0.0, 0.0});
  const Layout layout = layout_of(line.plan);
  const auto as_planned = moved.line(layout);
  ASSERT_TRUE(as_planned);
  const auto cut = moved.line(taped_by(0, layout, loop_lengths_of(as_planned->mesh.line), {0.0, 0.0}, 1));
  ASSERT_TRUE(cut);
  for (std::size_t k = 0; k < cut->drop.size(); ++k) EXPECT_NEAR(cut->drop[k], as_planned->drop[k], 1e-4) << k;
}

MovedReturn round_of(std::vector<double> each, std::vector<std::size_t> over) {
  MovedReturn round;
  round.without = std::size_t(std::count_if(each.begin(), each.end(), [](double returned) { return returned < 0.0; }));
  round.shakes = each.size() - round.without;
  round.each = std::move(each);
  round.over = std::move(over);
  return round;
}

TEST(MeanOfRounds, IsThatOfWhatGaveANumberShakeByShake) {
  const MovedReturn mean = mean_of({round_of({0.2, -1.0, -1.0}, {3, 1}), round_of({0.4, 0.9, -1.0}, {3})});
  ASSERT_EQ(mean.each.size(), 3u);
  EXPECT_NEAR(mean.each[0], 0.3, 1e-12);
  EXPECT_NEAR(mean.each[1], 0.9, 1e-12);
  EXPECT_LT(mean.each[2], 0.0);
  EXPECT_NEAR(mean.mean, 0.6, 1e-12);
  EXPECT_NEAR(mean.worst, 0.9, 1e-12);
  EXPECT_EQ(mean.shakes, 3u);
  EXPECT_EQ(mean.without, 3u);
  EXPECT_EQ(mean.over, (std::vector<std::size_t>{1, 3}));
  EXPECT_EQ(mean_of({}).mean, 0.0);
}

}  // namespace
}  // namespace spanloom
