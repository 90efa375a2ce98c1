// `spanloom space` and `spanloom taping` as they are run: exit codes, what they print, what they write, parts and joining.
#include <gtest/gtest.h>

#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <nlohmann/json.hpp>
#include <sstream>

#include "command_run.h"

namespace spanloom {
namespace {

using fixture::put_file;
using fixture::Ran;
using fixture::run_spanloom;
using nlohmann::json;

void expect_narrow(const std::string& text) {
  std::istringstream lines(text);
  for (std::string line; std::getline(lines, line);) EXPECT_LE(line.size(), 80u) << line;
}

class SpaceCommand : public fixture::OnThePracticeLine {
 protected:
  SpaceCommand() : OnThePracticeLine("space") {}
};

class TapingCommand : public fixture::OnThePracticeLine {
 protected:
  TapingCommand() : OnThePracticeLine("taping") {}
};

// With sanitizers each search takes its time, so one of them serves several claims.
TEST_F(SpaceCommand, WritesTheRigFileOfTheChosenLayoutWhichPlansAsTold) {
  const Ran ran = run("--quick --json -o out --date 2026-05-01");
  ASSERT_EQ(ran.exit_code, 0) << ran.err << ran.out;
  EXPECT_EQ(ran.err, "");
  EXPECT_EQ(file("out/space.json"), ran.out);
  const json space = json::parse(ran.out).at("space");
  const json& chosen = space.at("layouts").at(0);
  EXPECT_EQ(file("out/sheet.pdf").rfind("%PDF", 0), 0u);
  EXPECT_EQ(file("out/space.png").rfind("\x89PNG", 0), 0u);
  EXPECT_FALSE(file("out/layouts.csv").empty());
  EXPECT_FALSE(file("out/tapes.csv").empty());

  // Only spacing and backup change: without the lines that those keys stand on the files are the same.
  const std::string spaced = file("out/spaced.toml");
  for (const char* comment : {"# A short line over a stream bed", "# main\n", "# a low line: less than over a gorge"}) {
    EXPECT_NE(spaced.find(comment), std::string::npos) << comment;
  }
  EXPECT_EQ(spaced.find("drop = \"120 mm\""), std::string::npos);
  const Ran plan = run_spanloom(folder_.path(), "plan out/spaced.toml --json");
  EXPECT_EQ(plan.exit_code, 0) << plan.err;
  const json bays = json::parse(plan.out).at("plan").at("bays");
  ASSERT_EQ(bays.size(), chosen.at("bays_m").size());
  for (std::size_t k = 0; k < bays.size(); ++k) {
    // Loops of other weight want another length of main for the same tension: the last bay takes it.
    const double hair = k + 1 == bays.size() ? 1e-3 : 1e-5;
    EXPECT_NEAR(bays[k].at("main_natural_m"), chosen.at("bays_m")[k], hair) << k;
    EXPECT_NEAR(bays[k].at("slack"), chosen.at("slack")[k], 1e-7) << k;
    EXPECT_NEAR(bays[k].at("drop_m"), chosen.at("drop_m")[k], hair) << k;
    EXPECT_GE(bays[k].at("ankle_margin_m").get<double>(), 0.0) << k;  // the limit of the practice line
  }

  const Ran again = run("--quick --json --threads 1 --date 2026-05-01");
  EXPECT_EQ(again.out, ran.out) << "another number of threads, another answer";
}

TEST_F(SpaceCommand, PartsThatGnuParallelMakesJoinToTheBytesOfOneRun) {
  const Ran whole = run("--quick --json --date 2026-05-01");
  ASSERT_EQ(whole.exit_code, 0) << whole.err;
  const std::string parallel = "cd '" + folder_.path().string() +
                               "' && parallel --will-cite -j 2 '" SPANLOOM_COMMAND
                               " space rig.toml --quick --threads 1 --part {}/3 -o parts > /dev/null' ::: 3 1 2 2> parallel.err";
  ASSERT_EQ(std::system(parallel.c_str()), 0) << file("parallel.err");
  EXPECT_EQ(run("--quick --json --join parts --date 2026-05-01").out, whole.out);

  // Other options, a missing part, no part.
  const Ran other = run("--quick --seed 2 --join parts");
  EXPECT_EQ(other.exit_code, 2);
  EXPECT_NE(other.err.find("other options"), std::string::npos) << other.err;
  std::filesystem::remove(folder_.path() / "parts/search-2-of-3.json");
  const Ran missing = run("--quick --join parts -o out");
  EXPECT_EQ(missing.exit_code, 2);
  EXPECT_NE(missing.err.find("2"), std::string::npos) << missing.err;
  EXPECT_FALSE(std::filesystem::exists(folder_.path() / "out"));
  EXPECT_EQ(run("--quick --join nowhere").exit_code, 2);
}

TEST_F(SpaceCommand, PrintsAReportOfEightyColumnsAndTakesBoundsWithTheirUnits) {
  const Ran ran = run("--quick --free --least-bay '1.5 m' --most-bay '2.4 m' --most-tapes 7 --most-slack '2 %' --units us");
  ASSERT_EQ(ran.exit_code, 0) << ran.err << ran.out;
  expect_narrow(ran.out);
  for (const char* part : {"Practice line, willow bank\n", "What it means", "<- chosen", "ft", "Common practice, no source", "Cautions"}) {
    EXPECT_NE(ran.out.find(part), std::string::npos) << part;
  }
  const json space = json::parse(run("--quick --free --least-bay '1.5 m' --most-bay '2.4 m' --most-tapes 7 --most-slack '2 %' --json").out).at("space");
  for (const json& layout : space.at("layouts")) {
    EXPECT_LE(layout.at("tapes").get<int>(), 7);
    for (const json& slack : layout.at("slack")) EXPECT_LE(slack.get<double>(), 0.02 + 1e-12);
    for (const json& bay : layout.at("phrase").at("bays")) EXPECT_TRUE(bay.get<int>() >= 150 && bay.get<int>() <= 240) << bay;
  }
}

TEST_F(SpaceCommand, GivesTheBestSoFarWhenInterrupted) {
  const Ran ran = run("--effort 500 -o out", "timeout --foreground --preserve-status -s INT 6");
  EXPECT_EQ(ran.exit_code, 3) << ran.err;
  EXPECT_NE(ran.out.find("STOPPED"), std::string::npos);
  EXPECT_NE(ran.out.find("<- chosen"), std::string::npos) << ran.out;
  EXPECT_FALSE(std::filesystem::exists(folder_.path() / "out"));
}

TEST_F(SpaceCommand, RefusesWhatMakesNoSenseBeforeAnythingIsWritten) {
  const struct { const char* arguments; const char* says; } cases[] = {
      {"--part 4/3 -o out", "--part"},          {"--part 1/3", "-o FOLDER"},      {"--part 1/3 --join parts -o out", "--join"},
      {"--most-slack 2", "--most-slack"},       {"--least-bay '9 m' -o out", "bays"}, {"--loop-error '80 %' -o out", "0 to 50 %"},
      {"--most-backup-tension '3 m' -o out", "--most-backup-tension"}};
  for (const auto& [arguments, says] : cases) {
    const Ran ran = run(arguments);
    EXPECT_EQ(ran.exit_code, 2) << arguments;
    EXPECT_NE(ran.err.find(says), std::string::npos) << arguments << ": " << ran.err;
    EXPECT_EQ(ran.out, "") << arguments;
  }
  change("joint = \"taped\"", "joint = \"ring\"");
  const Ran rings = run("-o out");
  EXPECT_EQ(rings.exit_code, 2);
  EXPECT_NE(rings.err.find("rig.toml:"), std::string::npos) << rings.err;
  EXPECT_NE(rings.err.find("through rings"), std::string::npos) << rings.err;
  EXPECT_EQ(folder_.listing(), "rig.toml");
}

TEST_F(TapingCommand, PartsJoinToTheBytesOfOneRunAndExactCrewsGetThePlan) {
  const Ran whole = run("--crews 5 --json");
  ASSERT_EQ(whole.exit_code, 0) << whole.err;
  const json taping = json::parse(whole.out).at("taping");
  EXPECT_EQ(taping.at("crews"), 5);
  EXPECT_EQ(taping.at("touch").size(), 9u);
  EXPECT_GT(taping.at("touch")[4].at("drop_m").get<double>(), 0.0);  // more backup hangs deeper
  for (const char* part : {"2/2", "1/2"}) EXPECT_EQ(run("--crews 5 -o parts --part " + std::string(part)).exit_code, 0);
  EXPECT_EQ(run("--crews 5 --json --join parts").out, whole.out);

  const json exact = json::parse(run("--crews 3 --arm-span-error '0 %' --loop-error '0 %' --json").out).at("taping");
  EXPECT_NEAR(exact.at("return_small").at("spread"), 0.0, 1e-9);
  EXPECT_NEAR(exact.at("return_small").at("mean"), exact.at("return_small").at("p95"), 1e-9);
}

TEST_F(TapingCommand, PrintsAReportOfEightyColumns) {
  const Ran ran = run("--crews 3 --date 2026-05-01");
  EXPECT_EQ(ran.exit_code, 0) << ran.err;
  expect_narrow(ran.out);
  for (const char* part : {"as 3 crews tape it", "full-size shakes", "tiny swings", "What 10 mm of backup more do", "Cautions"}) {
    EXPECT_NE(ran.out.find(part), std::string::npos) << part;
  }
  EXPECT_EQ(folder_.listing(), "rig.toml");
}

}  // namespace
}  // namespace spanloom
