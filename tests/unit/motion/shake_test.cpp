#include "motion/shake_report.h"

#include <gtest/gtest.h>

#include <atomic>
#include <cmath>
#include <numbers>
#include <numeric>

#include "base/input_error.h"
#include "base/parallel.h"
#include "support/short_rig.h"

namespace spanloom {
namespace {

constexpr MotionMesh kCoarse{0.9, 0.45, 4};   // these tests ask whether, not how much

const MovingRig& short_line() {
  static const MovingRig rig = *moving_rig(short_rig(), kCoarse).rig;
  return rig;
}

TEST(MovingRig, StandsAsItsRigFileAsks) {
  const MovingRig& rig = short_line();
  EXPECT_NEAR(rig.tension, 2500.0, 1e-4);
  EXPECT_EQ(rig.bays(), 9u);
  for (const double drop : rig.drop) EXPECT_NEAR(drop, 0.12, 1e-6);
  EXPECT_NEAR(std::accumulate(rig.main_share.begin(), rig.main_share.end(), 0.0), 16.0, 0.01);
  // 60 g/m of main, unloaded 2 % shorter, and 55 g/m of backup about as long as the line.
  EXPECT_NEAR(rig.mass_per_length, 0.060 / (1.0 + 2500.0 / 120e3) + 0.055 * 1.0119, 5e-4);
  EXPECT_NEAR(rig.round_trip, 32.0 / std::sqrt(rig.tension / rig.mass_per_length), 1e-12);
}

TEST(EvenlyTaped, HasAsManyTapesAllTheBackupAndTheSameTension) {
  Rig uneven = short_rig();
  uneven.spacing.pattern = TapesAt{{1.2, 3.6, 4.9, 7.0, 8.2, 10.9, 12.0, 14.2}};
  uneven.backup.amount = SlackShare{{kShortSlack}};
  const MovingRig rig = *moving_rig(uneven, kCoarse).rig;
  const MovingOutcome even = evenly_taped(rig, kCoarse);
  ASSERT_TRUE(even.rig) << even.why;
  EXPECT_EQ(even.rig->bays(), rig.bays());
  EXPECT_NEAR(even.rig->tension, rig.tension, 1e-4);
  EXPECT_NEAR(even.rig->mass_per_length, rig.mass_per_length, 1e-5);
  const auto [least, most] = std::minmax_element(even.rig->drop.begin(), even.rig->drop.end());
  EXPECT_LT(*most - *least, 0.02 * *most);
  const auto [shortest, longest] = std::minmax_element(even.rig->bay_length.begin(), even.rig->bay_length.end());
  EXPECT_LT(*longest - *shortest, 1e-3);
}

TEST(WithoutLoops, IsTheMainAloneAtTheSameTension) {
  const MovingOutcome bare = without_loops(short_line());
  ASSERT_TRUE(bare.rig) << bare.why;
  EXPECT_FALSE(bare.rig->has_loops());
  EXPECT_NEAR(bare.rig->tension, 2500.0, 1e-3);
  EXPECT_NEAR(bare.rig->mass_per_length, 0.060 / (1.0 + 2500.0 / 120e3), 1e-6);
  double mass = 0.0;
  for (const double m : bare.rig->line.mass) mass += m;
  EXPECT_NEAR(mass, 0.060 * 16.0 / (1.0 + 2500.0 / 120e3), 0.03);
}

TEST(Shake, MakesTheFirstSwingItWasAskedFor) {
  for (const ShakeDirection direction : {ShakeDirection::sideways, ShakeDirection::up}) {
    const ShakeOutcome outcome = run_shake(short_line(), {2.5, 0.15, direction, 0.06});
    ASSERT_TRUE(outcome.result) << outcome.why.words;
    EXPECT_NEAR(outcome.result->swing, 0.06, 0.03 * 0.06);
    EXPECT_NEAR(outcome.result->place_m, 0.15 * 16.0, 0.3);
    EXPECT_LT(std::abs(outcome.result->ledger.drift), kGreatestDrift * outcome.result->ledger.put_in);
    EXPECT_GT(outcome.result->returned, 0.0);
    EXPECT_LT(outcome.result->returned, 1.2);
  }
}

// A string without loss, plucked by one cycle, comes back whole: what it had in its first two round trips it has in
// all others. R compares one window with another, so a bare line's return must not fall in time as a looped one's.
TEST(Shake, ComesBackFromABareMainAndHardlyFromManyLoops) {
  const MovingRig bare = *without_loops(short_line()).rig;
  const Shake shake{2.5, 0.15, ShakeDirection::sideways, 0.1};
  const ShakeOutcome alone = run_shake(bare, shake), looped = run_shake(short_line(), shake);
  ASSERT_TRUE(alone.result && looped.result);
  EXPECT_GT(alone.result->returned, 1.5 * looped.result->returned);
}

TEST(Shake, KeepsAHistoryOfTheWholeMain) {
  const ShakeOutcome outcome = run_shake(short_line(), {2.5, 0.35, ShakeDirection::sideways, 0.05}, {true, 2.5});
  ASSERT_TRUE(outcome.result);
  const ShakeHistory& history = outcome.history;
  ASSERT_EQ(history.time.size(), history.displacement.size());
  EXPECT_EQ(history.along.size(), short_line().line.main_nodes);
  EXPECT_EQ(history.time.front(), 0.0);
  EXPECT_GE(history.time.back(), 2.5 - 1e-9);
  for (const std::vector<double>& row : history.displacement) {
    ASSERT_EQ(row.size(), history.along.size());
    EXPECT_EQ(row.front(), 0.0);
    EXPECT_EQ(row.back(), 0.0);
  }
}

TEST(Shake, SettlesSoonerThanAMinuteWhereThereIsAirAndLoss) {
  const ShakeOutcome outcome = run_shake(short_line(), {2.5, 0.15, ShakeDirection::sideways, 0.08});
  ASSERT_TRUE(outcome.result);
  const std::optional<Settling> settling = settling_of(short_line(), *outcome.result);
  ASSERT_TRUE(settling && settling->settles);
  EXPECT_GT(settling->time, 0.2);
  EXPECT_LT(settling->time, kLongestSettling);
  EXPECT_FALSE(settling_of(short_line(), *outcome.result, [] { return false; }));
}

TEST(SwingWatch, SeesALoopLevelAndALoopThatGoesOver) {
  const MovingRig& rig = short_line();
  SwingWatch watch(rig);
  // Places made by hand: every loop turned about the chord of its bay.
  const auto turned = [&](double angle) {
    std::vector<Vec3> places = rig.rest;
    for (std::size_t i = rig.line.main_nodes; i < places.size(); ++i) {
      const double below = rig.rest[rig.line.ties[0].main].z - places[i].z;
      places[i].y += below * std::sin(angle);
      places[i].z += below * (1.0 - std::cos(angle));
    }
    for (const Tie& tie : rig.line.ties) places[tie.backup] = places[tie.main];
    return places;
  };
  const auto look = [&](double angle) { watch.look(Motion(rig.line, turned(angle))); };
  look(0.0);
  EXPECT_LT(watch.loops()[4].greatest, 0.05);
  look(0.5 * std::numbers::pi);
  EXPECT_NEAR(watch.loops()[4].greatest, 0.5 * std::numbers::pi, 0.15);
  look(0.9 * std::numbers::pi);
  EXPECT_FALSE(watch.loops()[4].passes_over);
  look(1.1 * std::numbers::pi);
  EXPECT_TRUE(watch.loops()[4].passes_over);
}

TEST(SwingWatch, DoesNotCallItOverWhenALoopSwingsThroughBelow) {
  SwingWatch watch(short_line());
  for (const double y : {0.1, -0.1, 0.1}) {
    std::vector<Vec3> places = short_line().rest;
    for (std::size_t i = short_line().line.main_nodes; i < places.size(); ++i) places[i].y += y;
    for (const Tie& tie : short_line().line.ties) places[tie.backup] = places[tie.main];
    watch.look(Motion(short_line().line, places));
  }
  for (const LoopSwing& loop : watch.loops()) EXPECT_FALSE(loop.passes_over);
}

TEST(SwingInGust, GrowsWithTheGustAndIsLeftOutWithoutOne) {
  Rig rig = short_rig();
  EXPECT_TRUE(swing_in_gust(*moving_rig(rig, kCoarse).rig, UnitSystem::metric).why_not);
  rig.wind = wind_with_defaults();
  double before = 0.0;
  for (const double gust : {4.0, 8.0, 14.0}) {
    rig.wind->gust = gust;
    const SwingCase swing = swing_in_gust(*moving_rig(rig, kCoarse).rig, UnitSystem::metric);
    ASSERT_FALSE(swing.why_not) << *swing.why_not;
    ASSERT_EQ(swing.loops.size(), 9u);
    EXPECT_GT(swing.loops[4].greatest, before);
    before = swing.loops[4].greatest;
  }
}

TEST(SwingInBounce, HappensAtTheMiddleOfTheGapHoweverTheBaysLie) {
  Rig rig = short_rig();
  rig.spacing.pattern = TapesAt{{0.8, 1.6, 2.4, 3.2, 4.0, 4.8, 5.6, 10.0}};
  rig.backup.amount = SlackShare{{kShortSlack}};
  const MovingRig moving = *moving_rig(rig, kCoarse).rig;
  EXPECT_NEAR(moving.rest[moving.node_near(8.0)].x, 8.0, 0.5);
  const SwingCase swing = swing_in_bounce(moving, UnitSystem::metric);
  ASSERT_FALSE(swing.why_not) << *swing.why_not;
  ASSERT_EQ(swing.loops.size(), 9u);
  const auto most = std::max_element(swing.loops.begin(), swing.loops.end(), [](const LoopSwing& a, const LoopSwing& b) { return a.greatest < b.greatest; });
  EXPECT_GT(most->greatest, 0.0);
  EXPECT_LT(most->greatest, std::numbers::pi);
}

TEST(SwingInGust, IsStillWhereTheGustIsNoMoreThanStillAir) {
  Rig rig = short_rig();
  rig.wind = wind_with_defaults();
  rig.wind->gust = 0.0;
  const SwingCase swing = swing_in_gust(*moving_rig(rig, kCoarse).rig, UnitSystem::metric);
  ASSERT_FALSE(swing.why_not) << *swing.why_not;
  for (const LoopSwing& loop : swing.loops) EXPECT_LT(loop.greatest, 0.01);
}

TEST(MovingRig, StandsTheSameWithShacklesMadeSofter) {
  Rig rig = short_rig();
  for (WebbingRun* run : {&rig.main.run, &rig.backup.run}) {
    run->near_hardware = {"shackle", 0.25, 0.1, 40e3};
    run->far_hardware = {"shackle", 0.25, 0.1, 40e3};
  }
  rig.backup.amount = SlackShare{{kShortSlack}};
  const MovingRig moving = *moving_rig(rig, kCoarse).rig;
  Motion motion(moving.line, moving.rest);
  ASSERT_TRUE(motion.advance(1.0));
  for (std::size_t i = 0; i < motion.nodes(); ++i) EXPECT_LT(norm(motion.place(i) - moving.rest[i]), 1e-6);
  EXPECT_GT(longest_steady_step(moving.line, Scheme::leapfrog), 0.7 * longest_steady_step(short_line().line, Scheme::leapfrog));
}

TEST(ComparedLines, AreLookedAtOverTheRoundTripOfTheRig) {
  EXPECT_EQ(evenly_taped(short_line(), kCoarse).rig->round_trip, short_line().round_trip);
  EXPECT_EQ(without_loops(short_line()).rig->round_trip, short_line().round_trip);
}

TEST(ShakeReport, IsTheSameOnAnyNumberOfThreads) {
  const auto make = [](unsigned threads) {
    ShakeReportOptions options;
    options.quick = true;
    options.threads = threads;
    options.mesh = kCoarse;
    return *make_shake_report(short_rig(), options).report;
  };
  const ShakeReport one = make(1), three = make(3);
  ASSERT_EQ(one.shakes.size(), 30u);
  ASSERT_EQ(three.shakes.size(), one.shakes.size());
  for (std::size_t i = 0; i < one.shakes.size(); ++i) {
    EXPECT_EQ(one.shakes[i].result.returned, three.shakes[i].result.returned);
    EXPECT_EQ(one.shakes[i].result.ledger.put_in, three.shakes[i].result.ledger.put_in);
  }
  EXPECT_EQ(one.sentences, three.sentences);
  EXPECT_EQ(one.lateral, three.lateral);
  ASSERT_TRUE(one.lateral);
  EXPECT_FALSE(one.lateral->empty());
  EXPECT_FALSE(one.in_plane);  // not computed in a quick look
  EXPECT_TRUE(one.quick);
  EXPECT_TRUE(one.worst);
}

TEST(ShakeReport, StopsWhenToldToAndSaysSo) {
  ShakeReportOptions options;
  options.quick = true;
  options.mesh = kCoarse;
  options.progress = [](std::size_t done, std::size_t) { return done < 5; };
  const ShakeReportOutcome outcome = make_shake_report(short_rig(), options);
  ASSERT_TRUE(outcome.report);
  EXPECT_TRUE(outcome.report->stopped);
  EXPECT_LT(outcome.report->shakes.size(), 6u);
  EXPECT_TRUE(outcome.report->sentences.empty());  // from half the shakes nothing follows
  EXPECT_FALSE(outcome.report->worst);
}

TEST(ShakeReport, RefusesARigThatIsNone) {
  Rig rig = short_rig();
  rig.site.gap = -1.0;
  EXPECT_THROW((void)make_shake_report(rig), InputError);
}

TEST(InParallel, GivesEveryItemOnceAndStopsWhenAsked) {
  for (const unsigned threads : {1u, 4u}) {
    std::vector<std::atomic<int>> seen(1000);
    EXPECT_TRUE(in_parallel(seen.size(), threads, [&](std::size_t i) { ++seen[i]; }, {}));
    for (const std::atomic<int>& times : seen) EXPECT_EQ(times, 1);
    std::atomic<int> done = 0;
    EXPECT_FALSE(in_parallel(1000, threads, [&](std::size_t) { ++done; }, [](std::size_t n) { return n < 10; }));
    EXPECT_LT(done, 20);
  }
}

TEST(InParallel, HandsOnWhatAnItemThrows) {
  EXPECT_THROW(in_parallel(100, 3, [](std::size_t i) { if (i == 40) throw InputError("x", "y", "z"); }, {}), InputError);
}

}  // namespace
}  // namespace spanloom
