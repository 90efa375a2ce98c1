#include "sheet/shake_text.h"

#include <gtest/gtest.h>

#include <sstream>

#include "plan_fixture.h"
#include "sheet/text_table.h"
#include "support/shake_sample.h"

namespace spanloom {
namespace {

using fixture::quick_sample;
using fixture::shake_sample;

std::string text_of(const ShakeReport& report, UnitSystem units = UnitSystem::metric) {
  const auto [rig, plan, checks] = fixture::sample();
  return shake_text(rig, report, checks, {"heron-gorge.toml", "0.1.0", "2026-05-01", units});
}

// With line breaks and indents taken out, so that sentences are found whole.
std::string words_of(const std::string& text) {
  std::istringstream in(text);
  std::string words;
  for (std::string word; in >> word;) words += word + ' ';
  return words;
}

bool says(const std::string& text, const std::string& words) { return words_of(text).find(words) != std::string::npos; }

TEST(ShakeText, NeverRunsWiderThanEightyColumns) {
  for (const UnitSystem units : {UnitSystem::metric, UnitSystem::us}) {
    std::istringstream lines(text_of(shake_sample(), units));
    for (std::string line; std::getline(lines, line);) EXPECT_LE(column_count(line), kTextColumns) << line;
  }
}

TEST(ShakeText, StartsWithWhatItMeans) {
  const std::string text = text_of(shake_sample());
  const std::size_t worst = text.find("Worst case: a sideways shake"), table = text.find("Return of a sideways shake");
  ASSERT_NE(worst, std::string::npos);
  ASSERT_NE(table, std::string::npos);
  EXPECT_LT(worst, table);
  EXPECT_TRUE(says(text, "Upwards, tapes make no difference."));
  const std::size_t wrapped = text.find("In the sideways shakes of this report");
  EXPECT_LT(worst, wrapped);
  EXPECT_LT(wrapped, table);
}

TEST(ShakeText, PrintsMeanAndWorstOfTheReturnsAsWholePercent) {
  const ShakeReport report = shake_sample();
  std::string row = "2 Hz";
  for (const ComparedLine line : {ComparedLine::rig, ComparedLine::even, ComparedLine::bare}) {
    double sum = 0.0, worst = 0.0;
    for (const double place : report.places) {
      sum += fixture::sample_return(line, 2.0, place);
      worst = std::max(worst, fixture::sample_return(line, 2.0, place));
    }
    row += ' ' + std::to_string(std::lround(100.0 * sum / 3.0)) + ' ' + std::to_string(std::lround(100.0 * worst));
  }
  EXPECT_TRUE(says(text_of(report), row)) << row;
}

TEST(ShakeText, SaysHowMoreThanAHundredCanComeBack) {
  EXPECT_TRUE(says(text_of(shake_sample()), "More than 100 can be: while the shake lasts"));
}

TEST(ShakeText, PrintsADashWhereThereIsNoNumber) {
  ShakeReport report = shake_sample({ComparedLine::rig}, {ShakeDirection::sideways});
  std::erase_if(report.shakes, [](const ReportedShake& shake) { return shake.result.shake.frequency == 2.0; });
  EXPECT_TRUE(says(text_of(report), "2 Hz - -"));
}

TEST(ShakeText, LeavesOutLinesAndDirectionsThatWereNotShaken) {
  const std::string all = text_of(shake_sample()), text = text_of(quick_sample());
  EXPECT_NE(text.find("Return of a sideways shake"), std::string::npos);
  EXPECT_EQ(text.find("Return of a shake upwards"), std::string::npos);
  EXPECT_TRUE(says(all, "frequency rig mean rig worst even mean even worst bare mean bare worst"));
  EXPECT_TRUE(says(text, "frequency rig mean rig worst 0.5 Hz"));
  for (const char* explained : {"evenly taped: as many", "the main alone, no loops"}) {
    EXPECT_TRUE(says(all, explained)) << explained;
    EXPECT_FALSE(says(text, explained)) << explained;
  }
}

TEST(ShakeText, SaysUnderTheTitleThatALookWasQuickAndWhatWasLeftOut) {
  const std::string text = text_of(quick_sample());
  EXPECT_LT(words_of(text).find("QUICK LOOK: this rig alone, shaken sideways only."), words_of(text).find("Shake: "));
  EXPECT_TRUE(says(text, "up not computed in a quick look"));
  EXPECT_TRUE(says(text, "gust and bounce: not computed in a quick look."));
  EXPECT_EQ(text.find("none below 5 Hz"), std::string::npos);
  EXPECT_EQ(text_of(shake_sample()).find("uick look"), std::string::npos);
}

TEST(ShakeText, TellsNaturalFrequenciesThatAreNotThereFromThoseNotComputed) {
  ShakeReport report = shake_sample();
  report.lateral = std::vector<double>{};
  report.in_plane = std::nullopt;
  const std::string text = text_of(report);
  EXPECT_TRUE(says(text, "sideways none below 5 Hz"));
  EXPECT_TRUE(says(text, "up not computed, see the notes"));
}

// The sample's drift is 4e-4 J of 2 J put in.
TEST(ShakeText, SaysInPercentHowWellTheEnergyAddsUp) {
  EXPECT_TRUE(says(text_of(shake_sample()), "the energy adds up to within 0.02 % of what was put in"));
}

TEST(ShakeText, SaysToClearLoopsFromTheMainWhereThereAreLoops) {
  ShakeReport report = shake_sample();
  EXPECT_TRUE(says(text_of(report), "clear any loop that lies over the main before anyone walks"));
  for (SwingCase& swing : report.swings) swing.loops.clear();
  EXPECT_FALSE(says(text_of(report), "clear any loop"));
}

TEST(ShakeText, NamesEveryBayOfManyAsRanges) {
  ShakeReport report = shake_sample();
  report.swings[0].loops.assign(20, {0.4, false});
  for (const std::size_t bay : {3, 4, 6, 7, 8, 9, 10, 11, 12, 13, 14, 15, 16, 17, 20}) {
    report.swings[0].loops[bay - 1] = {3.1, true};
  }
  EXPECT_TRUE(says(text_of(report), "PASSES OVER THE MAIN: bays 3, 4, 6 to 17, 20."));
}

TEST(ShakeText, SaysWhyALineIsNotThere) {
  ShakeReport report = shake_sample({ComparedLine::rig});
  report.lines.push_back({ComparedLine::even, false, "the line cannot stand so", 0.0, 0.0, 0.0, 0.0});
  EXPECT_TRUE(says(text_of(report), "evenly taped: the line cannot stand so"));
}

TEST(ShakeText, NamesLoopsThatSwingFarAndThoseThatPassOver) {
  const std::string text = text_of(shake_sample());
  EXPECT_TRUE(says(text, "shakes: farthest 172 degrees, in bay 3."));
  EXPECT_TRUE(says(text, "Higher than level with the main: bays 2, 3."));
  EXPECT_TRUE(says(text, "PASSES OVER THE MAIN: bay 3."));
  EXPECT_TRUE(says(text, "gust: not computed, the file states no gust."));
}

TEST(ShakeText, SaysThatNoLoopPassesOver) {
  ShakeReport report = shake_sample();
  for (LoopSwing& loop : report.swings[0].loops) loop = {0.4, false};
  const std::string text = text_of(report);
  EXPECT_TRUE(says(text, "None passes over the main."));
  EXPECT_EQ(text.find("PASSES"), std::string::npos);
}

TEST(ShakeText, CountsNaturalFrequenciesAndPrintsTheLowest) {
  const std::string text = text_of(shake_sample());
  EXPECT_TRUE(says(text, "3 below 5 Hz, the lowest 1.61, 1.72, 2.90 Hz"));
  EXPECT_TRUE(says(text, "7 below 5 Hz, the lowest 1.60, 3.20, 3.30, 3.40, 3.60, 4.10 Hz"));
}

TEST(ShakeText, SaysThatItWasStopped) {
  ShakeReport report = shake_sample();
  EXPECT_EQ(text_of(report).find("STOPPED"), std::string::npos);
  report.stopped = true;
  EXPECT_TRUE(says(text_of(report), "it is not complete"));
}

TEST(ShakeText, HoldsWithNothingDoneAtAll) {
  ShakeReport report;
  report.stopped = true;
  const std::string text = text_of(report);
  EXPECT_TRUE(says(text, "STOPPED BEFORE THE END"));
  EXPECT_EQ(text.find("Return of"), std::string::npos);
}

TEST(ShakeText, DrawsNoConclusionFromAPart) {
  ShakeReport report = shake_sample();
  report.stopped = true;
  const std::string text = text_of(report);
  EXPECT_NE(text.find("Return of a sideways shake"), std::string::npos);
  for (const char* heading : {"What it means", "The lines compared", "How far loops swing"}) {
    EXPECT_EQ(text.find(heading), std::string::npos) << heading;
  }
}

TEST(ShakeText, CarriesAllCautionsAndEveryNote) {
  const std::string text = text_of(shake_sample());
  for (const std::string& words : cautions()) EXPECT_TRUE(says(text, words)) << words;
  for (const std::string& words : shake_sample().notes) EXPECT_TRUE(says(text, words)) << words;
}

TEST(ShakeText, CarriesTheVerdictOfThePlan) {
  EXPECT_TRUE(says(text_of(shake_sample()), "Verdict of the plan: STOP"));
}

}  // namespace
}  // namespace spanloom
