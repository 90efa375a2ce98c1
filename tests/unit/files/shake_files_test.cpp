// JSON, CSV and PNG of a shake report.
#include <gtest/gtest.h>

#include <cstdint>
#include <nlohmann/json.hpp>

#include "files/png.h"
#include "files/shake_csv.h"
#include "files/shake_json.h"
#include "sheet/drawing.h"
#include "support/csv_cells.h"
#include "support/plain_rig.h"
#include "support/shake_sample.h"

namespace spanloom {
namespace {

using fixture::shake_sample;
using nlohmann::json;

json document_of(const ShakeReport& report) { return json::parse(shake_json(plain_rig(), report)); }

TEST(ShakeJson, StartsWithFormatVersionAndTitle) {
  const json document = document_of(shake_sample());
  EXPECT_EQ(document.at("format").at("name"), "spanloom-shake");
  EXPECT_EQ(document.at("format").at("number"), 1);
  EXPECT_TRUE(document.at("version").is_string());
  EXPECT_EQ(document.at("title"), "plain");
  EXPECT_FALSE(document.at("cautions").empty());
}

TEST(ShakeJson, HoldsEveryShakeAsItWasComputed) {
  const ShakeReport report = shake_sample();
  const json shakes = document_of(report).at("shake").at("shakes");
  ASSERT_EQ(shakes.size(), report.shakes.size());
  for (std::size_t i = 0; i < shakes.size(); ++i) {
    const ReportedShake& shake = report.shakes[i];
    EXPECT_EQ(shakes[i].at("line"), name_of(shake.line));
    EXPECT_EQ(shakes[i].at("direction"), name_of(shake.result.shake.direction));
    EXPECT_EQ(shakes[i].at("frequency_Hz"), shake.result.shake.frequency);
    EXPECT_EQ(shakes[i].at("place_m"), shake.result.place_m);
    EXPECT_EQ(shakes[i].at("return"), shake.result.returned);
    EXPECT_EQ(shakes[i].at("energy_share"), shake.result.energy_share);
    EXPECT_EQ(shakes[i].at("settling_s").is_null(), i != 0);
  }
}

TEST(ShakeJson, GivesTheLedgerOfTheWorstShakeWithDriftAsShareOfTheEnergyPutIn) {
  ShakeReport report = shake_sample();
  report.worst = 3;
  report.shakes[3].result.ledger = {.put_in = 4.0, .lost_in_webbing = 1.0, .lost_to_air = 0.25, .drift = 1e-3};
  const json ledger = document_of(report).at("shake").at("ledger");
  EXPECT_EQ(ledger.at("put_in_J"), 4.0);
  EXPECT_EQ(ledger.at("lost_J"), 1.25);
  EXPECT_EQ(ledger.at("drift"), 2.5e-4);
}

TEST(ShakeJson, HoldsModesUnevennessSentencesAndSwings) {
  const json shake = document_of(shake_sample()).at("shake");
  EXPECT_EQ(shake.at("modes").at("lateral_Hz"), (std::vector<double>{1.61, 1.72, 2.9}));
  EXPECT_EQ(shake.at("modes").at("in_plane_Hz").size(), 7u);
  EXPECT_EQ(shake.at("unevenness").at("drops"), 0.44);
  EXPECT_EQ(shake.at("sentences").size(), shake_sample().sentences.size());
  EXPECT_EQ(shake.at("swing_sentences").size(), 1u);
  const json bay = shake.at("swing").at(0).at("bays").at(2);
  EXPECT_EQ(bay.at("bay"), 3);
  EXPECT_NEAR(bay.at("greatest_deg").get<double>(), 171.887, 1e-3);  // 3 rad, 180/pi degrees each
  EXPECT_EQ(bay.at("passes_over"), true);
  EXPECT_EQ(shake.at("swing").at(1).at("why_not"), "the file states no gust");
}

TEST(ShakeJson, SaysOfAQuickLookThatItIsOneAndNullForWhatWasNotComputed) {
  const json shake = document_of(fixture::quick_sample()).at("shake");
  EXPECT_EQ(shake.at("quick"), true);
  EXPECT_TRUE(shake.at("modes").at("in_plane_Hz").is_null());
  EXPECT_EQ(shake.at("modes").at("lateral_Hz").size(), 3u);
  EXPECT_EQ(document_of(shake_sample()).at("shake").at("quick"), false);
}

TEST(ShakeFiles, GiveNoSettlingTimeWhereTheLineDidNotSettle) {
  ShakeReport report = shake_sample();
  report.shakes[0].settling = {.settles = false, .time = 60.0};
  EXPECT_TRUE(document_of(report).at("shake").at("shakes").at(0).at("settling_s").is_null());
  EXPECT_EQ(shakes_csv(report).find("60.00"), std::string::npos);
}

TEST(ShakeJson, SaysWhetherItIsCompleteAndNullWhereThereIsNothing) {
  EXPECT_EQ(document_of(shake_sample()).at("shake").at("complete"), true);
  ShakeReport report;
  report.stopped = true;
  const json shake = document_of(report).at("shake");
  EXPECT_EQ(shake.at("complete"), false);
  EXPECT_TRUE(shake.at("ledger").is_null());
  EXPECT_TRUE(shake.at("worst").is_null());
  EXPECT_TRUE(shake.at("shakes").empty());
}

TEST(ShakesCsv, HasOneRowAShakeAndUnitsInTheHead) {
  const ShakeReport report = shake_sample();
  const auto rows = cells_of(shakes_csv(report));
  ASSERT_EQ(rows.size(), report.shakes.size() + 1);
  EXPECT_EQ(rows[0][1], "frequency [Hz]");
  for (std::size_t i = 1; i < rows.size(); ++i) {
    const ShakeResult& result = report.shakes[i - 1].result;
    ASSERT_EQ(rows[i].size(), rows[0].size());
    EXPECT_NEAR(std::stod(rows[i][1]), result.shake.frequency, 5.01e-5);
    EXPECT_NEAR(std::stod(rows[i][4]), result.returned, 5.01e-5);
    EXPECT_EQ(rows[i][6].empty(), i != 1);  // settling of the worst alone
  }
}

TEST(HistoryCsv, HoldsTheMotionAtEveryMomentFromAnchorToAnchor) {
  const ShakeReport report = shake_sample();
  const auto rows = cells_of(history_csv(report));
  ASSERT_EQ(rows.size(), report.history.time.size() + 1);
  EXPECT_EQ(rows[0].size(), kHistoryPlaces + 1);
  EXPECT_EQ(rows[0][0], "time [s]");
  EXPECT_EQ(rows[0][1], "at 0.000 m [m]");
  EXPECT_EQ(rows[0].back(), "at 62.000 m [m]");
  const std::size_t moment = 40, column = 51;  // the middle
  EXPECT_EQ(rows[0][column], "at 31.000 m [m]");
  EXPECT_NEAR(std::stod(rows[moment + 1][0]), report.history.time[moment], 5.01e-5);
  EXPECT_NEAR(std::stod(rows[moment + 1][column]), report.history.displacement[moment][62], 5.01e-6);
}

TEST(HistoryCsv, TakesEveryNodeOnceWhereThereAreFew) {
  ShakeReport report;
  report.history = {{0.0, 1.0, 2.0}, {0.0, 0.5}, {{0.0, 0.0, 0.0}, {0.0, 0.25, 0.0}}};
  EXPECT_EQ(history_csv(report),
            "time [s],at 0.000 m [m],at 1.000 m [m],at 2.000 m [m]\n"
            "0.0000,0.00000,0.00000,0.00000\n0.5000,0.00000,0.25000,0.00000\n");
}

std::uint32_t big_endian(const std::string& bytes, std::size_t at) {
  std::uint32_t value = 0;
  for (std::size_t i = 0; i < 4; ++i) value = value << 8 | static_cast<unsigned char>(bytes.at(at + i));
  return value;
}

// Signature and IHDR as in ISO/IEC 15948 (PNG), 5.2 and 11.2.2.
TEST(Png, HasTheSizeAskedForAndEndsWhole) {
  Drawing drawing;
  drawing.rectangle(10.0, 10.0, 30.0, 20.0, "#000");
  const std::string png = png_from_svg(svg_document(100.0, 50.5, "box", drawing.svg()), 100.0, 50.5, 3.0);
  ASSERT_GT(png.size(), 57u);
  EXPECT_EQ(png.substr(0, 8), "\x89PNG\r\n\x1a\n");
  EXPECT_EQ(png.substr(12, 4), "IHDR");
  EXPECT_EQ(big_endian(png, 16), 300u);
  EXPECT_EQ(big_endian(png, 20), 152u);
  EXPECT_EQ(png.substr(png.size() - 8, 4), "IEND");
}

TEST(Png, RefusesWhatIsNoPicture) { EXPECT_THROW(png_from_svg("no picture", 10.0, 10.0), std::runtime_error); }

}  // namespace
}  // namespace spanloom
