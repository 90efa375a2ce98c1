// What the gauge makes of readings that are exactly those of a line, and of readings that are not.
#include <gtest/gtest.h>

#include <cmath>

#include "base/input_error.h"
#include "gauge/loops_as_hung.h"
#include "support/gauged_rig.h"

namespace spanloom {
namespace {

constexpr double kTrue = 2200.0;  // where 2500 N was planned [N]

const Hanging& hanging() {
  static const Hanging made(short_rig(), short_readings());
  return made;
}

Readings exact() {
  static const Readings made =
      as_foretold(short_readings(), hanging(), hanging().hanger.hang(hanging().state(kTrue)).value());
  return made;
}

GaugeReport report_of(const Readings& readings) {
  GaugeOutcome outcome = gauge(hanging().of.rig, hanging().of.plan, readings);
  if (!outcome.report) throw std::runtime_error(outcome.why);
  return std::move(*outcome.report);
}

const GaugeReport& report_of_exact() {
  static const GaugeReport made = report_of(exact());
  return made;
}

TEST(Gauge, FindsTheTensionOfReadingsThatAreExact) {
  const GaugeReport& report = report_of_exact();
  EXPECT_NEAR(report.tension, kTrue, 2e-3 * kTrue);
  EXPECT_LT(report.interval.low, kTrue);
  EXPECT_GT(report.interval.high, kTrue);
  EXPECT_LT(report.misfit, 0.05);
  ASSERT_EQ(report.by.size(), 4u);
  for (const MethodTension& by : report.by) EXPECT_NEAR(by.tension, kTrue, 5e-3 * kTrue) << name_of(by.method);
}

TEST(Gauge, IsSurerByAllMethodsTogetherThanByAnyAlone) {
  const GaugeReport& report = report_of_exact();
  for (const MethodTension& by : report.by) EXPECT_LT(report.tension_sd, by.sd) << name_of(by.method);
}

TEST(Gauge, TellsToPullInWhatTheMainIsTooLong) {
  const GaugeReport& report = report_of_exact();
  EXPECT_EQ(report.advice, MainAdvice::pull_in);
  // Pulled in by so much, the line stands at the planned tension: main lengths of the plans tell.
  const double planned = hanging().of.plan.standing.main_natural_length;
  EXPECT_NEAR(report.pull, report.plan.standing.main_natural_length - planned, 2e-3);
  EXPECT_GT(report.pull, 0.01);
  EXPECT_GT(report.pull_stretched, report.pull);
}

TEST(Gauge, PlansAndChecksTheLineAsItHangs) {
  const GaugeReport& report = report_of_exact();
  EXPECT_NEAR(report.plan.standing.tension_near, report.tension, 1e-6 * report.tension);
  EXPECT_EQ(report.checks.size(), judge(hanging().of.rig, hanging().of.plan).size());
  EXPECT_GT(report.plan.standing.sag, hanging().of.plan.standing.sag);
}

TEST(Gauge, NamesAnOutlierAndLeavesItOut) {
  Readings readings = exact();
  readings.sags[0].sag += 0.4;   // read off the wrong mark
  const GaugeReport report = report_of(readings);
  EXPECT_NEAR(report.tension, kTrue, 0.05 * kTrue);
  ASSERT_EQ(report.readings.size(), 4u);
  for (const GaugedReading& reading : report.readings) EXPECT_EQ(reading.left_out, reading.method == GaugeMethod::sag) << reading.words;
  EXPECT_NE(report.advice, MainAdvice::read_again);
}

TEST(Gauge, DoesNotChooseBetweenTwoReadingsThatContradictEachOther) {
  Readings readings = exact();
  readings.pulses.clear(), readings.frequencies.clear();
  readings.sags[0].sag += 0.15;
  const GaugeReport report = report_of(readings);
  for (const GaugedReading& reading : report.readings) EXPECT_FALSE(reading.left_out);
  EXPECT_EQ(report.advice, MainAdvice::read_again);
  // Birge's ratio: what is claimed is as much wider as the readings are apart.
  for (const MethodTension& by : report.by) EXPECT_TRUE(by.tension < report.interval.high && by.tension > report.interval.low);
}

TEST(Gauge, RefusesALineThatIsNoMoreTheOneOfTheFile) {
  Readings readings = exact();
  readings.pulses.clear(), readings.frequencies.clear();
  readings.sags[0].sag += 0.4;   // no webbing that is known to 5 % stretches so
  const GaugeOutcome outcome = gauge(hanging().of.rig, hanging().of.plan, readings);
  EXPECT_FALSE(outcome.report);
  EXPECT_NE(outcome.why.find("no line like the file's"), std::string::npos) << outcome.why;
}

TEST(Gauge, AsksForSomethingBesidesACountAlone) {
  Readings readings = exact();
  readings.sags.clear(), readings.frequencies.clear(), readings.marks.clear();
  readings.pulses[0].timing_sd = given(0.002);
  readings.pulses[0].length = given(0.01);
  EXPECT_EQ(report_of(readings).advice, MainAdvice::measure_more);
  Readings marks = exact();
  marks.sags.clear(), marks.frequencies.clear(), marks.pulses.clear();
  const GaugeReport report = report_of(marks);
  ASSERT_FALSE(report.notes.empty());
  EXPECT_NE(report.notes.back().find("Only marks"), std::string::npos) << report.notes.back();
}

TEST(Gauge, DoesNotTakeTheSideOfHalfTheReadings) {
  Readings readings;
  for (const double standing : {2.040, 2.040, 2.060, 2.060}) readings.marks.push_back({5.5, 2.0, standing, given(0.001)});
  const GaugeReport report = report_of(readings);
  for (const GaugedReading& reading : report.readings) EXPECT_FALSE(reading.left_out);
  EXPECT_TRUE(report.torn);
  EXPECT_EQ(report.advice, MainAdvice::read_again);
}

TEST(Gauge, GivesNoAnswerThatIsOpenToBothSides) {
  Readings readings = exact();
  readings.sags.clear(), readings.frequencies.clear(), readings.marks.clear();
  readings.pulses[0].timing_sd = given(0.4);
  const GaugeOutcome outcome = gauge(hanging().of.rig, hanging().of.plan, readings);
  EXPECT_FALSE(outcome.report);
  EXPECT_NE(outcome.why.find("leave the tension open"), std::string::npos) << outcome.why;
}

TEST(Gauge, DoesNotBelieveAReadingAloneThatNoTensionExplains) {
  Readings readings;
  readings.pulses.push_back({1.5, 3, {0.05}, given(0.01), given(0.005)});   // a tenth of the time it takes
  const GaugeOutcome outcome = gauge(hanging().of.rig, hanging().of.plan, readings);
  EXPECT_FALSE(outcome.report);
  EXPECT_FALSE(outcome.why.empty());
}

TEST(Gauge, AsksForMoreReadingsWhereItCannotTell) {
  Readings readings = exact();
  readings.sags.clear(), readings.frequencies.clear(), readings.marks.clear();
  readings.pulses[0].timing_sd = given(0.05);
  EXPECT_EQ(report_of(readings).advice, MainAdvice::measure_more);
}

TEST(Gauge, SaysThatNoTensionExplainsAnAbsurdReading) {
  Readings readings;
  readings.sags = {{8.0, 70.0, 6.0, SagFrom::anchors, given(0.01)}};
  const GaugeOutcome outcome = gauge(hanging().of.rig, hanging().of.plan, readings);
  EXPECT_FALSE(outcome.report);
  EXPECT_NE(outcome.why.find("no tension between"), std::string::npos) << outcome.why;
}

TEST(Gauge, LeavesOutATimingThatIsASlip) {
  Readings readings = exact();
  const double time = readings.pulses[0].times[0];
  readings.pulses[0].times = {time, time + 0.02, time - 0.02, time + 1.0};
  const GaugeReport report = report_of(readings);
  EXPECT_NEAR(report.readings[0].read, time, 1e-9);
  ASSERT_FALSE(report.readings[0].notes.empty());
}

TEST(GaugeOfLoops, WithoutDropsKeepsThePlan) {
  for (const GaugedLoop& loop : report_of_exact().loops) {
    EXPECT_NEAR(loop.let_in, 0.0, 1e-9);
    EXPECT_NEAR(loop.length_sd, std::hypot(0.02, 0.003 * loop.length), 2e-4);
    EXPECT_FALSE(loop.retape);
  }
}

TEST(GaugeOfLoops, FindsALoopThatWasTapedTooShort) {
  Readings readings = exact();
  LineHanger short_loop = hanging().hanger;
  std::vector<double> lengths = short_loop.rigged().loop_length;
  lengths[3] -= 0.012;
  short_loop.set_loops(lengths);
  const HungLine hung = short_loop.hang(hanging().state(kTrue), {16, 16}).value();
  const std::vector<double> drops = hung.drops();
  for (const std::size_t bay : {2u, 3u, 4u}) readings.drops.push_back({bay, drops[bay], given(0.003)});
  const GaugeReport report = report_of(readings);
  EXPECT_NEAR(report.loops[3].let_in, 0.012, 0.002);
  EXPECT_TRUE(report.loops[3].retape);
  EXPECT_NEAR(report.loops[3].drop, drops[3], 0.002);
  EXPECT_FALSE(report.loops[2].retape);
  EXPECT_LT(report.loops[2].length_sd, 0.005);       // read
  EXPECT_GT(report.loops[7].length_sd, 0.015);       // not read: hardly surer than the prior
}

// Two unknowns, one reading: the normal posterior by hand. Prior variances p + q each, covariance q, reading noise r of the
// first: mean of the second is q / (p + q + r) times the reading, its variance p + q - q^2 / (p + q + r)
// (Rasmussen & Williams 2006, eq. A.6).
TEST(GaugeOfLoops, LetsALoopThatWasReadSpeakForTheOthersAsThePriorSays) {
  GaugePrior prior = usual_prior();
  prior.loop_sd = given(0.005);
  prior.all_loops_sd = given(0.006);
  const HungState state = hanging().state(kTrue);
  const HungLine hung = hanging().hanger.hang(state, {16, 16}).value();
  const double read = hung.drops()[4] + 0.03;
  const auto loops = loops_as_hung(hanging().hanger, state, {{4, read, given(1e-5)}}, prior).value();
  const double length = loops[4].length, p = 0.005 * 0.005, q = 0.006 * 0.006 * length * length;
  const double longer = -loops[4].let_in;
  EXPECT_GT(longer, 0.001);
  EXPECT_NEAR(-loops[5].let_in, longer * q / (p + q), 0.02 * longer);
  EXPECT_NEAR(loops[5].length_sd, std::sqrt(p + q - q * q / (p + q)), 0.02 * loops[5].length_sd);
}

TEST(GaugeOfLoops, OfSliderRingsFindsTheLengthOfTheWholeBackup) {
  Rig rig = short_rig();
  rig.backup.joint = Joint::ring;
  const Hanging ringed(rig, short_readings());
  LineHanger longer = ringed.hanger;
  std::vector<double> lengths = longer.rigged().loop_length;
  for (double& length : lengths) length *= 1.002;
  longer.set_loops(lengths);
  const HungState state = ringed.state(2500.0);
  const std::vector<double> drops = longer.hang(state, {16, 16}).value().drops();
  const auto loops = loops_as_hung(ringed.hanger, state, {{2, drops[2], given(0.001)}, {6, drops[6], given(0.001)}}, usual_prior());
  ASSERT_TRUE(loops);
  for (std::size_t k = 0; k < loops->size(); ++k) EXPECT_NEAR((*loops)[k].length / lengths[k], 1.0, 1e-4);
}

TEST(GaugeInput, NamesTheReadingThatCannotBeOfThisRig) {
  const auto key_of = [](auto change) {
    Readings readings = exact();
    change(readings);
    try {
      (void)gauge(hanging().of.rig, hanging().of.plan, readings);
    } catch (const InputError& error) {
      return error.problems()[0].key;
    }
    return std::string("none");
  };
  EXPECT_EQ(key_of([](Readings& r) { r.pulses[0].at = 17.0; }), "pulse[0].at");
  EXPECT_EQ(key_of([](Readings& r) { r.pulses[0].round_trips = 1.5; }), "pulse[0].round_trips");
  EXPECT_EQ(key_of([](Readings& r) { r.sags[0].mass = -1.0; }), "sag[0].weight");
  EXPECT_EQ(key_of([](Readings& r) { r.marks[0].standing = 1.9; }), "marks[0].standing");
  EXPECT_EQ(key_of([](Readings& r) { r.frequencies[0].times = {0.0}; }), "frequency[0].times");
  EXPECT_EQ(key_of([](Readings& r) { r.drops = {{9, 0.1, given(0.01)}}; }), "drop[0].bay");
  EXPECT_EQ(key_of([](Readings& r) { r.drops = {{1, 0.1, given(0.01)}, {1, 0.1, given(0.01)}}; }), "drop[1].bay");
  EXPECT_EQ(key_of([](Readings& r) { r.prior.mass_sd = given(0.9); }), "prior.mass");
  EXPECT_EQ(key_of([](Readings& r) { r = Readings{}; }), "readings");
}

}  // namespace
}  // namespace spanloom
