#include "files/readings_toml.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <numbers>
#include <string>

#include <fmt/format.h>
#include <nlohmann/json.hpp>

#include "files/gauge_json.h"
#include "files/readings_problems.h"
#include "rig_texts.h"
#include "support/gauge_sample.h"

namespace spanloom {
namespace {

ReadingsFile readings_of(const std::string& text, const SideFileLoader& load = test::no_side_files) {
  return read_readings(text, "readings.toml", load);
}

/// All problems, one a line.
std::string complaints(const std::string& text, const SideFileLoader& load = test::no_side_files) {
  try {
    (void)readings_of(text, load);
  } catch (const FileError& error) {
    return error.what();
  }
  return "";
}

constexpr const char* kAll = R"(title = "First evening"
[[pulse]]
at = "5 ft"
round_trips = 2
times = ["1.12 s", "1090 ms"]
length = "60 ms"
timing = "0.05 s"
[[sag]]
at = "31 m"
weight = "78 kg"
sag = "2.31 m"
from = "standing"
uncertainty = "20 mm"
[[frequency]]
way = "up"
bellies = 2
swings = 10
times = "7.3 s"
[[marks]]
at = "3 m"
unloaded = "2.000 m"
standing = "2.064 m"
[[drop]]
bay = 3
drop = "105 mm"
[prior]
mass = "4 %"
gap = "20 cm"
)";

TEST(ReadingsToml, ReadsEveryKindInSi) {
  const Readings r = readings_of(kAll).readings;
  EXPECT_EQ(r.title, "First evening");
  ASSERT_EQ(r.pulses.size(), 1u);
  EXPECT_DOUBLE_EQ(r.pulses[0].at, 5 * 0.3048);
  EXPECT_EQ(r.pulses[0].round_trips, 2.0);
  EXPECT_EQ(r.pulses[0].times, (std::vector<double>{1.12, 1.09}));
  EXPECT_DOUBLE_EQ(r.pulses[0].length.value, 0.06);
  EXPECT_FALSE(r.pulses[0].length.assumed);
  EXPECT_DOUBLE_EQ(r.pulses[0].timing_sd.value, 0.05);
  ASSERT_EQ(r.sags.size(), 1u);
  EXPECT_EQ(r.sags[0].from, SagFrom::standing);
  EXPECT_DOUBLE_EQ(r.sags[0].mass, 78.0);
  EXPECT_DOUBLE_EQ(r.sags[0].sd.value, 0.02);
  ASSERT_EQ(r.frequencies.size(), 1u);
  EXPECT_EQ(r.frequencies[0].way, SwingWay::up);
  EXPECT_EQ(r.frequencies[0].bellies, 2);
  EXPECT_EQ(r.frequencies[0].times, std::vector<double>{7.3});
  ASSERT_EQ(r.marks.size(), 1u);
  EXPECT_DOUBLE_EQ(r.marks[0].standing, 2.064);
  ASSERT_EQ(r.drops.size(), 1u);
  EXPECT_EQ(r.drops[0].bay, 2u) << "counted from 1 in the file, from 0 inside";
}

TEST(ReadingsToml, WhatIsNotStatedIsAssumedAndSaysSo) {
  const Readings r = readings_of(kAll).readings;
  EXPECT_TRUE(r.frequencies[0].timing_sd.assumed);
  EXPECT_EQ(r.frequencies[0].timing_sd.value, kUsualTiming);
  EXPECT_TRUE(r.marks[0].sd.assumed);
  EXPECT_EQ(r.marks[0].sd.value, kUsualMarksSd);
  EXPECT_TRUE(r.drops[0].sd.assumed);
  EXPECT_EQ(r.drops[0].sd.value, kUsualDropSd);
  EXPECT_FALSE(r.prior.mass_sd.assumed);
  EXPECT_DOUBLE_EQ(r.prior.mass_sd.value, 0.04);
  EXPECT_DOUBLE_EQ(r.prior.gap_sd.value, 0.2);
  EXPECT_TRUE(r.prior.stretch_sd.assumed);
  EXPECT_EQ(r.prior.stretch_sd.value, usual_prior().stretch_sd.value);
}

TEST(ReadingsToml, TellsEveryProblemOfTheFileAtOnceWithItsPlace) {
  const std::string told = complaints(R"([[pulse]]
at = 1.5
round_trips = 2.5
times = ["1.12 s", "0 s"]
[[sag]]
at = "31 m"
wieght = "78 kg"
sag = "2.31 kg"
from = "anchor"
[[drop]]
bay = 0
drop = "-5 mm"
[[marks]]
at = "3 m"
unloaded = "2.064 m"
standing = "2 m"
[prior]
stretch = "60 %"
)");
  for (const char* part : {"readings.toml:2:6: pulse[0].at: read 1.5, expected a length with its unit",
                           "readings.toml:3:15: pulse[0].round_trips: read 2.5, expected a whole number",
                           "readings.toml:4:20: pulse[0].times[1]: read \"0 s\", expected more than 0 s",
                           "readings.toml:7:1: sag[0].wieght", "did you mean \"weight\"?",
                           "readings.toml:8:7: sag[0].sag: read \"2.31 kg\", expected a length in",
                           "readings.toml:9:8: sag[0].from: read \"anchor\", expected \"anchors\" or \"standing\"",
                           "readings.toml:11:7: drop[0].bay: read 0, expected the number of a bay",
                           "readings.toml:12:8: drop[0].drop: read \"-5 mm\", expected more than 0 m",
                           "readings.toml:16:12: marks[0].standing: read \"2 m\", expected more than unloaded",
                           "readings.toml:18:11: prior.stretch: read \"60 %\", expected 0 % to below 50 %"}) {
    EXPECT_NE(told.find(part), std::string::npos) << part << "\n" << told;
  }
  EXPECT_EQ(told.find("drop[0].uncertainty"), std::string::npos) << told;
}

TEST(ReadingsToml, AMissingKeyIsToldOnceAndNothingFollowsFromIt) {
  const std::string told = complaints("[[pulse]]\nat = \"1 m\"\n[[drop]]\nbay = 2\n");
  EXPECT_EQ(std::count(told.begin(), told.end(), '\n'), 2) << told;  // three lines
  for (const char* key : {"pulse[0].round_trips", "pulse[0].times", "drop[0].drop"}) {
    EXPECT_NE(told.find(key), std::string::npos) << told;
  }
}

TEST(ReadingsToml, LocatesWhatIsFoundLaterAtItsPlace) {
  const ReadingsFile file = readings_of(kAll);
  const FileProblem found = file.locate({"sag[0].weight", "78 kg", "less", ""});
  EXPECT_EQ(found.problem.read, "\"78 kg\"");
  EXPECT_EQ(found.place, (Place{10, 10}));
  EXPECT_EQ(file.locate({"drop[0].bay", "2", "a bay of the rig", ""}).problem.read, "3") << "as it is written";
  EXPECT_EQ(file.locate({"pulse[0].times[1]", "1.09 s", "less", ""}).place.line, 5);
}

// ---- records ----

/// A level swing at one frequency under gravity, as a device that lies with z up would record it.
std::string record_of(double frequency, double seconds) {
  std::string text = "time [s],x [m/s2],y [m/s2],z [m/s2]\n";
  for (int i = 0; i < int(seconds * 50.0); ++i) {
    const double t = 0.02 * i;
    text += fmt::format("{:.3f},0.0,{:.5f},9.80665\n", t, 0.8 * std::sin(2.0 * std::numbers::pi * frequency * t) + 0.01 * std::sin(97.0 * t * t));
  }
  return text;
}

constexpr const char* kRecord = "[[accelerometer]]\nfile = \"swing.csv\"\nat = \"4 m\"\n";

TEST(ReadingsToml, FindsTheSwingInARecord) {
  const auto load = [](const std::string& name) {
    EXPECT_EQ(name, "swing.csv");
    return SideFile{record_of(1.25, 40.0), ""};
  };
  const Readings r = readings_of(kRecord, load).readings;
  ASSERT_EQ(r.spectra.size(), 1u);
  EXPECT_EQ(r.spectra[0].at, 4.0);
  ASSERT_FALSE(r.spectra[0].peaks.empty());
  EXPECT_EQ(r.spectra[0].peaks[0].way, SwingWay::sideways);
  EXPECT_NEAR(r.spectra[0].peaks[0].frequency, 1.25, 1.0 / 40.0);  // a resolution of the record
}

TEST(ReadingsToml, ARecordThatIsNotThereOrTellsNothingIsToldWhereItIsNamed) {
  EXPECT_NE(complaints(kRecord).find("readings.toml:2:8: accelerometer[0].file"), std::string::npos) << complaints(kRecord);
  const auto broken = [](const std::string&) { return SideFile{"time [s],x [m/s2]\n0,1\n", ""}; };
  EXPECT_NE(complaints(kRecord, broken), "");
  const auto still = [](const std::string&) {
    std::string text = "time [s],x [m/s2],y [m/s2],z [m/s2]\n";
    for (int i = 0; i < 300; ++i) text += fmt::format("{:.2f},0,0,4\n", 0.1 * i);  // no gravity and no rest
    return SideFile{text, ""};
  };
  EXPECT_NE(complaints(kRecord, still).find("readings.toml:2:8: accelerometer[0].file"), std::string::npos) << complaints(kRecord, still);
}

TEST(ReadingsProblems, FindNothingWrongWithThePriorAsItUsuallyIs) { EXPECT_TRUE(problems_of(Readings{}).empty()); }

// ---- what is found from them ----

TEST(GaugeJson, HasEveryNumberInSiUnderAKeyWithItsUnit) {
  Rig rig = rig_with_defaults();
  rig.title = "Heron gorge";
  Readings readings;
  readings.title = "First evening";
  const nlohmann::json document = nlohmann::json::parse(gauge_json(rig, readings, fixture::gauge_sample()));
  EXPECT_EQ(document.at("format").at("name"), "spanloom-gauge");
  EXPECT_EQ(document.at("format").at("number"), 1);
  const nlohmann::json& gauge = document;
  EXPECT_EQ(gauge.at("tension_N"), 4020.0);
  EXPECT_EQ(gauge.at("interval_95_N"), (nlohmann::json{3710.0, 4350.0}));
  EXPECT_EQ(gauge.at("advice"), "pull_in");
  EXPECT_EQ(gauge.at("pull_m"), 0.2);
  EXPECT_EQ(gauge.at("by").at(1), (nlohmann::json{{"method", "sag"}, {"tension_N", 4110.0}, {"sd_N", 240.0}}));
  EXPECT_EQ(gauge.at("readings").at(2).at("left_out"), true);
  EXPECT_TRUE(gauge.at("readings").at(2).at("tension_N").is_null());
  EXPECT_EQ(gauge.at("loops").at(2).at("bay"), 3) << "counted from 1, as people do";
  EXPECT_EQ(gauge.at("loops").at(2).at("read_drop_m"), 0.105);
  EXPECT_TRUE(gauge.at("loops").at(3).at("read_drop_m").is_null());
}

}  // namespace
}  // namespace spanloom
