#include "files/accelerometer_csv.h"

#include <fmt/format.h>
#include <gtest/gtest.h>

#include <fstream>
#include <sstream>

namespace spanloom {
namespace {

std::string rows(int count, double every = 0.05) {
  std::string text;
  for (int i = 0; i < count; ++i) text += fmt::format("{:.3f},0.1,-0.2,9.8\n", every * i);
  return text;
}

std::string complaints(std::string_view text) {
  Findings findings;
  (void)read_accelerometer_csv(text, "a.csv", "spectrum[0].record", findings);
  std::string all;
  for (const FileProblem& p : findings.in_reading_order()) all += to_text(p) + '\n';
  return all;
}

TEST(AccelerometerCsv, ReadsColumnsInTheUnitsOfTheHeader) {
  Findings findings;
  std::string text = "z [g],time [ms],x [m/s2],y [m/s²]\n";
  for (int i = 0; i < 300; ++i) text += fmt::format("1,{},0.5,-2\n", 50 * i);
  const auto table = read_accelerometer_csv(text, "a.csv", "k", findings);
  ASSERT_TRUE(findings.empty());
  ASSERT_EQ(table.rows.size(), 300u);
  EXPECT_DOUBLE_EQ(table.rows[3].time, 0.15);
  EXPECT_DOUBLE_EQ(table.rows[3].x, 0.5);
  EXPECT_DOUBLE_EQ(table.rows[3].y, -2.0);
  EXPECT_DOUBLE_EQ(table.rows[3].z, 9.80665);   // ISO 80000-3
}

TEST(AccelerometerCsv, WantsTimesThatRise) {
  const std::string text = "time [s],x [m/s2],y [m/s2],z [m/s2]\n0,1,1,9\n0.1,1,1,9\n0.1,1,1,9\n0.05,1,1,9\n";
  EXPECT_EQ(complaints(text),
            "a.csv:4:1: spectrum[0].record: read the time 0.1 s after 0.1 s, expected times that rise from row to row (take "
            "out rows that stand twice; write times with all their decimals)\n"
            "a.csv:5:1: spectrum[0].record: read the time 0.05 s after 0.1 s, expected times that rise from row to row (sort "
            "the rows by time)\n");
}

TEST(AccelerometerCsv, WantsEnoughOfARecord) {
  const std::string head = "time [s],x [m/s2],y [m/s2],z [m/s2]\n";
  EXPECT_NE(complaints(head + rows(199)).find("read 199 rows, expected at least 200 rows"), std::string::npos);
  EXPECT_NE(complaints(head + rows(300, 0.02)).find("read a record of 5.98 s, expected at least 10 s"), std::string::npos);
  EXPECT_EQ(complaints(head + rows(300)), "");
}

TEST(AccelerometerCsv, TellsBadCellsAloneWhereThereAreSome) {
  const std::string text = "time [s],x [m/s2],y [m/s2],z [m/s2]\n0,1,1,9\nx,1,1,9\n";
  EXPECT_EQ(complaints(text),
            "a.csv:3:1: spectrum[0].record: read \"x\", expected a plain number for \"time\" (the unit stands in the header "
            "only)\n");
}

TEST(AccelerometerCsv, WantsUnitsInTheHeader) {
  EXPECT_NE(complaints("time [s],x,y [g],z [g]\n").find("\"x\" with its unit in brackets: m/s2"), std::string::npos);
}

TEST(AccelerometerCsv, HoldsMoreRowsThanOtherTables) {
  EXPECT_EQ(complaints("time [s],x [m/s2],y [m/s2],z [m/s2]\n" + rows(60'000, 0.01)), "");
}

// The record that comes with the practice line: tilted, so no axis of the device is upright.
TEST(AccelerometerCsv, ReadsTheRecordOfThePracticeLine) {
  std::ostringstream text;
  text << std::ifstream(SPANLOOM_SOURCE_DIR "/examples/practice-line/swing.csv").rdbuf();
  Findings findings;
  const auto table = read_accelerometer_csv(text.str(), "swing.csv", "k", findings);
  ASSERT_TRUE(findings.empty());
  const SpectrumOutcome outcome = spectrum_of(table.rows, 4.0);
  ASSERT_TRUE(outcome.spectrum) << outcome.why;
  EXPECT_NEAR(outcome.spectrum->gravity, 9.80665, 0.05);
  EXPECT_GE(outcome.spectrum->reading.peaks.size(), 2u);
}

}  // namespace
}  // namespace spanloom
