#include "sheet/space_picture.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <stdexcept>

#include <fmt/format.h>

#include "support/space_sample.h"
#include "svg_reading.h"

namespace spanloom {
namespace {

using fixture::empty_space_sample;
using fixture::groups_of;
using fixture::ReadText;
using fixture::space_rig;
using fixture::space_sample;
using fixture::stopped_space_sample;

std::string picture(const SpaceReport& report, UnitSystem units = UnitSystem::metric) {
  return space_picture(space_rig(), report, units);
}

bool has_text(const std::string& svg, const std::string& words) {
  const auto texts = fixture::texts_of(svg);
  return std::any_of(texts.begin(), texts.end(), [&](const ReadText& t) { return t.words.find(words) != std::string::npos; });
}

std::size_t count_of(const std::string& svg, const std::string& words) {
  std::size_t count = 0;
  for (std::size_t at = svg.find(words); at != std::string::npos; at = svg.find(words, at + 1)) ++count;
  return count;
}

// A line of forty short bays and one layout only.
SpaceReport crowded_sample() {
  SpaceReport report = space_sample();
  report.points.resize(2);
  for (JudgedLayout* layout : {&report.own, &*report.even, &report.points[1]}) {
    layout->layout.bays.assign(40, 0.5);
    layout->drop.assign(40, 0.05);
  }
  return report;
}

double number_after(const std::string& svg, const std::string& key, std::size_t from = 0) {
  const std::size_t at = svg.find(key, from);
  if (at == std::string::npos) throw std::out_of_range("no " + key);
  return std::stod(svg.substr(at + key.size()));
}

TEST(SpacePicture, IsWellFormedLegibleAndGrey) {
  for (const SpaceReport& report : {space_sample(), empty_space_sample(), stopped_space_sample(), crowded_sample()}) {
    for (const UnitSystem units : {UnitSystem::metric, UnitSystem::us}) {
      Rig rig = space_rig();
      rig.title = "Heron gorge <&> (invented), a title that is rather long so that it has to be cut somewhere before the edge";
      const std::string svg = space_picture(rig, report, units);
      EXPECT_EQ(fixture::xml_fault(svg), "");
      EXPECT_EQ(svg.find("nan"), std::string::npos);
      for (const std::string& pair : fixture::texts_that_run_into_another(svg)) ADD_FAILURE() << pair;
      for (const std::string& colour : fixture::colours_of(svg)) ADD_FAILURE() << colour;
      for (const ReadText& text : fixture::texts_of(svg)) {
        EXPECT_GE(text.size, 9.0) << text.words;
        EXPECT_GE(text.left(), 8.0) << text.words;
        EXPECT_LE(text.right(), kSpacePictureWidth - 8.0) << text.words;
        EXPECT_LE(text.y, kSpacePictureHeight - 8.0) << text.words;
      }
    }
  }
}

TEST(SpacePicture, NamesItsAxes) {
  const std::string svg = picture(space_sample());
  EXPECT_TRUE(has_text(svg, "number of tapes"));
  EXPECT_TRUE(has_text(svg, "comes back [%]"));
}

TEST(SpacePicture, NamesEveryMarkInWordsWithItsNumbers) {
  const std::string legend = groups_of(picture(space_sample()), "legend").front();
  for (const char* words : {"the rig as it is", "7 tapes, 52 %", "evenly taped", "9 tapes, 58 %", "at random", "mean of 8: 40 %",
                            "typically +-5 points", "chosen", "9 tapes, 27 %", "the best for"}) {
    EXPECT_TRUE(has_text(legend, words)) << words;
  }
}

// The rig as it is a square, even a triangle, layouts found filled dots, the chosen a dot in a ring.
TEST(SpacePicture, TellsMarksApartByShape) {
  const std::vector<std::string> marks = groups_of(picture(space_sample()), "return-mark");
  ASSERT_EQ(marks.size(), 5u);
  EXPECT_EQ(count_of(marks[0], "<rect"), 1u);
  EXPECT_EQ(count_of(marks[1], "<polygon"), 1u);
  EXPECT_EQ(count_of(marks[2], "<circle"), 1u);
  EXPECT_EQ(count_of(marks[3], "<circle"), 2u);
  EXPECT_EQ(count_of(marks[4], "<circle"), 1u);
}

// Points of 7, 9 and 11 tapes that return 34, 27 and 25 %: equal steps across, heights in proportion.
TEST(SpacePicture, PutsMarksWhereTapesAndReturnSay) {
  const std::vector<std::string> marks = groups_of(picture(space_sample()), "return-mark");
  ASSERT_EQ(marks.size(), 5u);
  const auto x = [&](std::size_t i) { return number_after(marks[i], "cx=\""); };
  const auto y = [&](std::size_t i) { return number_after(marks[i], "cy=\""); };
  EXPECT_GT(x(3), x(2));
  EXPECT_NEAR(x(3) - x(2), x(4) - x(3), 0.03);
  EXPECT_GT(y(4), y(3));
  EXPECT_NEAR((y(3) - y(2)) / 7.0, (y(4) - y(3)) / 2.0, 0.02);
}

TEST(SpacePicture, DrawsATapeAStrokeAndABayALoop) {
  const SpaceReport report = space_sample();
  const std::vector<std::string> strips = groups_of(picture(report), "strip");
  ASSERT_EQ(strips.size(), 3u);
  const std::vector<const JudgedLayout*> layouts = {&report.own, &*report.even, &report.points[1]};
  for (std::size_t i = 0; i < 3; ++i) {
    EXPECT_EQ(count_of(strips[i], "<polyline"), layouts[i]->layout.bays.size());
    EXPECT_EQ(count_of(strips[i], "<line"), layouts[i]->tapes() + 1);   // and the main
  }
  EXPECT_TRUE(has_text(strips[0], "the rig as it is: 7 tapes, 52 % comes back, drops "));
  EXPECT_TRUE(has_text(strips[1], "evenly taped: 9 tapes, 58 % comes back, drops "));
  EXPECT_TRUE(has_text(strips[2], "chosen: 9 tapes, 27 % comes back, drops "));
}

// A loop's deepest point below the main over its drop is one and the same number in all strips.
TEST(SpacePicture, ExaggeratesAllDropsAlikeAndSaysHowMuch) {
  SpaceReport report = space_sample();
  for (JudgedLayout* layout : {&report.own, &*report.even, &report.points[1]}) {
    layout->drop.assign(layout->layout.bays.size(), 0.1);
  }
  report.own.drop.assign(report.own.layout.bays.size(), 0.05);
  const auto deepest = [&](const std::string& strip) {
    const std::size_t at = strip.find("<polyline points=\"") + 18;
    const std::string points = strip.substr(at, strip.find('"', at) - at);
    const double level = std::stod(points.substr(points.find(',') + 1));
    double depth = 0.0;
    for (std::size_t comma = points.find(','); comma != std::string::npos; comma = points.find(',', comma + 1)) {
      depth = std::max(depth, std::stod(points.substr(comma + 1)) - level);
    }
    return depth;
  };
  const std::string svg = picture(report);
  const std::vector<std::string> strips = groups_of(svg, "strip");
  ASSERT_EQ(strips.size(), 3u);
  EXPECT_NEAR(deepest(strips[1]), 2.0 * deepest(strips[0]), 0.05);
  EXPECT_NEAR(deepest(strips[2]), deepest(strips[1]), 0.05);
  // 20 m of main over 700 points: 0.1 m is 3.5 points to scale.
  const double times = deepest(strips[1]) / (0.1 * 692.0 / fixture::space_main_length());
  EXPECT_TRUE(has_text(svg, fmt::format("drawn {:.0f} times", times))) << times;
}

TEST(SpacePicture, GivesDropsInUsUnits) {
  SpaceReport report = space_sample();
  report.own.drop.assign(report.own.layout.bays.size(), 0.127);   // five inches
  EXPECT_TRUE(has_text(picture(report, UnitSystem::us), "drops 5.0 in"));
}

TEST(SpacePicture, SaysThatNothingWasFoundAndDrawsTheRest) {
  const std::string svg = picture(empty_space_sample());
  EXPECT_TRUE(has_text(svg, "nothing found"));
  EXPECT_FALSE(has_text(svg, "chosen"));
  EXPECT_EQ(groups_of(svg, "strip").size(), 1u);
  EXPECT_EQ(groups_of(svg, "return-mark").size(), 1u);
}

TEST(SpacePicture, DrawsNoPointThatWasNotShaken) {
  const std::string svg = picture(stopped_space_sample());
  EXPECT_TRUE(has_text(svg, "STOPPED BEFORE THE END"));
  EXPECT_TRUE(has_text(svg, "no full-size shake was run"));
  EXPECT_TRUE(has_text(svg, "9 tapes, not shaken"));
  EXPECT_TRUE(groups_of(svg, "return-mark").empty());
  EXPECT_EQ(groups_of(svg, "strip").size(), 2u);
}

TEST(SpacePicture, SaysOfALayoutWithoutAPlanThatItHasNoDrops) {
  SpaceReport report = space_sample();
  report.even->drop.clear();
  const std::string svg = picture(report);
  EXPECT_TRUE(has_text(svg, "evenly taped: 9 tapes, 58 % comes back, no plan and so no drops"));
  EXPECT_EQ(count_of(groups_of(svg, "strip")[1], "<polyline"), 0u);
}

}  // namespace
}  // namespace spanloom
