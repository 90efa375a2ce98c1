#include "files/survey_toml.h"

#include <gtest/gtest.h>

#include <numbers>
#include <string>

#include "files/survey_json.h"

namespace spanloom {
namespace {

constexpr const char* kLaser = "[[laser]]\ndistance = \"62.3 m\"\nangle = \"-1.4 deg\"\n";

SurveyFile read(const std::string& text) {
  return read_survey("title = \"Test\"\n" + text, "survey.toml", [](const std::string& name) {
    if (name == "ground.csv") return SideFile{"distance [m],height [m]\n0,-1\n20,-8\n62.3,-2\n", ""};
    return SideFile{std::nullopt, "there is no file " + name};
  });
}

std::string problems(const std::string& text) {
  try {
    read(text);
  } catch (const FileError& error) {
    return error.what();
  }
  return "none";
}

TEST(SurveyFile, HoldsReadingsInSi) {
  const Survey s =
      read(
          "[[laser]]\ndistance = [\"62.3 m\", \"204 ft 5 in\"]\nangle = \"-1.8 deg\"\nangle_sd = \"0.2 deg\"\n"
          "instrument_above = \"1.5 m\"\n")
          .survey;
  ASSERT_EQ(s.lasers.size(), 1u);
  EXPECT_NEAR(s.lasers[0].sight.distances[1], 204.0 * 0.3048 + 5 * 0.0254, 1e-12);
  EXPECT_NEAR(s.lasers[0].sight.angles[0], -std::numbers::pi / 100.0, 1e-15);
  EXPECT_FALSE(s.lasers[0].sd.angle.assumed);
  EXPECT_TRUE(s.lasers[0].sd.distance.assumed);
  EXPECT_EQ(s.lasers[0].instrument_above, 1.5);
}

TEST(SurveyFile, HoldsAnchorsByLatitudeLongitudeAndHeight) {
  const Survey s =
      read(
          "[gps]\nhorizontal_sd = \"2 m\"\n[anchors.near]\nlatitude = \"10 S\"\nlongitude = \"20 W\"\nheight = \"312 "
          "m\"\n"
          "[anchors.far]\nlatitude = \"10 S\"\nlongitude = \"-19.9994 deg\"\nheight = \"310 m\"\nheight_sd = \"4 m\"\n")
          .survey;
  ASSERT_EQ(s.positions.size(), 1u);
  // A degree of longitude at 10 deg south is 109 639 m (from memory, tables of the WGS84 ellipsoid).
  EXPECT_NEAR(s.positions[0].far.x, 0.0006 * 109639.0, 0.01);
  EXPECT_NEAR(s.positions[0].far.z, -2.0, 1e-3);
  EXPECT_EQ(s.positions[0].near_sd.horizontal.value, 2.0);
  EXPECT_TRUE(s.positions[0].near_sd.height.assumed);
  EXPECT_EQ(s.positions[0].far_sd.height.value, 4.0);
}

TEST(SurveyFile, TakesAGroundTableAsItIs) {
  const SurveyReport report = survey_gap(read(std::string("ground = \"ground.csv\"\n") + kLaser).survey);
  ASSERT_EQ(report.ground.points.size(), 3u);
  EXPECT_EQ(report.ground.points[1].height, -8.0);
}

TEST(SurveyFile, TellsAllThatIsWrongAtOnceWithItsPlace) {
  const std::string said =
      problems("gpx = \"none.gpx\"\n[[laser]]\ndistance = 62.3\nangel = \"1 deg\"\n[[stand]]\nbetween = \"190 deg\"\n");
  for (const char* part :
       {"survey.toml:2:7: gpx:", "survey.toml:4:12: laser[0].distance:", "survey.toml:5:1: laser[0].angel:",
        "did you mean \"angle\"?", "stand[0].near", "survey.toml:7:11: stand[0].between"}) {
    EXPECT_NE(said.find(part), std::string::npos) << part << '\n' << said;
  }
}

TEST(SurveyFile, RefusesACoordinateWithoutItsSide) {
  const std::string said = problems("[anchors.near]\nlatitude = -10.5\nlongitude = \"20\"\nheight = \"3 m\"\n"
                                    "[anchors.far]\nlatitude = \"10 E\"\nlongitude = \"20 W\"\nheight = \"3\"\n");
  for (const char* part : {"survey.toml:3:12: anchors.near.latitude", "say E, W or deg behind it",
                           "E and W are of a longitude", "anchors.far.height"}) {
    EXPECT_NE(said.find(part), std::string::npos) << part << '\n' << said;
  }
}

TEST(SurveyFile, RefusesAnchorsThatCannotBeThoseOfAGap) {
  const auto at = [](const std::string& longitude) {
    return problems(
        "[anchors.near]\nlatitude = \"10 S\"\nlongitude = \"20 W\"\nheight = \"3 m\"\n[anchors.far]\nlatitude = \"10 "
        "S\"\n"
        "longitude = \"" +
        longitude + "\"\nheight = \"3 m\"\n");
  };
  EXPECT_NE(at("20 W").find("both anchors at one place"), std::string::npos);
  EXPECT_NE(at("20 E").find("at most 5000 m"), std::string::npos);
  EXPECT_EQ(at("19.999 W"), "none");
}

TEST(SurveyFile, RefusesReadingsThatCannotBe) {
  for (const char* text :
       {"[[laser]]\ndistance = \"-3 m\"\nangle = \"1 deg\"\n", "[[laser]]\ndistance = \"3 m\"\nangle = \"91 deg\"\n",
        "[[laser]]\ndistance = \"3 m\"\nangle = \"1 deg\"\ndistance_sd = \"0 mm\"\n", "ground = \"ground.csv\"\n",
        "[[laser]]\ndistance = \"3 m\"\nangle = \"1 deg\"\n[laser_ground]\npoints = [[\"0 m\", \"1 deg\"]]\n"}) {
    EXPECT_NE(problems(text).find("survey.toml:"), std::string::npos) << text;
  }
}

TEST(SurveyFile, PlacesWhatTheEngineFinds) {
  const SurveyFile file = read(kLaser);
  const FileError error = file.locate(InputError("laser[0].distance", "so", "otherwise"));
  EXPECT_EQ(error.problems()[0].place, (Place{3, 12}));
}

TEST(SiteToml, IsASiteTableThatReadsBack) {
  const SurveyReport report = survey_gap(read(std::string("ground = \"ground.csv\"\n") + kLaser).survey);
  const Value site = *parse_document(site_toml(report), "site.toml").find("site");
  EXPECT_EQ(site.find("gap")->text, "62.281 m");   // 62.3 cos 1.4 deg
  EXPECT_EQ(site.find("rise")->text, "-1.522 m");  // -62.3 sin 1.4 deg
  EXPECT_EQ(site.find("ground")->text, "ground.csv");
}

}  // namespace
}  // namespace spanloom
