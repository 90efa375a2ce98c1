// `spanloom catch` as it is run: exit codes, what it prints, what it writes.
#include <gtest/gtest.h>

#include <cmath>
#include <nlohmann/json.hpp>
#include <sstream>

#include "command_run.h"

namespace spanloom {
namespace {

using fixture::bytes_of;
using fixture::put_file;
using fixture::Ran;
using nlohmann::json;

class CatchCommand : public fixture::OnThePracticeLine {
 protected:
  CatchCommand() : OnThePracticeLine("catch") {}
};

// The practice line hangs 5 m over its stream bed and its backup is knotted: falls say stop.
TEST_F(CatchCommand, PrintsAReportOfEightyColumnsWritesNothingByItselfAndExitsWithOneAtAStop) {
  const Ran ran = run("--quick --date 2026-05-01");
  EXPECT_EQ(ran.exit_code, 1) << ran.err;
  EXPECT_EQ(ran.err, "");  // progress goes to terminals only
  EXPECT_EQ(ran.out.rfind("Practice line, willow bank\n", 0), 0u);
  for (const char* part : {"2026-05-01", "QUICK LOOK", "Verdict of the falls: STOP", "What it means", "Clear height needed",
                           "The worst main failures", "The worst leash falls", "Near anchor", "How the worst was looked for",
                           "EN 355", "Cautions"}) {
    EXPECT_NE(ran.out.find(part), std::string::npos) << part;
  }
  EXPECT_EQ(ran.out.find("What other backup slack would cost"), std::string::npos);
  std::istringstream lines(ran.out);
  for (std::string line; std::getline(lines, line);) EXPECT_LE(line.size(), 80u) << line;
  EXPECT_EQ(folder_.listing(), "rig.toml");
}

// To stop a falling walker of 62 kg takes more than the weight. Feet start no higher than the main that the walker weighs
// down, so the clear height is never less than the fall. Both hold for any line.
void expect_sense(const json& report) {
  EXPECT_EQ(report.at("complete"), true);
  EXPECT_EQ(report.at("quick"), true);
  EXPECT_TRUE(report.at("costs").empty());
  for (const char* kind : {"main_failure", "leash_fall"}) {
    ASSERT_FALSE(report.at(kind).empty()) << kind;
    for (const json& fall : report.at(kind)) {
      ASSERT_EQ(fall.at("lost"), false);
      EXPECT_GT(fall.at("body_N").get<double>(), 62.0 * 9.80665);
      EXPECT_GT(fall.at("fall_m").get<double>(), 0.0);
      EXPECT_GE(fall.at("clear_height_m").get<double>(), fall.at("fall_m").get<double>());
      EXPECT_LT(std::abs(fall.at("drift").get<double>()), 1e-2);
    }
  }
  double most = 1e9;
  for (const json& fall : report.at("main_failure")) {
    EXPECT_LE(fall.at("body_N").get<double>(), most);  // the worst first
    most = fall.at("body_N").get<double>();
  }
}

// One search serves three claims: with sanitizers it takes a minute of two cores.
TEST_F(CatchCommand, WritesResultsPicturesAndSheetAndTheSameNumbersOnAnyNumberOfThreads) {
  const Ran ran = run("--quick --json -o out --date 2026-05-01");
  EXPECT_EQ(ran.exit_code, 1) << ran.err;
  EXPECT_EQ(file("out/catch.json"), ran.out);
  EXPECT_EQ(file("out/sheet.pdf").rfind("%PDF", 0), 0u);
  for (const char* name : {"out/fall-main-failure", "out/fall-leash"}) {
    EXPECT_EQ(file(std::string(name) + ".png").rfind("\x89PNG", 0), 0u) << name;
    EXPECT_NE(file(std::string(name) + ".svg").find("clear height"), std::string::npos) << name;
  }
  EXPECT_EQ(file("out/catch.csv").rfind("kind,walker [m],", 0), 0u);
  EXPECT_EQ(file("out/fall-path.csv").rfind("kind,time [s],", 0), 0u);
  std::string sheet;
  for (int page = 1; !file("out/sheet-" + std::to_string(page) + ".svg").empty(); ++page) {
    sheet += file("out/sheet-" + std::to_string(page) + ".svg");
  }
  EXPECT_NE(sheet.find("class=\"fall\""), std::string::npos);
  EXPECT_NE(sheet.find("class=\"clear-height-needed\""), std::string::npos);
  expect_sense(json::parse(ran.out).at("catch"));
  EXPECT_EQ(run("--quick --json --threads 1").out, ran.out);
}

TEST_F(CatchCommand, StopsARingAroundTheMainAlone) {
  change("leash = \"1.2 m\"", "leash = \"1.2 m\"\nleash_ring = \"main\"");
  const Ran ran = run("--quick --json");
  EXPECT_EQ(ran.exit_code, 1) << ran.err;
  const json report = json::parse(ran.out).at("catch");
  bool lost = false;
  for (const json& fall : report.at("main_failure")) lost = lost || fall.at("lost") == true;
  EXPECT_TRUE(lost);
  for (const json& check : report.at("checks")) {
    if (check.at("name") != "catch_held") continue;
    EXPECT_EQ(check.at("verdict"), "stop");
  }
}

TEST_F(CatchCommand, WritesAllFilesOrNone) {
  std::filesystem::create_directories(folder_.path() / "out/catch.csv/in-the-way");  // cannot be replaced by a file
  const std::string before = folder_.listing();
  const Ran ran = run("--quick -o out");
  EXPECT_EQ(ran.exit_code, 2);
  EXPECT_NE(ran.err.find("catch.csv"), std::string::npos) << ran.err;
  EXPECT_EQ(ran.out, "");
  EXPECT_EQ(folder_.listing(), before);
}

TEST_F(CatchCommand, SaysAtOnceThatThereIsNowhereToWrite) {
  put_file(folder_.path() / "in-the-way", "a file");
  const Ran ran = run("--threads 1 -o in-the-way/out", "timeout 5");
  EXPECT_EQ(ran.exit_code, 2) << ran.err;
  EXPECT_NE(ran.err.find("in-the-way/out"), std::string::npos) << ran.err;
  EXPECT_EQ(ran.out, "");
}

TEST_F(CatchCommand, ExitsWithTwoForBadArgumentsAndBadFiles) {
  for (const char* arguments : {"-o ''", "--threads 0", "--units furlongs", "--date yesterday", "more.toml"}) {
    const Ran ran = run(arguments);
    EXPECT_EQ(ran.exit_code, 2) << arguments;
    EXPECT_EQ(ran.out, "") << arguments;
  }
  change("leash = \"1.2 m\"", "leash = \"-1 m\"");
  const Ran ran = run("-o out");
  EXPECT_EQ(ran.exit_code, 2);
  EXPECT_NE(ran.err.find("walker.leash"), std::string::npos) << ran.err;
  EXPECT_EQ(folder_.listing(), "rig.toml");
}

TEST_F(CatchCommand, ExitsWithThreeInWordsWhenTheLineCannotStand) {
  change("tension = \"2.5 kN\"", "natural_length = \"12.5 m\"");  // needs more stretch than the webbing has
  const Ran ran = run("--quick -o out");
  EXPECT_EQ(ran.exit_code, 3);
  EXPECT_EQ(ran.out, "");
  EXPECT_NE(ran.err.find("rig.toml: no plan: "), std::string::npos) << ran.err;
  EXPECT_EQ(folder_.listing(), "rig.toml");
}

// timeout (coreutils) sends what ctrl-C sends; the long demo takes longer than that.
TEST_F(CatchCommand, StopsCleanlyOnCtrlC) {
  const Ran ran = fixture::run_spanloom(SPANLOOM_SOURCE_DIR "/examples/heron-gorge",
                                        "catch rig.toml --threads 1 -o '" + (folder_.path() / "out").string() + "'",
                                        "timeout --foreground --preserve-status -s INT 15");
  EXPECT_EQ(ran.exit_code, 3) << ran.err;
  EXPECT_NE(ran.out.find("STOPPED BEFORE THE END"), std::string::npos) << ran.out << ran.err;
  EXPECT_NE(ran.err.find("no files were written"), std::string::npos) << ran.err;
  EXPECT_EQ(folder_.listing(), "rig.toml");
}

TEST_F(CatchCommand, ExplainsItselfInItsHelp) {
  const Ran ran = fixture::run_spanloom(folder_.path(), "catch --help");
  EXPECT_EQ(ran.exit_code, 0);
  for (const char* option : {"--out", "--quick", "--json", "--units", "--threads", "--date", "RIG.toml"}) {
    EXPECT_NE(ran.out.find(option), std::string::npos) << option;
  }
  EXPECT_EQ(ran.out.find("Fewer places"), std::string::npos);  // the searched places are the same
}

}  // namespace
}  // namespace spanloom
