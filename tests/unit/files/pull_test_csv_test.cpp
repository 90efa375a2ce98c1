#include "files/pull_test_csv.h"

#include <gtest/gtest.h>

namespace spanloom {
namespace {

std::string complaint(const std::string& text, std::optional<double> gauge_length = {}) {
  try {
    read_pull_test_csv(text, "pull.csv", gauge_length);
  } catch (const FileError& error) {
    return error.what();
  }
  return "";
}

TEST(PullTestCsv, ReadsStretches) {
  const auto file = read_pull_test_csv("# a test\ntension [kN],stretch [%]\n0,0\n2.5,3.1\n", "pull.csv", {});
  ASSERT_EQ(file.samples.size(), 2u);
  EXPECT_DOUBLE_EQ(file.samples[1].tension, 2500.0);
  EXPECT_DOUBLE_EQ(file.samples[1].stretch, 0.031);
  EXPECT_EQ(file.places[1].line, 4);
}

TEST(PullTestCsv, MakesStretchesOfLengths) {
  const auto file = read_pull_test_csv("time [s],tension [N],length [mm]\n0,5,1500\n1,900,1530\n", "pull.csv", 1.5);
  ASSERT_EQ(file.samples.size(), 2u);
  EXPECT_NEAR(file.samples[0].stretch, 0.0, 1e-15);
  EXPECT_NEAR(file.samples[1].stretch, 0.02, 1e-15);
}

TEST(PullTestCsv, SaysWhatIsMissingOrTooMuch) {
  EXPECT_NE(complaint("tension [N],length [mm]\n0,1500\n").find("give --gauge-length"), std::string::npos);
  EXPECT_NE(complaint("tension [N],stretch [%]\n0,1\n", 1.0).find("no --gauge-length"), std::string::npos);
  EXPECT_NE(complaint("tension [N]\n0\n9\n").find("a column \"stretch [%]\" or \"length [mm]\""), std::string::npos);
  EXPECT_NE(complaint("tension [N],stretch [%],length [m]\n0,1,1\n").find("one of the two"), std::string::npos);
  EXPECT_NE(complaint("stretch [%]\n1\n").find("no column \"tension\""), std::string::npos);
  EXPECT_NE(complaint("").find("no header"), std::string::npos);
}

TEST(PullTestCsv, TellsEveryBadCellWithItsPlace) {
  const std::string text = complaint("tension [kN],stretch [%]\n0,0\nx,1\n2,1e999\n");
  EXPECT_NE(text.find("pull.csv:3:1: read \"x\""), std::string::npos) << text;
  EXPECT_NE(text.find("pull.csv:4:3: read \"1e999\""), std::string::npos) << text;
}

TEST(PullTestCsv, WantsRowsInOrderOfTime) {
  EXPECT_NE(complaint("tension [N],stretch [%],time [s]\n0,0,0\n5,1,3\n9,2,2\n").find("pull.csv:4:1: read a time before"), std::string::npos);
}

TEST(PullTestCsv, PutsWhatTheEngineFindsToTheRow) {
  const auto file = read_pull_test_csv("tension [N],stretch [%]\n0,0\n\n5,1\n", "pull.csv", {});
  EXPECT_EQ(std::string(file.locate(InputError("[1]", "this", "that")).what()), "pull.csv:4:1: read this, expected that");
  EXPECT_EQ(std::string(file.locate(InputError("cycle", "9", "1 to 3")).what()), "pull.csv:1:1: --cycle: read 9, expected 1 to 3");
}

}  // namespace
}  // namespace spanloom
