// JSON and CSV of a catch report.
#include <gtest/gtest.h>

#include <algorithm>

#include <nlohmann/json.hpp>

#include "files/catch_csv.h"
#include "files/catch_json.h"
#include "support/catch_sample.h"
#include "support/csv_cells.h"

namespace spanloom {
namespace {

using fixture::catch_rig;
using fixture::catch_sample;
using nlohmann::json;

json document_of(const CatchReport& report) {
  const Rig rig = catch_rig();
  return json::parse(catch_json(rig, report, {{}, judge_catch(rig, report)}));
}

TEST(CatchJson, StartsWithFormatVersionTitleAndItsOwnCautions) {
  const json document = document_of(catch_sample());
  EXPECT_EQ(document.at("format").at("name"), "spanloom-catch");
  EXPECT_EQ(document.at("format").at("number"), 1);
  EXPECT_EQ(document.at("title"), "plain");
  EXPECT_EQ(document.at("cautions"), cautions(Falls::computed));
}

TEST(CatchJson, HoldsEveryFallAsItWasComputed) {
  const CatchReport report = catch_sample();
  const json out = document_of(report).at("catch");
  for (const auto& [key, falls] : {std::pair{"main_failure", &report.main_failure}, {"leash_fall", &report.leash_fall}}) {
    ASSERT_EQ(out.at(key).size(), falls->size());
    for (std::size_t i = 0; i < falls->size(); ++i) {
      const FallResult& fall = (*falls)[i];
      const json& one = out.at(key)[i];
      EXPECT_EQ(one.at("walker_m"), fall.walker_m);
      EXPECT_EQ(one.at("fall_m"), fall.fall);
      EXPECT_EQ(one.at("body_N"), fall.body);
      EXPECT_EQ(one.at("backup_N"), fall.backup);
      EXPECT_EQ(one.at("near_N"), norm(fall.near));
      EXPECT_EQ(one.at("far_N"), norm(fall.far));
      EXPECT_EQ(one.at("clearance_m"), *fall.clearance);
      EXPECT_NEAR(one.at("drift").get<double>(), 0.5 / 5600.0, 1e-12);
    }
  }
  EXPECT_EQ(out.at("main_failure")[0].at("cut_m"), 0.0);
  EXPECT_EQ(out.at("leash_fall")[1].at("step_off"), "from sitting");
  EXPECT_EQ(out.at("leash_fall")[1].at("ring"), "caught");
}

TEST(CatchJson, TellsTapesThatHoldFromTapesThatTear) {
  const json falls = document_of(catch_sample()).at("catch").at("main_failure");
  EXPECT_EQ(falls[0].at("tapes"), "hold");
  EXPECT_TRUE(falls[0].at("tape_strength_N").is_null());
  EXPECT_EQ(falls[1].at("tapes"), "tear");
  EXPECT_EQ(falls[1].at("tape_strength_N"), 0.0);
}

TEST(CatchJson, HasNoNumberOfALostWalkerButForcesOnTheLine) {
  CatchReport report = catch_sample();
  report.main_failure[0].lost = true;
  const json fall = document_of(report).at("catch").at("main_failure")[0];
  EXPECT_EQ(fall.at("lost"), true);
  for (const char* key : {"fall_m", "body_N", "clearance_m", "clear_height_m", "wall_m", "lowest_m"}) {
    EXPECT_TRUE(fall.at(key).is_null()) << key;
  }
  EXPECT_EQ(fall.at("backup_N"), 5200.0);
}

TEST(CatchJson, WarnsAndGivesNoClearHeightWhereAnyWalkerIsLostOrTheRunWasStopped) {
  CatchReport report = catch_sample();
  EXPECT_TRUE(document_of(report).at("catch").at("warnings").empty());
  report.stopped = true;
  EXPECT_TRUE(document_of(report).at("catch").at("clear_height_needed_m").is_null());
  report.stopped = false;
  report.search.lost = 4;
  const json out = document_of(report).at("catch");
  EXPECT_TRUE(out.at("clear_height_needed_m").is_null());
  EXPECT_TRUE(out.at("clear_height_at_m").is_null());
  EXPECT_EQ(out.at("search").at("lost"), 4);
  EXPECT_EQ(out.at("warnings")[0].get<std::string>().rfind("NOTHING HOLDS THE WALKER", 0), 0u);
}

TEST(CatchJson, HoldsSearchAnchorsCostsClearHeightChecksAndNotes) {
  const CatchReport report = catch_sample();
  const json out = document_of(report).at("catch");
  EXPECT_EQ(out.at("complete"), true);
  EXPECT_EQ(out.at("clear_height_needed_m"), 10.4);
  EXPECT_EQ(out.at("search").at("events"), 184);
  EXPECT_EQ(out.at("worst_main_failure").at("fall"), 1);
  EXPECT_EQ(out.at("anchors").at("near").at("points")[1].at("name"), "right bolt");
  const json state = out.at("anchors").at("near").at("states")[2];
  EXPECT_EQ(state.at("state"), "leash fall");
  EXPECT_NEAR(state.at("legs").at("points_N")[0].get<double>(), 3300.0, 1e-9);
  EXPECT_EQ(state.at("one_gone")[0].at("points_N")[1], 6000.0);
  EXPECT_EQ(out.at("costs").size(), 4u);
  EXPECT_TRUE(out.at("costs")[3].at("fall_m").is_null());
  EXPECT_EQ(out.at("costs")[1].at("return"), 0.45);
  EXPECT_EQ(out.at("checks").size(), judge_catch(catch_rig(), report).size());
  EXPECT_EQ(out.at("notes").size(), report.notes.size());
}

TEST(CatchJson, HoldsWithNothingDoneAtAll) {
  CatchReport report;
  report.stopped = true;
  const json out = document_of(report).at("catch");
  EXPECT_EQ(out.at("complete"), false);
  EXPECT_TRUE(out.at("clear_height_needed_m").is_null());
  EXPECT_TRUE(out.at("worst_main_failure").is_null());
  EXPECT_TRUE(out.at("main_failure").empty());
}

TEST(FallsCsv, HasOneRowAFallAndUnitsInTheHead) {
  const CatchReport report = catch_sample();
  const auto rows = cells_of(falls_csv(catch_rig(), report));
  ASSERT_EQ(rows.size(), 1 + report.main_failure.size() + report.leash_fall.size());
  for (const auto& row : rows) EXPECT_EQ(row.size(), rows[0].size());
  EXPECT_EQ(rows[0][11], "body [N]");
  EXPECT_EQ(rows[1][0], "main failure");
  EXPECT_EQ(rows[3][0], "leash fall");
  EXPECT_NEAR(std::stod(rows[1][11]), report.main_failure[0].body, 0.051);
  EXPECT_NEAR(std::stod(rows[3][10]), report.leash_fall[0].fall, 5.1e-4);
  EXPECT_EQ(rows[1][8], "");      // tapes that never tear have no strength
  EXPECT_EQ(rows[2][8], "0.0");
  EXPECT_EQ(rows[3][2], "");      // nothing is cut in a leash fall
}

TEST(FallsCsv, LeavesCellsEmptyWhereNothingHoldsTheWalker) {
  CatchReport report = catch_sample();
  report.main_failure[0].lost = true;
  const auto rows = cells_of(falls_csv(catch_rig(), report));
  EXPECT_EQ(rows[1][9], "yes");
  EXPECT_EQ(rows[1][10], "");
  EXPECT_EQ(rows[1][11], "");
  EXPECT_NEAR(std::stod(rows[1][12]), 5200.0, 0.051);
  for (const char* head : {"clear height [m]", "over the ground [m]", "to a wall [m]", "lowest [s]"}) {
    const auto at = std::find(rows[0].begin(), rows[0].end(), head) - rows[0].begin();
    ASSERT_LT(std::size_t(at), rows[0].size()) << head;
    EXPECT_EQ(rows[1][std::size_t(at)], "") << head;
    EXPECT_NE(rows[2][std::size_t(at)], "") << head;
  }
}

TEST(FallsCsv, QuotesNamesWithCommas) {
  CatchReport report = catch_sample();
  report.main_failure[0].cut_words = "link, \"soft\"";
  EXPECT_NE(falls_csv(catch_rig(), report).find(",\"link, \"\"soft\"\"\","), std::string::npos);
}

TEST(FallPathCsv, IsThePathOfTheHardestFallOfEachKind) {
  CatchReport report = catch_sample();
  const auto rows = cells_of(fall_path_csv(report));
  const auto& failure = report.main_failure[0].path;
  ASSERT_EQ(rows.size(), 1 + failure.size() + report.leash_fall[0].path.size());
  EXPECT_EQ(rows[0][1], "time [s]");
  EXPECT_EQ(rows[20][0], "main failure");
  EXPECT_NEAR(std::stod(rows[20][4]), failure[19].hip.z, 5.1e-5);
  EXPECT_EQ(rows.back()[0], "leash fall");
  report.main_failure[0].lost = true;
  EXPECT_EQ(fall_path_csv(report).find("main failure"), std::string::npos);
}

}  // namespace
}  // namespace spanloom
