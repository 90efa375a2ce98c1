// `spanloom tension` as it is run: exit codes, what it prints, what it writes.
#include <gtest/gtest.h>

#include <nlohmann/json.hpp>
#include <sstream>

#include "command_run.h"

namespace spanloom {
namespace {

using fixture::Ran;
using nlohmann::json;

class TensionCommand : public fixture::OnThePracticeLine {
 protected:
  TensionCommand() : OnThePracticeLine("tension") {}
};

TEST_F(TensionCommand, PrintsAReportOfEightyColumnsAndWritesNothingByItself) {
  const Ran ran = run("--date 2026-05-01 --creep '0.2 %' --reach '4 m' --parts 5 --bend '90 deg'");
  EXPECT_EQ(ran.exit_code, 0) << ran.err;
  EXPECT_EQ(ran.err, "");
  EXPECT_EQ(ran.out.rfind("Practice line, willow bank\n", 0), 0u);
  for (const char* part : {"2026-05-01", "Pulling up, the backup hung", "With a pulley set",
                           "Left alone, the webbing creeps", "Letting down", "Assumed", "Cautions"}) {
    EXPECT_NE(ran.out.find(part), std::string::npos) << part;
  }
  std::istringstream lines(ran.out);
  for (std::string line; std::getline(lines, line);) EXPECT_LE(line.size(), 80u) << line;
  EXPECT_EQ(folder_.listing(), "rig.toml");
}

TEST_F(TensionCommand, PullsThroughWhatThePlanSays) {
  const json tension = json::parse(run("--json").out).at("tension");
  const json plan = json::parse(fixture::run_spanloom(folder_.path(), "plan rig.toml --json").out).at("plan");
  const json& last = tension.at("steps").back();
  EXPECT_EQ(last.at("pulled_m"), plan.at("pull_through").at("length_m"));
  EXPECT_NEAR(last.at("tension_near_N").get<double>(), 2500.0, 1e-6);
}

TEST_F(TensionCommand, TakesStepsEfficiencyAndPeopleAsTheyAreWritten) {
  const json out =
      json::parse(
          run("--json --step '0.1 kN' --efficiency '70 %' --person-force '50 lbf' --parts 3x3 --rope-leaves fixed").out)
          .at("tension");
  EXPECT_EQ(out.at("steps").size(), 23u);  // 300 N, 400 N ... 2500 N
  EXPECT_DOUBLE_EQ(out.at("inputs").at("sheave_efficiency").at("value").get<double>(), 0.7);
  EXPECT_NEAR(out.at("inputs").at("person_force").at("value_N").get<double>(), 222.411, 1e-3);
  EXPECT_EQ(out.at("sets")[0].at("parts"), json::array({3, 3}));
  EXPECT_EQ(out.at("sets")[0].at("rope_leaves"), "fixed");
}

TEST_F(TensionCommand, WritesResultsStepsAndPicture) {
  const Ran ran = run("--json -o out --date 2026-05-01");
  EXPECT_EQ(ran.exit_code, 0) << ran.err;
  EXPECT_EQ(file("out/tension.json"), ran.out);
  EXPECT_EQ(file("out/tension.png").rfind("\x89PNG", 0), 0u);
  EXPECT_NE(file("out/tension.svg").find("hand-tight 0.30 kN"), std::string::npos);
  EXPECT_EQ(file("out/tension-steps.csv").rfind("tension near [N],", 0), 0u);
}

TEST_F(TensionCommand, SaysEveryWrongOptionAndWritesNothing) {
  const Ran ran =
      run("-o out --parts five --efficiency 0.9 --reach '4' --creep '9 %' --bend-friction 0.2 --step '0 N'");
  EXPECT_EQ(ran.exit_code, 2);
  EXPECT_EQ(ran.out, "");
  for (const char* option : {"--parts", "--efficiency", "--reach", "--creep", "--bend-friction", "--step"}) {
    EXPECT_NE(ran.err.find(option), std::string::npos) << option << '\n' << ran.err;
  }
  EXPECT_EQ(folder_.listing(), "rig.toml");
  for (const char* arguments :
       {"--parts 5x", "--parts 0", "--parts 5x5x5x5x5", "--efficiency '101 %'", "--person-force '-1 N'",
        "--bend '9000 deg'", "--rope-leaves left", "--step '1 N'", "--units furlongs", "-o ''"}) {
    EXPECT_EQ(run(arguments).exit_code, 2) << arguments;
  }
}

TEST_F(TensionCommand, NamesThePlaceOfAnErrorInTheRigFile) {
  change("hand_tight = \"300 N\"", "hand_tight = \"300\"");
  const Ran ran = run("-o out");
  EXPECT_EQ(ran.exit_code, 2);
  EXPECT_NE(ran.err.find("rig.toml:"), std::string::npos) << ran.err;
  EXPECT_EQ(folder_.listing(), "rig.toml");
}

TEST_F(TensionCommand, ExitsWithOneWhenACheckOfThePlanSaysStop) {
  change("reserve = \"1 m\"", "reserve = \"5 m\"");  // more than the ground lies below
  const Ran ran = run("");
  EXPECT_EQ(ran.exit_code, 1);
  EXPECT_NE(ran.out.find("Verdict of the plan: STOP"), std::string::npos);
}

TEST_F(TensionCommand, ExitsWithThreeInWordsWhereThereIsNothingToPull) {
  change("hand_tight = \"300 N\"", "hand_tight = \"3 kN\"");
  const Ran ran = run("-o out");
  EXPECT_EQ(ran.exit_code, 3);
  EXPECT_EQ(ran.out, "");
  EXPECT_NE(ran.err.find("nothing to pull through"), std::string::npos) << ran.err;
  EXPECT_EQ(folder_.listing(), "rig.toml");
}

TEST_F(TensionCommand, ExplainsItselfInItsHelp) {
  const Ran ran = fixture::run_spanloom(folder_.path(), "tension --help");
  EXPECT_EQ(ran.exit_code, 0);
  for (const char* option : {"--parts", "--rope-leaves", "--efficiency", "--person-force", "--reach", "--bend",
                             "--bend-friction", "--creep", "--step", "--out", "--json", "--units"}) {
    EXPECT_NE(ran.out.find(option), std::string::npos) << option;
  }
}

}  // namespace
}  // namespace spanloom
