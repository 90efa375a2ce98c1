// Pull tests made by formula (tests/support/pull_sample.h), whose areas and lasting stretches are exact.
#include "webbing/pull_test.h"

#include <gtest/gtest.h>

#include <cmath>
#include <functional>
#include <numbers>
#include <random>

#include "base/input_error.h"
#include "support/pull_sample.h"

namespace spanloom {
namespace {

using fixture::made_pull;
using fixture::three_pulls;

std::string complaint(const std::function<void()>& work) {
  try {
    work();
  } catch (const InputError& error) {
    return error.problems()[0].key + ": " + error.problems()[0].read + ", " + error.problems()[0].expected;
  }
  return "";
}

bool notes(const PullTest& test, const std::string& words) {
  for (const std::string& note : test.notes) {
    if (note.find(words) != std::string::npos) return true;
  }
  return false;
}

std::vector<PullSample> with_noise(std::vector<PullSample> samples, double tension, double stretch) {
  std::mt19937 random(11);
  const auto draw = [&](double half) { return half * (2.0 * static_cast<double>(random()) / 4294967295.0 - 1.0); };
  for (PullSample& s : samples) s.tension += draw(tension), s.stretch += draw(stretch);
  return samples;
}

TEST(SplitIntoCycles, TurnsAtTheExtremesOnly) {
  std::vector<PullSample> samples;
  for (const double t : {0.0, 2.0, 1.5, 6.0, 10.0, 9.5, 9.8, 4.0, 0.5, 0.8, 5.0, 9.0}) samples.push_back({t, 0.0});
  const auto cycles = split_into_cycles(samples, 1.0);
  ASSERT_EQ(cycles.size(), 2u);
  EXPECT_EQ(cycles[0].from, 0u);
  EXPECT_EQ(cycles[0].peak, 4u);
  EXPECT_EQ(cycles[0].to, 8u);
  EXPECT_EQ(cycles[1].from, 8u);
  EXPECT_EQ(cycles[1].peak, 11u);
  EXPECT_EQ(cycles[1].to, 11u);  // ends loaded
}

TEST(SplitIntoCycles, LeavesOutWhatComesBeforeTheFirstLoading) {
  std::vector<PullSample> samples;
  for (const double t : {5.0, 3.0, 0.0, 4.0, 8.0}) samples.push_back({t, 0.0});
  const auto cycles = split_into_cycles(samples, 1.0);
  ASSERT_EQ(cycles.size(), 1u);
  EXPECT_EQ(cycles[0].from, 2u);
}

// A loop of straight lines: loading 1/2 x 10 kN x 0.1 = 500 N, unloading 1/2 x 8 kN x 0.1 = 400 N.
TEST(PullTest, FindsTheLossOfALoopOfStraightLines) {
  std::vector<PullSample> samples;
  for (int cycle = 0; cycle < 2; ++cycle) {
    for (int i = 0; i <= 100; ++i) samples.push_back({100.0 * i, 0.001 * i});
    for (int i = 100; i >= 0; --i) samples.push_back({80.0 * i, 0.001 * i});
  }
  const PullTest test = analyse_pull_test(samples);
  ASSERT_EQ(test.cycles.size(), 2u);
  ASSERT_TRUE(test.cycles[1].loss && test.loss);
  EXPECT_NEAR(*test.cycles[1].loss_of_loading, 0.2, 1e-12);
  EXPECT_NEAR(*test.loss, 100.0 / 450.0, 1e-12);
  for (const PointFound& p : test.points) EXPECT_NEAR(p.at.tension, 1e5 * p.at.stretch, 2.0);
}

// The steady harmonic cycle that `loss` is fitted to (engine/motion/loss.h) has an ellipse for a loop: it loses pi E'' a^2
// where 2 E' a^2 are taken up, pi/2 tan(delta). Between the turns of the tension, a little beside those of the stretch, the
// mean of both ways is 2 E' a^2 cos(delta): by hand.
TEST(PullTest, GivesAnEllipseTheLossThatTheMotionMeans) {
  const double e1 = 200e3, loss = 0.08, tan_delta = loss / (0.5 * std::numbers::pi), a = 0.04;
  std::vector<PullSample> samples;
  constexpr int kSteps = 2000;
  const double start = -std::atan(tan_delta);
  for (int i = 0; i <= 3 * kSteps; ++i) {
    const double phase = start + 2.0 * std::numbers::pi * i / kSteps;
    samples.push_back({e1 * a * (1.0 - std::cos(phase)) + e1 * tan_delta * a * std::sin(phase), a * (1.0 - std::cos(phase))});
  }
  const PullTest test = analyse_pull_test(samples);
  ASSERT_TRUE(test.loss);
  EXPECT_NEAR(*test.loss, loss * std::hypot(1.0, tan_delta), 1e-6);
  EXPECT_NEAR(*test.loss, loss, 0.002 * loss);
}

TEST(PullTest, FindsWhatStaysAfterEachCycle) {
  const PullTest test = analyse_pull_test(three_pulls());
  ASSERT_EQ(test.cycles.size(), 3u);
  const double stays[] = {0.010, 0.012, 0.0125}, more[] = {0.010, 0.002, 0.0005};
  for (int i = 0; i < 3; ++i) {
    EXPECT_TRUE(test.cycles[i].full);
    // A curved end read off by a straight line: up to 1 % of the load the power laws leave it 0.1 % of stretch.
    EXPECT_NEAR(*test.cycles[i].stretch_after, stays[i], 1e-3) << i;
    EXPECT_NEAR(*test.cycles[i].growth, more[i], 1e-3) << i;
  }
}

// Straight lines are read off exactly.
TEST(PullTest, FindsWhatStaysOfStraightLoopsToTheLastDigit) {
  const PullTest test = analyse_pull_test(made_pull({{0.0, 0.02, 0.1, 10e3, 1.0, 1.0}, {0.02, 0.025, 0.1, 10e3, 1.0, 1.0}}));
  EXPECT_NEAR(*test.cycles[0].stretch_after, 0.02, 1e-12);
  EXPECT_NEAR(*test.cycles[1].stretch_after, 0.025, 1e-12);
  EXPECT_NEAR(*test.cycles[1].growth, 0.005, 1e-12);
  EXPECT_NEAR(test.lengthened, 0.02, 1e-12);
  // 0.1 of the new length is (1.1 / 1.02 - 1) of the used one.
  EXPECT_NEAR(test.points.back().at.stretch, 1.1 / 1.02 - 1.0, 1e-5);
}

TEST(PullTest, TakesTheLastFullCycleUnlessAskedOtherwise) {
  auto samples = three_pulls();
  const auto part = made_pull({{0.0125, 0.0125, 0.06, 8e3}});
  samples.insert(samples.end(), part.begin(), part.end());
  const PullTest usual = analyse_pull_test(samples);
  EXPECT_EQ(usual.cycles.size(), 4u);
  EXPECT_FALSE(usual.cycles[3].full);
  EXPECT_EQ(usual.chosen, 2u);
  EXPECT_EQ(usual.settled, (std::vector<std::size_t>{2}));
  const PullTest first = analyse_pull_test(samples, {.cycle = 1});
  EXPECT_EQ(first.chosen, 0u);
  EXPECT_EQ(first.lengthened, 0.0);
  EXPECT_GT(first.points.back().at.stretch, usual.points.back().at.stretch);
}

TEST(PullTest, FollowsTheLoadingItsCurveIsOf) {
  const PullTest test = analyse_pull_test(three_pulls(), {.cycle = 1});
  EXPECT_LE(test.points.size(), 12u);
  for (int i = 1; i <= 100; ++i) {
    const double x = 0.01 * i;
    EXPECT_NEAR(test.curve.tension((1.0 + 0.110 * x) / (1.0 + test.read_without_load) - 1.0), 20e3 * std::pow(x, 1.3), 200.0) << x;
  }
  EXPECT_LT(test.residual_rms, 0.003 * 20e3);
  EXPECT_GE(test.greatest_miss, test.residual_rms);
}

TEST(PullTest, TellsTheNoiseAsResidual) {
  // Even noise of +-300 N has an rms of 173 N.
  const PullTest test = analyse_pull_test(with_noise(three_pulls(), 300.0, 0.0));
  EXPECT_NEAR(test.residual_rms, 173.0, 25.0);
  EXPECT_EQ(test.cycles.size(), 3u);
  EXPECT_NEAR(*test.loss, *analyse_pull_test(three_pulls()).loss, 0.01);
}

TEST(PullTest, TellsHowMuchSettledCyclesDiffer) {
  // The third pull carries 5 % more at any stretch than the second.
  const PullTest test = analyse_pull_test(made_pull({{0.0, 0.0, 0.1, 20e3}, {0.0, 0.0, 0.1, 20e3}, {0.0, 0.0, 0.1, 21e3}}));
  for (const PointFound& p : test.points) {
    ASSERT_TRUE(p.least && p.greatest);
    EXPECT_NEAR(*p.greatest / *p.least, 1.05, 0.01) << p.at.tension;
  }
}

TEST(PullTest, SaysWhereThePreloadHidesTheBeginning) {
  std::vector<PullSample> samples;
  for (const PullSample& s : made_pull({{0.0, 0.0, 0.1, 10e3, 1.0, 1.1}, {0.0, 0.0, 0.1, 10e3, 1.0, 1.1}})) {
    if (s.tension >= 500.0) samples.push_back(s);
  }
  const PullTest test = analyse_pull_test(samples);
  EXPECT_NEAR(test.lowest_tension, 500.0, 60.0);
  EXPECT_TRUE(notes(test, "straight line"));
  // The loading is straight, so its continuation is right.
  EXPECT_NEAR(test.points.back().at.stretch, 0.1, 1e-4);
}

TEST(PullTest, SaysThatSomethingSlipped) {
  auto samples = made_pull({{0.0, 0.0, 0.1}, {0.0, 0.0, 0.1}});
  EXPECT_FALSE(notes(analyse_pull_test(samples), "slipped"));
  for (std::size_t i = 500; i < 520; ++i) samples[i].tension -= 1200.0;  // in the second loading, over two millistretch
  EXPECT_TRUE(notes(analyse_pull_test(samples), "slipped"));
}

TEST(PullTest, SaysWhatOneCycleCannotTell) {
  const PullTest one = analyse_pull_test(made_pull({{0.0, 0.01, 0.1}}));
  EXPECT_TRUE(notes(one, "loss is that of the first cycle"));
  EXPECT_FALSE(one.points[0].least);
  auto loading = made_pull({{0.0, 0.01, 0.1}});
  loading.resize(201);
  const PullTest only_up = analyse_pull_test(loading);
  EXPECT_FALSE(only_up.loss);
  EXPECT_TRUE(notes(only_up, "No loss"));
}

TEST(PullTest, RefusesWhatIsNoPullTest) {
  EXPECT_NE(complaint([] { analyse_pull_test({{1000.0, 0.01}}); }).find("1 row,"), std::string::npos);
  EXPECT_NE(complaint([] { analyse_pull_test({}); }).find("0 rows"), std::string::npos);
  std::vector<PullSample> falling, still;
  for (int i = 0; i < 50; ++i) falling.push_back({5000.0 - 100.0 * i, 0.1 - 0.002 * i});
  EXPECT_NE(complaint([&] { analyse_pull_test(falling); }).find("no loading"), std::string::npos);
  for (int i = 0; i < 50; ++i) still.push_back({100.0 * i, 0.02});
  EXPECT_NE(complaint([&] { analyse_pull_test(still); }).find("does not rise"), std::string::npos);
  for (PullSample& s : still) s.stretch -= 1e-4 * s.tension / 100.0;
  EXPECT_NE(complaint([&] { analyse_pull_test(still); }).find("does not rise"), std::string::npos);
  for (PullSample& s : still) s.tension = -s.tension;
  EXPECT_NE(complaint([&] { analyse_pull_test(still); }).find("no tension above 1 N"), std::string::npos);
}

TEST(PullTest, NamesTheRowThatCannotBe) {
  auto samples = three_pulls();
  samples[7].stretch = 9.0;
  samples[9].tension = -5e3;
  samples[11].tension = NAN;
  try {
    analyse_pull_test(samples);
    FAIL();
  } catch (const InputError& error) {
    ASSERT_EQ(error.problems().size(), 3u);
    EXPECT_EQ(error.problems()[0].key, "[7]");
    EXPECT_EQ(error.problems()[1].key, "[9]");
    EXPECT_EQ(error.problems()[2].key, "[11]");
  }
}

TEST(PullTest, TellsAWrongUnitOnce) {
  auto samples = three_pulls();
  for (PullSample& s : samples) s.stretch *= 100.0;
  try {
    analyse_pull_test(samples);
    FAIL();
  } catch (const InputError& error) {
    ASSERT_EQ(error.problems().size(), 1u);
    EXPECT_NE(error.problems()[0].read.find("more rows like it"), std::string::npos) << error.problems()[0].read;
  }
}

TEST(PullTest, RefusesACycleThatIsNotThereOrStartsLoaded) {
  EXPECT_NE(complaint([] { analyse_pull_test(three_pulls(), {.cycle = 4}); }).find("cycle: 4, one of the cycles 1 to 3"), std::string::npos);
  EXPECT_NE(complaint([] { analyse_pull_test(three_pulls(), {.cycle = 0}); }).find("cycle: 0"), std::string::npos);
  std::vector<PullSample> high;
  for (const PullSample& s : made_pull({{0.0, 0.0, 0.1}, {0.0, 0.0, 0.1}})) {
    if (high.size() < 201 || s.tension > 8e3) high.push_back(s);
  }
  EXPECT_NE(complaint([&] { analyse_pull_test(high, {.cycle = 2}); }).find("starts at 8."), std::string::npos);
}

}  // namespace
}  // namespace spanloom
