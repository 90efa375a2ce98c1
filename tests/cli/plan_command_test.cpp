// `spanloom plan` as it is run: exit codes, what it prints, what it writes.
#include <gtest/gtest.h>

#include <cmath>
#include <nlohmann/json.hpp>
#include <sstream>

#include "command_run.h"
#include "support/csv_cells.h"

namespace spanloom {
namespace {

using fixture::bytes_of;
using fixture::put_file;
using fixture::Ran;
using fixture::run_spanloom;
using nlohmann::json;

// An invented practice line. `main` and `site` are spliced in.
std::string rig_text(const std::string& main, const std::string& site = "") {
  return "title = \"Test line <&> of the willow meadow\"\n"
         "[site]\ngap = \"16 m\"\n" + site +
         "\n[webbing.river]\nmass = \"61 g/m\"\nstrength = \"32 kN\"\n"
         "stretch = [[\"0 kN\", \"0 %\"], [\"5 kN\", \"4.0 %\"], [\"20 kN\", \"10.8 %\"], [\"32 kN\", \"15 %\"]]\n"
         "[main]\nwebbing = \"river\"\n" + main +
         "\n[backup]\nwebbing = \"river\"\nslack = \"3 %\"\ntape_mass = \"10 g\"\n"
         "[spacing]\narm_span = \"1.75 m\"\neven = \"2 m\"\n"
         "[walker]\nmass = \"78 kg\"\n"
         "[limits]\nratio = 2\n";
}

const char* kStanding = "tension = \"2.5 kN\"";
const char* kLowGround = "ground = [[\"-2 m\", \"-2 m\"], [\"18 m\", \"-2 m\"]]";

class PlanCommand : public testing::Test {
 protected:
  void rig(const std::string& text) { put_file(folder_.path() / "rig.toml", text); }
  Ran plan(const std::string& arguments) { return run_spanloom(folder_.path(), "plan rig.toml " + arguments); }
  std::string file(const std::string& name) { return bytes_of(folder_.path() / name); }

  fixture::TemporaryFolder folder_;
};

TEST_F(PlanCommand, PrintsTheReportAndWritesNothingByItself) {
  rig(rig_text(kStanding));
  const Ran ran = plan("--date 2026-05-01");
  EXPECT_EQ(ran.exit_code, 0) << ran.err;
  EXPECT_EQ(ran.err, "");
  EXPECT_EQ(ran.out.rfind("Test line <&> of the willow meadow\n", 0), 0u);
  for (const char* part : {"2026-05-01", "Bays, standing", "One walker", "Checks", "Cautions"}) {
    EXPECT_NE(ran.out.find(part), std::string::npos) << part;
  }
  std::istringstream lines(ran.out);
  for (std::string line; std::getline(lines, line);) EXPECT_LE(line.size(), 80u) << line;
  EXPECT_EQ(folder_.listing(), "rig.toml");
}

TEST_F(PlanCommand, ExitsWithOneWhenACheckSaysStopAndStillWritesTheSheet) {
  rig(rig_text(kStanding, kLowGround));
  const Ran ran = plan("-o out");
  EXPECT_EQ(ran.exit_code, 1) << ran.err;
  EXPECT_NE(ran.out.find("STOP"), std::string::npos);
  EXPECT_NE(file("out/sheet-1.svg").find("STOP: do not walk this rig"), std::string::npos);
}

TEST_F(PlanCommand, ExitsWithTwoForBadArguments) {
  rig(rig_text(kStanding));
  for (const char* arguments : {"--colour", "--units furlongs", "--date 2026-02-30", "--date yesterday",
                                "--date 2026-5-1", "more.toml", "-o"}) {
    const Ran ran = plan(arguments);
    EXPECT_EQ(ran.exit_code, 2) << arguments;
    EXPECT_NE(ran.err, "") << arguments;
    EXPECT_EQ(ran.out, "") << arguments;
  }
}

TEST_F(PlanCommand, ExitsWithTwoForABadFileAndWritesNothing) {
  rig(rig_text("tension = \"2.5\""));
  const Ran ran = plan("-o out");
  EXPECT_EQ(ran.exit_code, 2);
  EXPECT_NE(ran.err.find("rig.toml:"), std::string::npos) << ran.err;
  EXPECT_EQ(ran.out, "");
  EXPECT_EQ(folder_.listing(), "rig.toml");
}

TEST_F(PlanCommand, ExitsWithTwoForAFileThatIsNotThere) {
  EXPECT_EQ(plan("").exit_code, 2);
}

TEST_F(PlanCommand, ExitsWithThreeInWordsWhenTheLineCannotStand) {
  rig(rig_text("natural_length = \"12.5 m\""));  // needs 28 % of stretch; the webbing breaks at 15 %
  const Ran ran = plan("-o out");
  EXPECT_EQ(ran.exit_code, 3);
  EXPECT_EQ(ran.out, "");
  EXPECT_NE(ran.err.find("rig.toml: no plan: "), std::string::npos) << ran.err;
  EXPECT_GT(ran.err.size(), 40u);
  EXPECT_EQ(folder_.listing(), "rig.toml");
}

TEST_F(PlanCommand, WritesSheetPagesTapesAndResult) {
  rig(rig_text(kStanding));
  const Ran ran = plan("-o out");
  EXPECT_EQ(ran.exit_code, 0) << ran.err;
  EXPECT_EQ(file("out/sheet.pdf").rfind("%PDF", 0), 0u);
  EXPECT_EQ(file("out/sheet-1.svg").rfind("<?xml", 0), 0u);
  EXPECT_FALSE(file("out/sheet-3.svg").empty());
  EXPECT_EQ(file("out/result.json"), plan("--json").out);
}

TEST_F(PlanCommand, GivesTheSameBytesForTheSameDay) {
  rig(rig_text(kStanding));
  plan("-o first --date 2026-05-01");
  plan("-o second --date 2026-05-01");
  plan("-o third --date 2026-05-02");
  for (const char* name : {"sheet.pdf", "sheet-1.svg", "tapes.csv", "result.json"}) {
    EXPECT_FALSE(file(std::string("first/") + name).empty());
    EXPECT_EQ(file(std::string("first/") + name), file(std::string("second/") + name)) << name;
  }
  EXPECT_NE(file("first/sheet.pdf"), file("third/sheet.pdf"));
}

TEST_F(PlanCommand, WritesAllFilesOrNone) {
  rig(rig_text(kStanding));
  plan("-o out --date 2026-05-01");
  std::filesystem::remove(folder_.path() / "out/tapes.csv");
  std::filesystem::create_directory(folder_.path() / "out/tapes.csv");  // cannot be replaced by a file
  const std::string before = folder_.listing(), pdf = file("out/sheet.pdf");
  const Ran ran = plan("-o out --date 2026-05-02");
  EXPECT_EQ(ran.exit_code, 2);
  EXPECT_NE(ran.err.find("tapes.csv"), std::string::npos) << ran.err;
  EXPECT_EQ(ran.out, "");
  EXPECT_EQ(folder_.listing(), before);
  EXPECT_EQ(file("out/sheet.pdf"), pdf);
}

TEST_F(PlanCommand, RefusesAFolderThatCannotBeMade) {
  rig(rig_text(kStanding));
  EXPECT_EQ(plan("-o rig.toml").exit_code, 2);
  EXPECT_EQ(plan("-o rig.toml/out").exit_code, 2);
  EXPECT_EQ(plan("-o /proc/spanloom").exit_code, 2);
  EXPECT_EQ(plan("-o ''").exit_code, 2);
  EXPECT_EQ(folder_.listing(), "rig.toml");
}

TEST_F(PlanCommand, LeavesNoPageOfAnEarlierLongerSheetBehind) {
  rig(rig_text(kStanding));
  plan("-o out");
  const std::string before = folder_.listing();
  int pages = 0;
  while (!file("out/sheet-" + std::to_string(pages + 1) + ".svg").empty()) ++pages;
  put_file(folder_.path() / ("out/sheet-" + std::to_string(pages + 1) + ".svg"), "an old page");
  plan("-o out");
  EXPECT_EQ(folder_.listing(), before);
}

TEST_F(PlanCommand, PrintsEveryKeyOfTheResult) {
  rig(rig_text(kStanding, kLowGround));
  const json document = json::parse(plan("--json").out);
  EXPECT_EQ(document.at("format").at("name"), "spanloom-plan");
  EXPECT_EQ(document.at("format").at("number"), 1);
  EXPECT_TRUE(document.at("version").is_string());
  EXPECT_EQ(document.at("title"), "Test line <&> of the willow meadow");
  const json& plan_part = document.at("plan");
  for (const char* key : {"tension_near_N", "tension_far_N", "anchor_near_N", "anchor_far_N", "sag_m",
                          "main_natural_length_m", "backup_natural_length_m", "round_trip_s"}) {
    EXPECT_TRUE(plan_part.at("standing").at(key).is_number()) << key;
  }
  for (const char* key : {"from_m", "to_m", "main_natural_m", "backup_natural_m", "arm_spans", "drop_m", "slack",
                          "ankle_margin_m"}) {
    for (const json& bay : plan_part.at("bays")) EXPECT_TRUE(bay.at(key).is_number()) << key;
  }
  for (const char* key : {"position_m", "sag_m", "tension_near_N", "tension_far_N", "anchor_near_N", "anchor_far_N",
                          "backup_tension_max_N", "ground_clearance_m"}) {
    for (const json& place : plan_part.at("walker")) EXPECT_TRUE(place.at(key).is_number()) << key;
  }
  for (const json& check : plan_part.at("checks")) {
    for (const char* key : {"name", "value", "limit", "unit", "verdict"}) EXPECT_TRUE(check.contains(key)) << key;
    const std::string verdict = check.at("verdict");
    EXPECT_TRUE(verdict == "ok" || verdict == "caution" || verdict == "stop") << verdict;
  }
}

TEST_F(PlanCommand, PrintsSiNumbersThatAgreeWithTheRig) {
  rig(rig_text(kStanding));
  const json standing = json::parse(plan("--json --units us").out).at("plan").at("standing");
  EXPECT_NEAR(standing.at("tension_near_N").get<double>(), 2500.0, 2.5e-6);
  const json bays = json::parse(plan("--json").out).at("plan").at("bays");
  EXPECT_EQ(bays.front().at("from_m"), 0.0);
  EXPECT_EQ(bays.back().at("to_m"), 16.0);
  double main = 0.0;
  for (const json& bay : bays) main += bay.at("main_natural_m").get<double>();
  EXPECT_NEAR(main, standing.at("main_natural_length_m").get<double>(), 1e-9);
}

// The walker's places: every bay's middle and every tape between.
TEST_F(PlanCommand, SweepsTheWalkerOverEveryTapeAndBayMiddle) {
  rig(rig_text(kStanding));
  const json plan_part = json::parse(plan("--json").out).at("plan");
  EXPECT_GE(plan_part.at("walker").size(), 2 * plan_part.at("bays").size() - 1);
  double last = -1.0;
  for (const json& place : plan_part.at("walker")) {
    EXPECT_GT(place.at("position_m").get<double>(), last);
    last = place.at("position_m").get<double>();
  }
}

TEST_F(PlanCommand, SaysNullWhereThereIsNoGround) {
  rig(rig_text(kStanding));
  const json plan_part = json::parse(plan("--json").out).at("plan");
  EXPECT_TRUE(plan_part.at("walker").front().at("ground_clearance_m").is_null());
  EXPECT_TRUE(plan_part.at("standing").at("ground_clearance_m").is_null());
}

TEST_F(PlanCommand, WritesTheTapeListAsCsvWithUnitsInTheHead) {
  rig(rig_text(kStanding));
  plan("-o out --units us");
  const auto rows = cells_of(file("out/tapes.csv"));
  const json bays = json::parse(file("out/result.json")).at("plan").at("bays");
  ASSERT_EQ(rows.size(), bays.size() + 1);
  EXPECT_EQ(rows[0][1], "running length [m]");
  EXPECT_EQ(rows[0][5], "extra backup [mm]");
  for (std::size_t i = 0; i < bays.size(); ++i) {
    const auto& cells = rows[i + 1];
    ASSERT_EQ(cells.size(), rows[0].size());
    EXPECT_EQ(cells[0], i + 1 == bays.size() ? "far" : std::to_string(i + 1));
    EXPECT_NEAR(std::stod(cells[1]), bays[i].at("running_length_m").get<double>(), 0.00051);
    EXPECT_NEAR(std::stod(cells[4]), bays[i].at("backup_natural_m").get<double>(), 0.00051);
    EXPECT_NEAR(std::stod(cells[6]), 1e3 * bays[i].at("drop_m").get<double>(), 0.051);
  }
}

// Read back with poppler's pdftotext: a text that became outlines would not be found.
TEST_F(PlanCommand, KeepsTextsOfThePdfAsTexts) {
  rig(rig_text(kStanding));
  plan("-o out --date 2026-05-01");
  const std::string pdf = (folder_.path() / "out/sheet.pdf").string(), text = pdf + ".txt";
  ASSERT_EQ(std::system(("pdftotext -layout '" + pdf + "' '" + text + "'").c_str()), 0);
  const std::string words = bytes_of(text);
  for (const char* part : {"Test line <&> of the willow meadow", "Tape list, from the near anchor",
                           "Lengths to cut, mark and pull", "page 1 of"}) {
    EXPECT_NE(words.find(part), std::string::npos) << part;
  }
}

// The line of a text that starts so, without its line end.
std::string line_of(const std::string& text, const std::string& start) {
  const std::size_t from = text.find("\n" + start) + 1;
  return text.substr(from, text.find('\n', from) - from);
}

// The example promises it in its comments: the lines without their "# " replace those above them.
TEST_F(PlanCommand, PlansThePracticeLineWithOneTapeTakenOut) {
  std::string text = bytes_of(SPANLOOM_SOURCE_DIR "/examples/practice-line/rig.toml");
  rig(text);
  const json whole = json::parse(plan("--json").out).at("plan");
  for (const auto& [given, instead] : {std::pair{"drop = ", "# length = "}, {"even = ", "# at = "}}) {
    const std::string old_line = line_of(text, given), new_line = line_of(text, instead).substr(2);
    text.replace(text.find("\n" + old_line) + 1, old_line.size(), new_line);
  }
  rig(text);
  const Ran ran = plan("--json");
  ASSERT_NE(ran.out, "") << ran.err;
  const json without = json::parse(ran.out).at("plan");
  ASSERT_EQ(without.at("bays").size() + 1, whole.at("bays").size());
  const auto backup_of = [](const json& bays, std::size_t i) { return bays.at(i).at("backup_natural_m").get<double>(); };
  for (std::size_t i = 0; i < without.at("bays").size(); ++i) {  // bays 4 and 5 hang as one
    double cut = backup_of(whole.at("bays"), i < 4 ? i : i + 1);
    if (i == 3) cut += backup_of(whole.at("bays"), 4);
    EXPECT_NEAR(backup_of(without.at("bays"), i), cut, 5e-3) << i;  // half of what the printed tape list tells apart
  }
}

// What is cut reaches the hand-tight line: pull-through and a metre to grip beyond the near end.
TEST_F(PlanCommand, CutsTheMainLongEnoughToLieHandTight) {
  rig(rig_text(kStanding + std::string("\nhand_tight = \"300 N\"\nnear_tail = \"0.1 m\"")));
  const json plan_part = json::parse(plan("--json").out).at("plan");
  const json main = plan_part.at("lengths").at(0);
  EXPECT_NEAR(main.at("cut_length_m").get<double>(),
              main.at("natural_length_m").get<double>() + main.at("far_tail_m").get<double>() +
                  plan_part.at("pull_through").at("length_m").get<double>() + 1.0,
              1e-9);
}

TEST_F(PlanCommand, ExplainsItselfInItsHelp) {
  const Ran ran = run_spanloom(folder_.path(), "plan --help");
  EXPECT_EQ(ran.exit_code, 0);
  for (const char* option : {"--out", "--json", "--units", "--date", "RIG.toml"}) {
    EXPECT_NE(ran.out.find(option), std::string::npos) << option;
  }
}

}  // namespace
}  // namespace spanloom
