// From measurements of a gap to gap, rise and ground, each with what is not known of it.
//
// Each way of measuring gives gap and rise with their covariance; ways are joined by inverse covariance. Frame of
// positions: east, north, up at the near anchor, a straight one, in which the rig is planned too.
#pragma once

#include <cstddef>
#include <numbers>
#include <optional>
#include <string>
#include <vector>

#include "base/quantity_text.h"
#include "base/stated.h"
#include "base/vec3.h"
#include "rig/gap_rise.h"
#include "rig/rig.h"
#include "survey/ground_profile.h"
#include "survey/laser.h"

namespace spanloom {

// Standard deviations where the survey states none. All assumed: common practice, no source.
inline constexpr double kUsualHorizontalSd = 3.0;    ///< of a satellite position, in any one direction [m]
inline constexpr double kUsualHeightSd = 5.0;        ///< of its height [m]
inline constexpr double kUsualDistanceSd = 0.005;    ///< of one laser distance [m]
inline constexpr double kUsualAngleSd = 0.3 * std::numbers::pi / 180.0;  ///< of one laser angle [rad]
inline constexpr double kUsualBetweenSd = 0.5 * std::numbers::pi / 180.0;  ///< of one horizontal angle [rad]
inline constexpr double kUsualSideways = 5.0;        ///< how far from the line a ground point may be [m]

/// How well a position is known.
struct PositionSd {
  Stated<double> horizontal = Stated<double>::by_default(kUsualHorizontalSd);  ///< in any one direction [m], > 0
  Stated<double> height = Stated<double>::by_default(kUsualHeightSd);          ///< [m], > 0
};

/// Both anchors by latitude, longitude and height.
struct PositionSurvey {
  std::string name;                      ///< for the crew: "survey.gpx"
  Vec3 far;                              ///< from the near anchor: east, north, up there [m]
  double geodesic = 0.0;  ///< on the ellipsoid, lifted to the mean height of the anchors [m]; for comparison
  PositionSd near_sd, far_sd;
  std::vector<Vec3> track;               ///< ground points in the same frame [m]
  std::size_t track_without_height = 0;  ///< points of the track that have no height
};

/// Repeated sights from one place to one target.
struct SightReadings {
  std::vector<double> distances;         ///< along the beam [m], at least one
  std::vector<double> angles;            ///< above the horizontal [rad], at least one
};

struct LaserSd {
  Stated<double> distance = Stated<double>::by_default(kUsualDistanceSd);  ///< of one reading [m], > 0
  Stated<double> angle = Stated<double>::by_default(kUsualAngleSd);        ///< of one reading [rad], > 0
};

/// From the near anchor to the far one.
struct LaserSurvey {
  SightReadings sight;
  LaserSd sd;
  double instrument_above = 0.0;         ///< the device above the near anchor [m]
  double target_above = 0.0;             ///< what it is aimed at above the far anchor [m]
};

/// From a place beside the line to both anchors.
struct StandSurvey {
  SightReadings near, far;
  std::vector<double> between;           ///< horizontal angle from the near to the far anchor [rad]
  LaserSd sd;
  Stated<double> between_sd = Stated<double>::by_default(kUsualBetweenSd);  ///< of one reading [rad], > 0
  double near_target_above = 0.0;        ///< what is aimed at above the near anchor [m]
  double far_target_above = 0.0;         ///< [m]
};

/// Sights from the near anchor down to the ground, in the plane of the line.
struct LaserGround {
  struct Shot { double distance, angle; };  ///< [m], [rad] above the horizontal
  std::vector<Shot> shots;
  double instrument_above = 0.0;         ///< [m]
};

struct Survey {
  std::string title;
  std::vector<PositionSurvey> positions;
  std::vector<LaserSurvey> lasers;
  std::vector<StandSurvey> stands;
  std::optional<LaserGround> laser_ground;
  std::vector<GroundPoint> ground;       ///< from a table, used as it is
  double sideways = kUsualSideways;      ///< [m]
};

enum class SurveyWay { position, laser, stand };

/// "position", "laser" or "stand".
const char* name_of(SurveyWay way);

/// What one way of measuring says by itself.
struct WayResult {
  SurveyWay way = SurveyWay::laser;
  std::string words;                     ///< "laser 1, 4 distances and 4 angles"
  GapRise found;
  std::vector<Share> shares;             ///< where its doubt comes from
  double part = 1.0;                     ///< of the joined gap that is this way's, from 0 to 1 [-]
  /// Against all other ways together, in standard deviations of the difference [-]; empty: there is no other.
  std::optional<double> gap_off, rise_off;
};

struct SurveyReport {
  GapRise found;                         ///< all ways joined
  std::vector<WayResult> ways;           ///< in the order of the survey, positions first
  GroundProfile ground;
  bool torn = false;                     ///< readings or ways contradict each other beyond kOutlierSds
  bool well_enough = false;              ///< known well enough to cut webbing by: see kCutShare; never if torn
  std::vector<std::string> notes;        ///< outliers, contradictions, what was left out, in words
  std::vector<std::string> assumed;      ///< defaults that the numbers rest on, in words
};

/// A gap is known well enough to cut webbing by if its sd is at most this part of it [-]. At a stretch of 3 to 5 % that
/// is a tension known to some 5 %. Common practice, no source.
inline constexpr double kCutShare = 0.002;

/// @throws InputError "survey" where no way of measuring is there; "laser[i].distance", "stand[i].between" ... (i from
/// 0) where a reading cannot be
SurveyReport survey_gap(const Survey& survey, UnitSystem units = UnitSystem::metric);

/// Ways joined by inverse covariance, widened by the Birge ratio where they scatter more than they should.
/// Source: generalised least squares, e.g. Bevington & Robinson (3rd ed. 2003), ch. 4 and 7, from memory; Birge 1932.
/// @param ways  at least one, variances > 0, not wholly correlated
GapRise joined(const std::vector<GapRise>& ways);

}  // namespace spanloom
