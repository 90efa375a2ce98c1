#include "sheet/fall_picture.h"

#include <gtest/gtest.h>

#include <algorithm>

#include "sheet/fall_view.h"
#include "support/catch_sample.h"
#include "svg_reading.h"

namespace spanloom {
namespace {

using fixture::catch_rig;
using fixture::catch_sample;
using fixture::ReadText;

std::string picture_of(const CatchReport& report, const FallResult& fall, UnitSystem units = UnitSystem::metric,
                       const Rig& rig = catch_rig()) {
  return fall_picture(rig, report, fall, units);
}

bool has_text(const std::string& svg, const std::string& words) {
  const auto texts = fixture::texts_of(svg);
  return std::any_of(texts.begin(), texts.end(), [&](const ReadText& t) { return t.words.find(words) != std::string::npos; });
}

void expect_legible(const std::string& svg, double width, double height) {
  EXPECT_EQ(fixture::xml_fault(svg), "");
  for (const std::string& pair : fixture::texts_that_run_into_another(svg)) ADD_FAILURE() << pair;
  for (const std::string& colour : fixture::colours_of(svg)) ADD_FAILURE() << colour;
  for (const ReadText& text : fixture::texts_of(svg)) {
    EXPECT_GE(text.size, 9.0) << text.words;
    EXPECT_GE(text.left(), 8.0) << text.words;
    EXPECT_LE(text.right(), width - 8.0) << text.words;
    EXPECT_LE(text.y, height - 8.0) << text.words;
  }
}

TEST(FallPicture, IsWellFormedLegibleAndGrey) {
  const CatchReport report = catch_sample();
  for (const UnitSystem units : {UnitSystem::metric, UnitSystem::us}) {
    expect_legible(picture_of(report, report.main_failure[0], units), kFallPictureWidth, kFallPictureHeight);
    expect_legible(picture_of(report, report.leash_fall[0], units), kFallPictureWidth, kFallPictureHeight);
  }
}

TEST(FallPicture, StaysLegibleNearEitherAnchorWithGroundAndWallBeside) {
  for (const double walker : {1.5, 3.0, 47.0, 48.5}) {
    Rig rig = catch_rig();
    rig.site.ground = {{0.0, -4.0}, {10.0, -9.0}, {40.0, -9.0}, {50.0, -4.0}};
    CatchReport report = catch_sample();
    FallResult& fall = report.main_failure[0];
    fall.frames.clear();
    fall.walker_m = walker;
    fixture::keep_frames(fall, 50.0);
    fall.lowest_at = fall.frames[30].hip.x;
    expect_legible(picture_of(report, fall, UnitSystem::metric, rig), kFallPictureWidth, kFallPictureHeight);
  }
}

TEST(FallPicture, LabelsEqualTimesFromTheStartToTheLowestMoment) {
  const CatchReport report = catch_sample();
  const std::string svg = picture_of(report, report.main_failure[0]);
  for (const char* time : {"0.00 s", "0.30 s", "0.60 s", "0.90 s", "1.20 s", "1.50 s, lowest"}) {
    EXPECT_TRUE(has_text(svg, time)) << time;
  }
  const auto moments = fall_moments(catch_rig(), report.main_failure[0]);
  ASSERT_EQ(moments.size(), 6u);
  for (std::size_t i = 1; i < moments.size(); ++i) EXPECT_NEAR(moments[i]->time - moments[i - 1]->time, 0.3, 1e-9);
}

// Frames at 0.05 s up to 0.2 s only: every one of them is shown once.
TEST(FallPicture, ShowsEveryFrameOnceWhereThereAreFew) {
  CatchReport report = catch_sample();
  FallResult& fall = report.main_failure[0];
  fall.frames.resize(5);
  fall.lowest_time = 0.2;
  EXPECT_EQ(fall_moments(catch_rig(), fall).size(), 5u);
}

TEST(FallPicture, SaysClearHeightPlaceAndNumbers) {
  const CatchReport report = catch_sample();
  const FallResult& fall = report.main_failure[0];
  const std::string svg = picture_of(report, fall);
  EXPECT_TRUE(has_text(svg, quantity_text(fall.clear_height, Measure::length, UnitSystem::metric) + " clear height"));
  EXPECT_TRUE(has_text(svg, "along the gap from the near anchor [m]"));
  EXPECT_TRUE(has_text(svg, "Falls 7.10 m, 4.20 kN on the body, backup 5.20 kN"));
  EXPECT_TRUE(has_text(svg, "Main failure, the greatest force on the body of all: walker at 12.00 m"));
  EXPECT_TRUE(has_text(picture_of(report, fall, UnitSystem::us), "near anchor [ft]"));
}

TEST(FallPicture, KeepsTrueProportionsAndEveryBodyInTheWindow) {
  const CatchReport report = catch_sample();
  const Rig rig = catch_rig();
  for (const FallResult* fall : {&report.main_failure[0], &report.leash_fall[0]}) {
    const FallView view = fall_view({20.0, 30.0, 500.0, 300.0, 9.0}, rig, *fall);
    const PagePoint a = view.at(10.0, -1.0), b = view.at(13.0, -5.0);
    EXPECT_NEAR((b.x - a.x) / 3.0, (b.y - a.y) / 4.0, 1e-9);
    for (const FallFrame* frame : fall_moments(rig, *fall)) {
      for (const PagePoint p : {view.at(frame->hip), view.at(frame->hip.x, frame->hip.z - 0.95), view.at(frame->ring)}) {
        EXPECT_GE(p.x, 20.0);
        EXPECT_LE(p.x, 520.0);
        EXPECT_GE(p.y, 30.0);
        EXPECT_LE(p.y, 330.0);
      }
    }
  }
}

TEST(FallPicture, ShowsGroundThatIsCloseAndNotThatFarBelow) {
  const CatchReport report = catch_sample();
  const FallResult& fall = report.main_failure[0];
  Rig rig = catch_rig();
  const double far_below = fall_view({0.0, 0.0, 500.0, 300.0, 9.0}, rig, fall).lowest;
  EXPECT_GT(far_below, -12.0);  // the ground lies at -30 m
  rig.site.ground = {{0.0, fall.lowest - 1.0}, {50.0, fall.lowest - 1.0}};
  EXPECT_LE(fall_view({0.0, 0.0, 500.0, 300.0, 9.0}, rig, fall).lowest, fall.lowest - 1.0);
}

// Main and backup at six moments are two lines each when the main is cut after its second node, one each when whole.
TEST(FallPicture, DrawsABrokenMainAsTwoStrands) {
  const CatchReport report = catch_sample();
  const auto strands = [&](const FallResult& fall) {
    Drawing drawing;
    draw_fall(drawing, catch_rig(), fall, {0.0, 0.0, 500.0, 400.0, 10.0}, UnitSystem::metric);
    std::size_t count = 0;
    for (std::size_t at = drawing.svg().find("<polyline"); at != std::string::npos; at = drawing.svg().find("<polyline", at + 1)) ++count;
    return count;
  };
  CatchReport whole = catch_sample();
  for (FallFrame& frame : whole.main_failure[0].frames) frame.cut_after = frame.main.size() - 1;
  EXPECT_EQ(strands(report.main_failure[0]), strands(whole.main_failure[0]) + 6);
}

// Ground from 4 m below the anchor to the wall 1 m out: no rock stands higher than that.
TEST(FallPicture, DrawsAWallUpToTheGroundBehindItOrToTheAnchorWhereNoneIsGiven) {
  CatchReport report = catch_sample();
  FallResult& fall = report.main_failure[0];
  fall.frames.clear();
  fall.walker_m = 3.0;
  fixture::keep_frames(fall, 50.0);
  fall.lowest_at = fall.frames[30].hip.x;
  Rig rig = catch_rig();
  rig.far_anchor.wall.reset();
  const PictureBox box{0.0, 0.0, 500.0, 400.0, 10.0};
  const auto top_of_wall = [&] {
    Drawing drawing;
    draw_fall(drawing, rig, fall, box, UnitSystem::metric);
    const std::string wall = fixture::groups_of(drawing.svg(), "ground").back();
    return std::stod(wall.substr(wall.find(',') + 1));
  };
  rig.site.ground.clear();
  const double to_anchor = top_of_wall();
  rig.site.ground = {{0.0, -4.0}, {1.0, -4.5}, {1.0, -30.0}, {50.0, -30.0}};
  EXPECT_GT(top_of_wall(), to_anchor + 50.0);
}

// Falling free from 0.15 m, feet 0.95 m below the hip reach ground at -3 m after sqrt(2 * 2.2 / g) = 0.67 s.
TEST(FallPicture, EndsWhereTheFeetReachTheGround) {
  CatchReport report = catch_sample();
  FallResult& fall = report.main_failure[0];
  Rig rig = catch_rig();
  rig.site.ground = {{0.0, -3.0}, {50.0, -3.0}};
  fall.clearance = fall.lowest + 3.0;
  const DrawnUntil until = drawn_until(rig, fall);
  EXPECT_TRUE(until.hits_ground);
  EXPECT_NEAR(until.time, 0.67, 0.05);  // the sample's path has a point every 0.05 s
  EXPECT_NEAR(fall_moments(rig, fall).back()->time, until.time, 0.026);
  const std::string svg = picture_of(report, fall, UnitSystem::metric, rig);
  EXPECT_TRUE(has_text(svg, "0.70 s, ground"));
  EXPECT_FALSE(has_text(svg, "lowest"));
  EXPECT_TRUE(has_text(svg, "Drawn until the feet reach the ground"));
  expect_legible(svg, kFallPictureWidth, kFallPictureHeight);
}

TEST(FallPicture, SaysWhatIsNotSeenFromTheSide) {
  CatchReport report = catch_sample();
  FallResult& fall = report.leash_fall[0];
  EXPECT_EQ(fall_caption(catch_rig(), fall, UnitSystem::metric).find("to the side"), std::string::npos);
  for (FallFrame& frame : fall.frames) frame.hip.y = 0.8;
  EXPECT_NE(fall_caption(catch_rig(), fall, UnitSystem::metric).find("swings up to 0.80 m to the side"), std::string::npos);
}

TEST(FallPicture, IsOfTheFirstFallThatWasKeptAndHeld) {
  CatchReport report = catch_sample();
  EXPECT_EQ(pictured_fall(report.main_failure), &report.main_failure[0]);
  report.main_failure[0].in_anchor_zone = true;  // better than none
  EXPECT_EQ(pictured_fall(report.main_failure), &report.main_failure[0]);
  fixture::keep_frames(report.main_failure[1], 50.0);
  EXPECT_EQ(pictured_fall(report.main_failure), &report.main_failure[1]);
  report.main_failure[0].in_anchor_zone = false;
  report.main_failure[0].lost = true;
  EXPECT_EQ(pictured_fall(report.main_failure), &report.main_failure[1]);
  report.main_failure[1].frames.clear();
  EXPECT_EQ(pictured_fall(report.main_failure), nullptr);
}

}  // namespace
}  // namespace spanloom
