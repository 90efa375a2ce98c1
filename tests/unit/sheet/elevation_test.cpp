#include "sheet/elevation.h"

#include <gtest/gtest.h>

#include <cmath>

#include "plan_fixture.h"

namespace spanloom {
namespace {

TEST(RoundScale, IsRoundAndNeverLargerThanWhatFits) {
  EXPECT_DOUBLE_EQ(round_scale(1.0), 1.0);
  EXPECT_DOUBLE_EQ(round_scale(333.4), 350.0);
  EXPECT_DOUBLE_EQ(round_scale(401.0), 450.0);
  EXPECT_DOUBLE_EQ(round_scale(9100.0), 10000.0);
  for (double least = 0.7; least < 1e5; least *= 1.13) {
    EXPECT_GE(round_scale(least), least * (1.0 - 1e-9));
    EXPECT_LE(round_scale(least), 1.34 * least);
  }
}

TEST(LoopExaggeration, LeavesLargeLoopsAlone) {
  EXPECT_EQ(loop_exaggeration(20.0), 1.0);
  EXPECT_EQ(loop_exaggeration(0.0), 1.0);
}

TEST(LoopExaggeration, MakesSmallLoopsVisibleByARoundFactor) {
  EXPECT_EQ(loop_exaggeration(1.0), 10.0);
  EXPECT_EQ(loop_exaggeration(0.4), 20.0);
  EXPECT_EQ(loop_exaggeration(0.01), 1000.0);
  for (double drop = 1e-4; drop < 10.0; drop *= 1.7) {
    EXPECT_LE(loop_exaggeration(drop) * drop, 11.0);
    EXPECT_GE(loop_exaggeration(drop) * drop, 11.0 / 2.5);
  }
}

std::string joined(const std::vector<std::string>& words) {
  std::string all;
  for (const std::string& w : words) all += w + " ";
  return all;
}

ElevationNotes notes_of(const fixture::Shape& shape) {
  const auto [rig, plan, checks] = fixture::sample(shape);
  Drawing drawing;
  return draw_elevation(drawing, {30.0, 100.0, 527.0, 260.0}, rig, plan, UnitSystem::metric);
}

TEST(Elevation, SaysItsScaleAndWhatIsExaggerated) {
  const std::string words = joined(notes_of({}).words);
  EXPECT_NE(words.find("Elevation 1:450 on A4"), std::string::npos) << words;
  EXPECT_NE(words.find("times too large"), std::string::npos);
}

TEST(Elevation, StaysInItsFrameForAnyShape) {
  for (const fixture::Shape& shape :
       {fixture::Shape{}, {.gap = 5.0, .rise = 0.0, .bays = 2}, {.gap = 3000.0, .bays = 400, .tension = 2e4},
        {.rise = 62.0}, {.rise = -62.0}, {.ground_depth = 300.0}, {.ground_depth = 0.0}}) {
    EXPECT_LE(notes_of(shape).used_height, 260.0);
  }
}

TEST(Elevation, SaysWhenADeepGroundIsCutOff) {
  EXPECT_NE(joined(notes_of({.ground_depth = 300.0}).words).find("deepest 300.00 m"), std::string::npos);
  EXPECT_EQ(joined(notes_of({}).words).find("cut off"), std::string::npos);
}

TEST(Elevation, SaysWhenNoGroundIsGiven) {
  EXPECT_NE(joined(notes_of({.ground_depth = 0.0}).words).find("No ground given"), std::string::npos);
}

}  // namespace
}  // namespace spanloom
