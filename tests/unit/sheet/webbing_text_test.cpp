#include "sheet/webbing_text.h"

#include <gtest/gtest.h>

#include <sstream>

#include "sheet/text_table.h"
#include "sheet/webbing_picture.h"
#include "support/pull_sample.h"
#include "svg_reading.h"

namespace spanloom {
namespace {

const SheetInfo kInfo{"pull.csv", "0.1.0", "2026-05-01", UnitSystem::metric};

KnownWebbing river() {
  KnownWebbing webbing;
  webbing.name = "river";
  return webbing;
}

std::string report(const PullTest& test, UnitSystem units = UnitSystem::metric) {
  SheetInfo info = kInfo;
  info.units = units;
  return pull_test_text(river(), test, "[webbing.river]\n", info);
}

TEST(PullTestText, StaysWithinTheColumns) {
  for (const UnitSystem units : {UnitSystem::metric, UnitSystem::us}) {
    std::istringstream lines(report(analyse_pull_test(fixture::three_pulls()), units));
    for (std::string line; std::getline(lines, line);) EXPECT_LE(column_count(line), kTextColumns) << line;
  }
}

TEST(WebbingOrigin, FitsCommentsOfAFile) {
  const PullTest test = analyse_pull_test(fixture::three_pulls());
  SheetInfo long_name = kInfo;
  long_name.file_name = std::string(200, 'x');
  std::vector<std::string> lines = origin_of(test, long_name);
  for (const Fibre& fibre : fibres()) {
    for (const std::string& line : origin_of(river(), fibre)) lines.push_back(line);
  }
  for (const std::string& line : lines) EXPECT_LE(column_count("# " + line), kTextColumns) << line;
}

TEST(PullTestText, SaysWhichLengthToMeasure) {
  const std::string used = report(analyse_pull_test(fixture::three_pulls()));
  EXPECT_NE(used.find("after 2 pulls of"), std::string::npos) << used;
  const std::string fresh = report(analyse_pull_test(fixture::three_pulls(), {.cycle = 1}));
  EXPECT_NE(fresh.find("has never been loaded"), std::string::npos) << fresh;
  EXPECT_NE(fresh.find("cycle 1 of 3"), std::string::npos);
}

TEST(PullTestText, NamesWhatATestCannotTell) {
  const std::string text = report(analyse_pull_test(fixture::three_pulls()));
  for (const char* option : {"--mass", "--strength", "--width", "--thickness", "--wet-keeps"}) {
    EXPECT_NE(text.find(option), std::string::npos) << option;
  }
  EXPECT_NE(text.find("not a certificate"), std::string::npos);
}

TEST(FibreText, SaysThatItIsGenericAndABound) {
  const Fibre& fibre = fibre_named("polyester");
  KnownWebbing webbing;
  webbing.name = "generic-polyester";
  webbing.mass_per_length = 0.06;
  const std::string text = fibre_text(webbing, fibre, "[webbing.generic-polyester]\n", kInfo);
  EXPECT_NE(text.find("GENERIC"), std::string::npos);
  EXPECT_NE(text.find("upper bound"), std::string::npos);
  EXPECT_NE(text.find("50.40 kN"), std::string::npos) << text;
  EXPECT_NE(text.find("600.00 kN"), std::string::npos) << text;
  EXPECT_NE(origin_of(webbing, fibre)[0].find("GENERIC"), std::string::npos);
}

TEST(PullTestPicture, IsWellFormedLegibleAndGrey) {
  const auto samples = fixture::three_pulls();
  const PullTest test = analyse_pull_test(samples);
  for (const UnitSystem units : {UnitSystem::metric, UnitSystem::us}) {
    const std::string svg = pull_test_picture(samples, test, "river <&>", units);
    EXPECT_EQ(fixture::xml_fault(svg), "");
    for (const std::string& pair : fixture::texts_that_run_into_another(svg)) ADD_FAILURE() << pair;
    for (const std::string& colour : fixture::colours_of(svg)) ADD_FAILURE() << colour;
    for (const auto& text : fixture::texts_of(svg)) {
      EXPECT_GE(text.size, 9.0) << text.words;
      EXPECT_GE(text.left(), 8.0) << text.words;
      EXPECT_LE(text.right(), kPullPictureWidth - 8.0) << text.words;
      EXPECT_LE(text.y, kPullPictureHeight - 8.0) << text.words;
    }
  }
}

TEST(PullTestPicture, MarksEveryPointOfTheCurve) {
  const auto samples = fixture::three_pulls();
  const PullTest test = analyse_pull_test(samples);
  const auto groups = fixture::groups_of(pull_test_picture(samples, test, "river", UnitSystem::metric), "curve");
  ASSERT_EQ(groups.size(), 1u);
  std::size_t rings = 0;
  for (std::size_t at = groups[0].find("<circle"); at != std::string::npos; at = groups[0].find("<circle", at + 1)) ++rings;
  EXPECT_EQ(rings, test.points.size());
}

}  // namespace
}  // namespace spanloom
