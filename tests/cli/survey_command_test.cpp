// `spanloom survey` as it is run.
#include <gtest/gtest.h>

#include <nlohmann/json.hpp>

#include <cmath>

#include "command_run.h"

namespace spanloom {
namespace {

const std::string kGorge = SPANLOOM_SOURCE_DIR "/examples/heron-gorge/";

fixture::Ran survey(const std::string& arguments) {
  const fixture::TemporaryFolder folder;
  return fixture::run_spanloom(folder.path(), "survey " + arguments);
}

TEST(SurveyCommand, GivesTheGapOfTheExample) {
  const fixture::Ran ran = survey(kGorge + "survey.toml --json");
  ASSERT_EQ(ran.exit_code, 0) << ran.err;
  const auto out = nlohmann::json::parse(ran.out);
  EXPECT_EQ(out["format"]["name"], "spanloom-survey");
  const auto& s = out["survey"];
  EXPECT_NEAR(s["gap_m"].get<double>(), 62.0, 0.02);   // the gap that the readings were invented for
  EXPECT_NEAR(s["rise_m"].get<double>(), -1.5, 0.2);
  EXPECT_TRUE(s["well_enough_to_cut"].get<bool>());
  EXPECT_EQ(s["ways"].size(), 3u);
  EXPECT_GT(s["ground"]["points"].size(), 10u);
  EXPECT_NE(ran.out.find("left out"), std::string::npos);   // the beam that missed
}

TEST(SurveyCommand, SaysThatSatellitesAloneAreNotEnoughToCut) {
  const fixture::Ran ran = survey(kGorge + "survey.gpx");
  EXPECT_EQ(ran.exit_code, 0) << ran.err;
  EXPECT_NE(ran.out.find("NOT known well enough to cut webbing"), std::string::npos) << ran.out;
  EXPECT_NE(ran.out.find("standard deviation 3.00 m"), std::string::npos) << ran.out;
}

TEST(SurveyCommand, SaysHowGoodTheHeightsOfATrackAre) {
  const fixture::TemporaryFolder folder;
  const fixture::Ran ran = fixture::run_spanloom(folder.path(), "survey " + kGorge + "survey.gpx -o out");
  ASSERT_EQ(ran.exit_code, 0) << ran.err;
  // 5 m for the anchor and 5 m for the point: 7.07 m together.
  EXPECT_NE(ran.out.find("Caution: heights from a satellite track: good to about 7 m"), std::string::npos) << ran.out;
  const std::string table = fixture::bytes_of(folder.path() / "out/ground.csv");
  EXPECT_NE(table.find("# heights from a satellite track: good to about 7 m"), std::string::npos) << table;
}

TEST(SurveyCommand, SaysThatGroundAboveTheAnchorIsAbove) {
  const fixture::TemporaryFolder folder;
  fixture::put_file(folder.path() / "s.toml",
                    "title = \"x\"\nground = [[\"0 m\", \"3 m\"], [\"62 m\", \"4 m\"]]\n"
                    "[[laser]]\ndistance = \"62 m\"\nangle = \"0 deg\"\n");
  const fixture::Ran ran = fixture::run_spanloom(folder.path(), "survey s.toml");
  EXPECT_NE(ran.out.find("lowest 3.00 m above the near anchor"), std::string::npos) << ran.out << ran.err;
}

TEST(SurveyCommand, CarriesTheDoubtToLengthsAndTension) {
  const fixture::Ran ran = survey(kGorge + "survey.toml --json --rig " + kGorge + "rig.toml");
  ASSERT_EQ(ran.exit_code, 0) << ran.err;
  const auto rig = nlohmann::json::parse(ran.out)["survey"]["rig"];
  EXPECT_NEAR(rig["tension_cut_as_planned"]["tension_N"].get<double>(), 4500.0, 1e-3);
  EXPECT_GT(rig["tension_cut_as_planned"]["gap_longer_N"].get<double>(), 4500.0);
  EXPECT_LT(rig["tension_cut_as_planned"]["gap_shorter_N"].get<double>(), 4500.0);
  // A line with a few percent of stretch takes 1 / (1 + stretch) of what the gap gains.
  const double gap_sd = nlohmann::json::parse(ran.out)["survey"]["gap_sd_m"].get<double>();
  EXPECT_NEAR(rig["main"]["by_gap_m"].get<double>() / gap_sd, 0.965, 0.01);
}

TEST(SurveyCommand, WritesASiteAndARigThatPlans) {
  const fixture::TemporaryFolder folder;
  const fixture::Ran ran =
      fixture::run_spanloom(folder.path(), "survey " + kGorge + "survey.toml --rig " + kGorge + "rig.toml -o out");
  ASSERT_EQ(ran.exit_code, 0) << ran.err;
  EXPECT_NE(fixture::bytes_of(folder.path() / "out/site.toml").find("[site]\ngap = \"62.0"), std::string::npos);
  EXPECT_NE(fixture::bytes_of(folder.path() / "out/rig.toml").find("horizontal distance between the anchors"),
            std::string::npos);
  const fixture::Ran plan = fixture::run_spanloom(folder.path(), "plan out/rig.toml");
  EXPECT_LE(plan.exit_code, 1) << plan.err;
}

TEST(SurveyCommand, TakesTwoPositions) {
  const fixture::Ran ran = survey("--near '10 S, 20 W, 312 m' --far '10 S, 19.9994 W, 310 m' --json");
  ASSERT_EQ(ran.exit_code, 0) << ran.err;
  // 0.0006 deg of 109 639 m at 10 deg south (from memory, tables of the ellipsoid).
  EXPECT_NEAR(nlohmann::json::parse(ran.out)["survey"]["gap_m"].get<double>(), 65.78, 0.01);
}

TEST(SurveyCommand, SaysThatReadingsContradictEachOther) {
  const fixture::TemporaryFolder folder;
  fixture::put_file(folder.path() / "s.toml",
                    "title = \"x\"\n[[laser]]\ndistance = [\"62 m\", \"63 m\"]\nangle = \"0 deg\"\n");
  const fixture::Ran ran = fixture::run_spanloom(folder.path(), "survey s.toml");
  EXPECT_EQ(ran.exit_code, 1);
  EXPECT_NE(ran.out.find("Cut nothing by this"), std::string::npos) << ran.out;
}

TEST(SurveyCommand, RefusesWhatItCannotUse) {
  for (const std::string& bad : {std::string(""), std::string("none.toml"), kGorge + "rig.toml",
                                 kGorge + "survey.toml --near '1 N, 2 E, 3 m'", kGorge + "survey.toml --sideways '3 m'",
                                 kGorge + "survey.gpx --near-name west", kGorge + "survey.gpx --sideways 3",
                                 std::string("--near '1 N, 2 E, 3 m'"), kGorge + "survey.toml -o " + kGorge}) {
    const fixture::Ran ran = survey(bad);
    EXPECT_EQ(ran.exit_code, 2) << bad << '\n' << ran.out << ran.err;
    EXPECT_FALSE(ran.err.empty()) << bad;
  }
}

TEST(SurveyCommand, RunsNoWiderThanATerminal) {
  const std::string out = survey(kGorge + "survey.toml --units us --rig " + kGorge + "rig.toml").out;
  std::size_t start = 0;
  for (std::size_t end; (end = out.find('\n', start)) != out.npos; start = end + 1)
    EXPECT_LE(end - start, 80u) << out.substr(start, end - start);
  EXPECT_GT(start, 1000u);
}

}  // namespace
}  // namespace spanloom
