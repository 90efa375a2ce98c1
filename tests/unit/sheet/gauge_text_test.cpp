#include "sheet/gauge_text.h"

#include <gtest/gtest.h>

#include <sstream>
#include <vector>

#include "plan_fixture.h"
#include "sheet/text_table.h"
#include "support/gauge_sample.h"

namespace spanloom {
namespace {

using fixture::gauge_sample;

std::string text_of(GaugeReport report, UnitSystem units = UnitSystem::metric) {
  const fixture::Sample sample = fixture::sample();
  report.checks = sample.checks;
  Readings readings;
  readings.title = "First evening";
  return gauge_text(sample.rig, readings, report, {"rig.toml", "0.1.0", "2026-05-01", units});
}

std::vector<std::string> lines_of(const std::string& text) {
  std::vector<std::string> lines;
  std::istringstream in(text);
  for (std::string line; std::getline(in, line);) lines.push_back(line);
  return lines;
}

bool says(const std::string& text, const std::string& words) {
  std::istringstream in(text);
  std::string all;
  for (std::string word; in >> word;) all += word + ' ';
  return all.find(words) != std::string::npos;
}

TEST(GaugeText, NeverRunsWiderThanEightyColumns) {
  for (const UnitSystem units : {UnitSystem::metric, UnitSystem::us}) {
    for (const std::string& line : lines_of(text_of(gauge_sample(), units))) EXPECT_LE(column_count(line), kTextColumns) << line;
  }
}

TEST(GaugeText, HasThePointInItsFirstLines) {
  const std::vector<std::string> lines = lines_of(text_of(gauge_sample()));
  ASSERT_GT(lines.size(), 6u);
  EXPECT_EQ(lines[2], "4.02 kN, 95 % between 3.71 and 4.35 kN; planned 4.50 kN.");
  EXPECT_TRUE(says(lines[3] + ' ' + lines[4], "Pull in 210 mm of main (+-70 mm), as it comes through the clamp. Retape the loop of bay 3."));
  EXPECT_EQ(lines[5].rfind("Verdict of the line as it hangs: ", 0), 0u) << lines[5];
}

TEST(GaugeText, ListsTheWorkInTheOrderInWhichItIsDone) {
  const std::string text = text_of(gauge_sample());
  EXPECT_TRUE(says(text, "1. Read again: 3 round trips at 1.50 m."));
  EXPECT_TRUE(says(text, "2. Pull in 210 mm of main"));
  EXPECT_TRUE(says(text, "Unloaded that is 200 mm of webbing."));
  EXPECT_TRUE(says(text, "3. Bay 3: let in 32 mm of backup: at the planned tension it would hang 118 mm deep instead of 160 mm."));
  EXPECT_TRUE(says(text, "4. Then read again, and gauge again."));
}

TEST(GaugeText, HasARowForEveryMethodReadingAndLoop) {
  const std::string text = text_of(gauge_sample());
  EXPECT_TRUE(says(text, "pulse 3.95 0.21 1 sag 4.11 0.24 1 all together 4.02 0.16 2"));
  EXPECT_TRUE(says(text, "2 round trips at 1.50 m 1.12 s 0.05 s 1.15 s -0.6 3.95"));
  EXPECT_TRUE(says(text, "3 round trips at 1.50 m 2.31 s 0.05 s 1.72 s +6.2 - out"));
  EXPECT_TRUE(says(text, "3 160 105 107 12 32 20 1.5 retape"));
  EXPECT_TRUE(says(text, "18 160 - 150 12 0 20 1.5"));
}

TEST(GaugeText, NamesWhatWasLeftOutWhatIsLessSureAndWhatIsAssumed) {
  const std::string text = text_of(gauge_sample());
  EXPECT_TRUE(says(text, "LEFT OUT: 3 round trips at 1.50 m: read 2.31 s, 6.2 standard deviations off what the others foretell."));
  EXPECT_TRUE(says(text, "78.0 kg at 31.00 m: the weight stands in an anchor zone"));
  EXPECT_TRUE(says(text, "a caution at 3.71 kN"));
  EXPECT_TRUE(says(text, "timing of one pulse: 0.10 s"));
  EXPECT_TRUE(says(text, cautions().back()));
}

TEST(GaugeText, SaysWhatToDoWithTheMainForEveryAdvice) {
  GaugeReport report = gauge_sample();
  report.loops.clear();
  report.readings.clear();
  report.advice = MainAdvice::leave;
  EXPECT_EQ(lines_of(text_of(report))[3], "Leave the main as it is.");
  EXPECT_FALSE(says(text_of(report), "Then read again"));
  report.advice = MainAdvice::measure_more;
  EXPECT_TRUE(says(lines_of(text_of(report))[3], "Measure more before you touch the main"));
  report.advice = MainAdvice::let_out;
  report.pull_stretched = -0.21;
  EXPECT_TRUE(says(lines_of(text_of(report))[3], "Let out 210 mm of main (+-70 mm)"));
}

TEST(GaugeText, SaysFirstThatReadingsContradictEachOther) {
  GaugeReport report = gauge_sample();
  EXPECT_FALSE(says(text_of(report), "CONTRADICT"));
  report.advice = MainAdvice::read_again;
  EXPECT_EQ(lines_of(text_of(report))[2], "THE READINGS CONTRADICT EACH OTHER: read again before you touch anything.");
  EXPECT_TRUE(says(text_of(report), "Until then leave main and loops as they are."));
  EXPECT_FALSE(says(text_of(report), "Pull in"));
}

TEST(GaugeText, ClaimsNoTensionWhereOnlyDropsWereRead) {
  GaugeReport report = gauge_sample();
  report.from_readings = false;
  EXPECT_EQ(lines_of(text_of(report))[2], "Only drops were read: the tension is taken as planned, 4.50 kN.");
}

}  // namespace
}  // namespace spanloom
