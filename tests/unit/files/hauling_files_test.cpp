// JSON and CSV of a main pulled up.
#include <gtest/gtest.h>

#include <nlohmann/json.hpp>

#include "files/hauling_json.h"
#include "support/csv_cells.h"
#include "support/hauling_sample.h"

namespace spanloom {
namespace {

using fixture::full_hauling_options;
using fixture::hauled;
using nlohmann::json;

json document_of(const HaulingOptions& options) {
  return json::parse(hauling_json(short_rig(), hauled(short_rig(), options), options, {}));
}

TEST(HaulingJson, StartsWithFormatVersionAndTitle) {
  const json document = document_of({});
  EXPECT_EQ(document.at("format").at("name"), "spanloom-tension");
  EXPECT_EQ(document.at("format").at("number"), 1);
  EXPECT_EQ(document.at("title"), "short");
  EXPECT_FALSE(document.at("cautions").empty());
}

TEST(HaulingJson, HoldsTheNumbersOfTheReport) {
  const HaulingOptions options = full_hauling_options();
  const HaulingReport report = hauled(short_rig(), options);
  const json out = document_of(options).at("tension");
  ASSERT_EQ(out.at("steps").size(), report.steps.size());
  EXPECT_EQ(out.at("steps").back().at("pulled_m"), report.steps.back().pulled);
  EXPECT_EQ(out.at("steps").front().at("ground_clearance_m"), *report.steps.front().ground_clearance);
  EXPECT_EQ(out.at("sets")[0].at("hand_N"), report.sets[0].hand);
  EXPECT_EQ(out.at("sets")[0].at("parts"), json::array({5}));
  EXPECT_EQ(out.at("settling").size(), 4u);
  EXPECT_EQ(out.at("letting_down").at("stored_J"), report.down.stored);
  EXPECT_EQ(out.at("hauls"), *report.hauls);
}

TEST(HaulingJson, MarksWhatIsAssumedAndNullsWhatIsNotKnown) {
  const json out = document_of({}).at("tension");
  EXPECT_EQ(out.at("inputs").at("sheave_efficiency").at("assumed"), true);
  EXPECT_EQ(out.at("inputs").at("hand_tight").at("assumed"), false);
  EXPECT_EQ(out.at("inputs").at("sets_assumed"), true);
  EXPECT_TRUE(out.at("inputs").at("bend").is_null());
  EXPECT_TRUE(out.at("hauls").is_null());
  EXPECT_TRUE(out.at("settling").empty());
  const json given = document_of(full_hauling_options()).at("tension").at("inputs");
  EXPECT_EQ(given.at("sheave_efficiency").at("assumed"), false);
  EXPECT_EQ(given.at("bend").at("friction").at("value"), 0.2);
}

TEST(PullStepsCsv, HasARowAStepAndAColumnASet) {
  const HaulingReport report = hauled(short_rig());
  const auto rows = cells_of(pull_steps_csv(report));
  ASSERT_EQ(rows.size(), report.steps.size() + 1);
  EXPECT_EQ(rows[0].size(), 6u + report.sets.size());
  EXPECT_EQ(rows[0].back(), "hand 3 x 3 parts [N]");
  for (const auto& row : rows) EXPECT_EQ(row.size(), rows[0].size());
  EXPECT_NEAR(std::stod(rows.back()[2]), report.steps.back().pulled, 1e-4);
  EXPECT_NEAR(std::stod(rows.back()[6]), report.sets[0].hand, 0.1);
}

}  // namespace
}  // namespace spanloom
