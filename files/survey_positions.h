// Surveys from positions alone: a GPX file, or coordinates on the command line.
#pragma once

#include <optional>
#include <string>
#include <string_view>

#include "base/input_error.h"
#include "files/survey_geodesy.h"
#include "files/survey_gpx.h"
#include "survey/survey.h"

namespace spanloom {

/// No gap is longer, as of a rig [m].
inline constexpr double kLongestSurvey = 5000.0;

/// What goes with positions that come without a survey file.
struct PositionOptions {
  AnchorNames names;
  PositionSd sd;                         ///< of both anchors
  double sideways = kUsualSideways;      ///< [m], > 0
};

/// A survey of one GPX file alone. @throws FileError with every problem of it
Survey survey_of_gpx(std::string_view text, const std::string& file, const PositionOptions& options);

/// "45.1 N, 7.2 E, 312 m", as it stands on a command line. @param option  its name, for errors
/// @throws InputError
GeoPoint parse_position(const std::string& text, const std::string& option);

/// Why two anchors cannot be those of a gap: at one place, or farther apart than a rig may be; nothing if they can.
std::optional<Problem> problem_of_anchors(const PositionSurvey& positions, const std::string& key);

}  // namespace spanloom
