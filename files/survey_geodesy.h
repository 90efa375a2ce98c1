// Latitude, longitude and height to metres along a gap. WGS84, by GeographicLib.
#pragma once

#include <string>
#include <string_view>
#include <variant>
#include <vector>

#include "base/vec3.h"
#include "files/units.h"
#include "survey/survey.h"

namespace spanloom {

/// A place on the earth.
struct GeoPoint {
  double latitude = 0.0;   ///< north positive, -90 to 90 [deg]
  double longitude = 0.0;  ///< east positive, -180 to 180 [deg]
  /// Above the ellipsoid [m]. Heights above the sea serve as well: 100 m of difference between the two change a gap by
  /// 16 parts in a million, and a rise not at all.
  double height = 0.0;
};

enum class Axis { latitude, longitude };

/// "45.1234567 N", "-12.5 deg", "12:30:15.5 W", "12d30'15.5\"W": degrees, minutes, seconds, with N, S, E, W or deg
/// behind.
/// @return degrees in the range of GeoPoint, or what is wrong
std::variant<double, QuantityFault> parse_coordinate(std::string_view text, Axis axis);

/// East, north, up of `point` in the straight frame that touches the ellipsoid's normal at `origin` [m]. Up is along
/// the normal there; over a gap d away from it the earth falls off by d^2 / 2R, 0.3 mm at 62 m, 8 cm at 1 km.
/// @throws InputError "latitude" or "longitude" out of range, "height" not finite or beyond 100 km
/// Accuracy: some 10 nm (GeographicLib, LocalCartesian and Geocentric).
Vec3 east_north_up(const GeoPoint& origin, const GeoPoint& point);

/// Shortest way on the ellipsoid, heights left aside.
struct Geodesic {
  double length = 0.0;            ///< [m]
  double azimuth = 0.0;           ///< at the first point, from north towards east [deg]
};

/// Source: Karney 2013, Algorithms for geodesics, J. Geodesy 87, 43-55. Accuracy: 15 nm. @throws InputError as above
Geodesic geodesic(const GeoPoint& from, const GeoPoint& to);

/// The geodesic lifted to the mean height of its ends: length (1 + h / R), R the radius of curvature of the normal
/// section in its direction (Euler's). Differs from the straight horizontal distance by parts of a millimetre over a
/// gap. [m]
double lifted_geodesic(const GeoPoint& from, const GeoPoint& to);

/// The positions of two anchors, and of a track between them, as a way of measuring.
/// @param name  "survey.gpx", for the crew
PositionSurvey position_survey(std::string name, const GeoPoint& near, const GeoPoint& far,
                               const std::vector<GeoPoint>& track);

}  // namespace spanloom
