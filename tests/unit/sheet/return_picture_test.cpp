#include "sheet/return_picture.h"

#include <gtest/gtest.h>

#include <algorithm>

#include "sheet/shake_numbers.h"
#include "support/shake_sample.h"
#include "svg_reading.h"

namespace spanloom {
namespace {

using fixture::groups_of;
using fixture::ReadText;
using fixture::shake_sample;

bool has_text(const std::string& svg, const std::string& words) {
  const auto texts = fixture::texts_of(svg);
  return std::any_of(texts.begin(), texts.end(), [&](const ReadText& t) { return t.words.find(words) != std::string::npos; });
}

TEST(ReturnPicture, IsWellFormedLegibleAndGrey) {
  for (const UnitSystem units : {UnitSystem::metric, UnitSystem::us}) {
    const std::string svg = return_picture(shake_sample(), "Heron gorge <&> (invented)", units);
    EXPECT_EQ(fixture::xml_fault(svg), "");
    for (const std::string& pair : fixture::texts_that_run_into_another(svg)) ADD_FAILURE() << pair;
    for (const std::string& colour : fixture::colours_of(svg)) ADD_FAILURE() << colour;
    for (const ReadText& text : fixture::texts_of(svg)) {
      EXPECT_GE(text.size, 9.0) << text.words;
      EXPECT_GE(text.left(), 8.0) << text.words;
      EXPECT_LE(text.right(), kPictureWidth - 8.0) << text.words;
      EXPECT_LE(text.y, kPictureHeight - 8.0) << text.words;
    }
  }
}

TEST(ReturnPicture, NamesItsAxesWithTheirUnits) {
  const std::string metric = return_picture(shake_sample(), "a line", UnitSystem::metric);
  EXPECT_TRUE(has_text(metric, "time [s]"));
  EXPECT_TRUE(has_text(metric, "along the gap from the near anchor [m]"));
  EXPECT_TRUE(has_text(return_picture(shake_sample(), "a line", UnitSystem::us), "near anchor [ft]"));
}

TEST(ReturnPicture, MarksTheEndOfTheShakeAndTheWindowWithTheReturn) {
  const ShakeReport report = shake_sample();
  const std::string svg = return_picture(report, "a line", UnitSystem::metric);
  EXPECT_TRUE(has_text(svg, "the shake ends"));
  EXPECT_TRUE(has_text(svg, "two round trips"));
  EXPECT_TRUE(has_text(svg, "in this time: " + whole_percent(pictured_result(report)->returned) + " %"));
}

TEST(ReturnPicture, FillsDarkOnlyWhereTheMainIsToTheLeftOfItsRest) {
  ShakeReport report = shake_sample();
  const auto fills = [&](const char* colour) {
    const std::string curves = groups_of(return_picture(report, "a line", UnitSystem::metric), "return-curves").front();
    return curves.find(std::string("fill=\"") + colour) != std::string::npos;
  };
  EXPECT_TRUE(fills("#000"));
  EXPECT_TRUE(fills("#bbb"));
  for (auto& moved : report.history.displacement) {
    for (double& value : moved) value = -std::abs(value);
  }
  EXPECT_FALSE(fills("#000"));
  EXPECT_TRUE(fills("#bbb"));
}

TEST(ReturnPicture, SaysThatItIsForComparisonAndWhichShakeIsTheWorst) {
  ShakeReport report = shake_sample();
  EXPECT_TRUE(has_text(return_picture(report, "a line", UnitSystem::metric),
                       "not the worst (0.5 Hz sideways at 15 % of the gap: 47 %)."));
  report.shakes[0].result.shake = {3.15, 0.35, ShakeDirection::up, 0.1};  // the longest words
  report.shakes[0].result.returned = 1.07;
  EXPECT_TRUE(has_text(return_picture(report, "a line", UnitSystem::metric), "(3.15 Hz upwards at 35 % of the gap: 107 %)."));
  report.quick = true;
  EXPECT_TRUE(has_text(return_picture(report, "a line", UnitSystem::metric), "the worst is not known"));
}

// 0.1 m is 3.9 in (an inch is 25.4 mm exactly); 9.3 m is 30.51 ft.
TEST(ReturnPicture, GivesSwingAndScaleInSmallUnits) {
  ShakeReport report = shake_sample();
  const std::string us = return_picture(report, "a line", UnitSystem::us);
  EXPECT_TRUE(has_text(us, "(30.51 ft from the near anchor), first swing 3.9 in"));
  EXPECT_TRUE(has_text(us, "in of swing"));
  for (auto& moved : report.history.displacement) moved.assign(moved.size(), -0.25);
  EXPECT_TRUE(has_text(return_picture(report, "a line", UnitSystem::metric), "250 mm of swing"));
}

// The sample is crossed in 0.31 s, less than a cycle of 1.6 Hz; at 0.7 s a round trip it is not short.
TEST(ReturnPicture, SaysOfAShortLineThatStripesAreNearlyLevel) {
  ShakeReport report = shake_sample();
  EXPECT_TRUE(has_text(return_picture(report, "a line", UnitSystem::metric), "short for such a shake"));
  for (ReportedShake& shake : report.shakes) shake.result.round_trip = 0.7;
  EXPECT_FALSE(has_text(return_picture(report, "a line", UnitSystem::metric), "short for such a shake"));
}

// A single node moved to the left at all times: every dark shape lies around its place on the axis.
TEST(ReturnPicture, DrawsAPlaceWhereItLiesOnTheAxis) {
  ShakeReport report = shake_sample();
  for (auto& moved : report.history.displacement) {
    std::fill(moved.begin(), moved.end(), 0.0);
    moved[31] = 0.1;  // a quarter of the gap
  }
  Drawing drawing;
  draw_return(drawing, report, {0.0, 0.0, 500.0, 400.0, 10.0}, UnitSystem::metric);
  const std::string curves = groups_of(drawing.svg(), "return-curves").front();
  const std::size_t frame = drawing.svg().find("<rect x=\"", drawing.svg().find("</g>"));
  ASSERT_NE(frame, std::string::npos);
  const double left = std::stod(drawing.svg().substr(frame + 9));
  const std::size_t at_width = drawing.svg().find("width=\"", frame);
  const double width = std::stod(drawing.svg().substr(at_width + 7));
  int shapes = 0;
  for (std::size_t at = curves.find("<polyline points=\""); at != std::string::npos; at = curves.find("<polyline points=\"", at + 1)) {
    const std::string points = curves.substr(at + 18, curves.find('"', at + 18) - at - 18);
    double highest = 1e9, where = 0.0;
    std::size_t from = 0;
    while (from < points.size()) {
      const double x = std::stod(points.substr(from));
      const double y = std::stod(points.substr(points.find(',', from) + 1));
      if (y < highest) highest = y, where = x;
      const std::size_t next = points.find(' ', from);
      if (next == std::string::npos) break;
      from = next + 1;
    }
    EXPECT_NEAR(where, left + 0.25 * width, 0.011);  // two decimals are printed
    ++shapes;
  }
  EXPECT_GT(shapes, 20);
}

TEST(ReturnPicture, KeepsWithinASmallBoxToo) {
  Drawing drawing;
  draw_return(drawing, shake_sample(), {100.0, 50.0, 300.0, 220.0, 9.0}, UnitSystem::metric);
  const std::string svg = svg_document(500.0, 400.0, "small", drawing.svg());
  for (const std::string& pair : fixture::texts_that_run_into_another(svg)) ADD_FAILURE() << pair;
  for (const ReadText& text : fixture::texts_of(svg)) {
    EXPECT_GE(text.left(), 100.0) << text.words;
    EXPECT_LE(text.right(), 400.0) << text.words;
    EXPECT_GE(text.y - text.size, 50.0) << text.words;
    EXPECT_LE(text.y, 270.0) << text.words;
  }
}

TEST(ReturnPicture, IsNotThereWithoutAHistory) {
  ShakeReport report = shake_sample();
  EXPECT_TRUE(has_picture(report));
  report.history = {};
  EXPECT_FALSE(has_picture(report));
}

// ISO 266: third-octaves are called 0.5, 0.63, 0.8 ... whatever exact frequency stands behind the name.
TEST(ShakeNumbers, CallThirdOctavesByTheirNames) {
  const std::vector<std::string> names = {"0.5", "0.63", "0.8", "1", "1.25", "1.6", "2", "2.5", "3.15", "4"};
  for (int i = 0; i < 10; ++i) {
    EXPECT_EQ(hertz(0.5 * std::pow(2.0, i / 3.0)), names[static_cast<std::size_t>(i)]);
    EXPECT_EQ(hertz(std::pow(10.0, (i - 3) / 10.0)), names[static_cast<std::size_t>(i)]);
  }
  EXPECT_EQ(hertz(1.43), "1.43");
}

}  // namespace
}  // namespace spanloom
