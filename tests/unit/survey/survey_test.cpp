#include "survey/survey.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>

#include "base/input_error.h"

namespace spanloom {
namespace {

LaserSurvey level_laser(double distance, double sd = 0.01) {
  LaserSurvey laser;
  laser.sight = {{distance}, {0.0}};
  laser.sd.distance = Stated<double>::given(sd);
  laser.sd.angle = Stated<double>::given(0.005);
  return laser;
}

PositionSurvey positions(double gap, double rise) {
  PositionSurvey p;
  p.name = "test.gpx";
  p.far = {0.6 * gap, 0.8 * gap, rise};
  return p;
}

bool some_note(const SurveyReport& report, const std::string& words) {
  return std::any_of(report.notes.begin(), report.notes.end(),
                     [&](const std::string& n) { return n.find(words) != n.npos; });
}

TEST(JoinedWays, AreWeightedByInverseCovariance) {
  // Without covariance each of gap and rise is a weighted mean: (61 / 0.04 + 62 / 0.01) / 125 = 61.8.
  const GapRise g = joined({{61.0, 0.0, 0.04, 0.5, 0.0}, {62.0, 0.0, 0.16 / 16.0, 0.5, 0.0}});
  EXPECT_NEAR(g.gap, 61.8, 1e-12);
  // Misfit (0.8 / 0.2)^2 + (0.2 / 0.1)^2 = 20 with two to spare: 10 times the variance 1 / 125.
  EXPECT_NEAR(g.gap_variance, 10.0 / 125.0, 1e-12);
}

TEST(JoinedWays, LetTheGapPullTheRiseWhereTheyAreTied) {
  // Generalised least squares by hand for two ways with the same covariance: the plain mean of both.
  const GapRise g = joined({{60.0, 1.0, 1.0, 1.0, 0.5}, {62.0, 2.0, 1.0, 1.0, 0.5}});
  EXPECT_NEAR(g.gap, 61.0, 1e-12);
  EXPECT_NEAR(g.rise, 1.5, 1e-12);
}

TEST(Survey, AddsTheUncertaintyOfBothPositions) {
  Survey survey;
  survey.positions = {positions(62.0, -1.5)};
  const SurveyReport report = survey_gap(survey);
  EXPECT_NEAR(report.found.gap, 62.0, 1e-12);
  EXPECT_NEAR(report.found.gap_sd(), 3.0 * std::sqrt(2.0), 1e-12);
  EXPECT_NEAR(report.found.rise_sd(), 5.0 * std::sqrt(2.0), 1e-12);
  EXPECT_FALSE(report.well_enough);
  EXPECT_EQ(report.assumed.size(), 2u);
}

TEST(Survey, LetsTheLaserDecideAndSaysHowFarThePositionsAreOff) {
  Survey survey;
  survey.positions = {positions(66.0, -1.0)};
  survey.lasers = {level_laser(62.0)};
  const SurveyReport report = survey_gap(survey);
  EXPECT_NEAR(report.found.gap, 62.0, 1e-4);
  EXPECT_GT(report.ways[1].part, 0.999);
  EXPECT_TRUE(report.well_enough);
  EXPECT_NEAR(*report.ways[0].gap_off, 4.0 / (3.0 * std::sqrt(2.0)), 1e-4);
  EXPECT_TRUE(some_note(report, "the gap is 4.00 m longer"));
}

TEST(Survey, TiltsATrackToTheJoinedFarAnchor) {
  Survey survey;
  survey.positions = {positions(64.0, -5.0)};
  const Vec3 far = survey.positions[0].far;
  survey.positions[0].track = {{0.0, 0.0, 0.0}, {0.5 * far.x, 0.5 * far.y, -20.0}, far};
  survey.lasers = {level_laser(62.0)};
  const SurveyReport report = survey_gap(survey);
  ASSERT_EQ(report.ground.points.size(), 3u);
  EXPECT_NEAR(report.ground.points[1].distance, 0.5 * report.found.gap, 1e-9);
  EXPECT_NEAR(report.ground.points[1].height, -20.0 + 0.5 * (report.found.rise + 5.0), 1e-9);
  EXPECT_NEAR(report.ground.points[2].height, report.found.rise, 1e-9);
}

TEST(Survey, IsTornWhereWaysContradictEachOther) {
  Survey survey;
  survey.lasers = {level_laser(62.0), level_laser(62.5)};
  const SurveyReport report = survey_gap(survey);
  EXPECT_TRUE(report.torn);
  EXPECT_FALSE(report.well_enough);
  EXPECT_TRUE(some_note(report, "contradict"));
  EXPECT_GT(report.found.gap_sd(), 0.15);  // widened to what they show
}

TEST(Survey, CountsTheDeviceAndTheTargetAboveTheAnchors) {
  Survey survey;
  survey.lasers = {level_laser(62.0)};
  survey.lasers[0].instrument_above = 1.5;
  survey.lasers[0].target_above = 0.3;
  EXPECT_NEAR(survey_gap(survey).found.rise, 1.2, 1e-12);
}

TEST(Survey, NamesTheTableOfAWrongReading) {
  Survey survey;
  survey.lasers = {level_laser(62.0), level_laser(-3.0)};
  try {
    survey_gap(survey);
    FAIL();
  } catch (const InputError& error) {
    EXPECT_EQ(error.problems()[0].key, "laser[1].distance");
  }
}

TEST(Survey, NeedsAMeasurementOfTheGap) { EXPECT_THROW(survey_gap({}), InputError); }

}  // namespace
}  // namespace spanloom
