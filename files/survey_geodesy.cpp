#include "files/survey_geodesy.h"

#include <GeographicLib/DMS.hpp>
#include <GeographicLib/Ellipsoid.hpp>
#include <GeographicLib/Geodesic.hpp>
#include <GeographicLib/LocalCartesian.hpp>

#include <algorithm>
#include <cmath>
#include <utility>

#include <fmt/format.h>

#include "base/input_error.h"

namespace spanloom {
namespace {

constexpr double kHighest = 1e5;   // of what could be meant as a place of an anchor [m]

void check(const GeoPoint& p) {
  if (!(std::abs(p.latitude) <= 90.0)) {
    throw InputError("latitude", fmt::format("{:g} deg", p.latitude), "-90 deg to 90 deg");
  }
  if (!(std::abs(p.longitude) <= 180.0)) {
    throw InputError("longitude", fmt::format("{:g} deg", p.longitude), "-180 deg to 180 deg");
  }
  if (!(std::abs(p.height) <= kHighest)) throw InputError("height", fmt::format("{:g} m", p.height), "at most 100 km");
}

/// What is left without blanks, and "deg" behind it taken off.
struct Degrees {
  std::string text;
  bool has_deg = false;
};

bool is_of_number(char c) { return (c >= '0' && c <= '9') || c == '.'; }

/// Blanks between two numbers stay: nobody knows what is meant there.
Degrees without_blanks(std::string_view text) {
  Degrees out;
  for (std::size_t i = 0; i < text.size(); ++i) {
    const bool blank = text[i] == ' ' || text[i] == '\t';
    const std::size_t next = std::min(text.find_first_not_of(" \t", i), text.size());
    const bool parts =
        !out.text.empty() && is_of_number(out.text.back()) && next < text.size() && is_of_number(text[next]);
    if (!blank || parts) out.text += text[i];
  }
  constexpr std::string_view kDeg = "deg";
  if (out.text.ends_with(kDeg)) {
    out.text.resize(out.text.size() - kDeg.size());
    out.has_deg = true;
  }
  return out;
}

}  // namespace

std::variant<double, QuantityFault> parse_coordinate(std::string_view text, Axis axis) {
  const bool latitude = axis == Axis::latitude;
  const QuantityFault fault{latitude ? "a latitude such as \"45.1234567 N\" or \"-12.5 deg\""
                                     : "a longitude such as \"7.1234567 E\" or \"-12.5 deg\"",
                            ""};
  const auto because = [&](std::string cure) { return QuantityFault{fault.expected, std::move(cure)}; };
  const Degrees degrees = without_blanks(text);
  if (degrees.text.find(',') != std::string::npos) return because("write decimals with a point");
  using GeographicLib::DMS;
  DMS::flag side = DMS::NONE;
  double value = 0.0;
  try {
    value = DMS::Decode(degrees.text, side);
  } catch (const std::exception&) {
    return fault;
  }
  if (!std::isfinite(value)) return fault;
  if (side == DMS::NONE && !degrees.has_deg)
    return because(latitude ? "say N, S or deg behind it" : "say E, W or deg behind it");
  if (side != DMS::NONE && side != (latitude ? DMS::LATITUDE : DMS::LONGITUDE)) {
    return because(latitude ? "E and W are of a longitude" : "N and S are of a latitude");
  }
  if (std::abs(value) > (latitude ? 90.0 : 180.0)) return because(latitude ? "at most 90 deg" : "at most 180 deg");
  return value;
}

Vec3 east_north_up(const GeoPoint& origin, const GeoPoint& point) {
  check(origin);
  check(point);
  Vec3 out;
  GeographicLib::LocalCartesian(origin.latitude, origin.longitude, origin.height)
      .Forward(point.latitude, point.longitude, point.height, out.x, out.y, out.z);
  return out;
}

Geodesic geodesic(const GeoPoint& from, const GeoPoint& to) {
  check(from);
  check(to);
  Geodesic out;
  double azimuth_at_end = 0.0;
  GeographicLib::Geodesic::WGS84().Inverse(from.latitude, from.longitude, to.latitude, to.longitude, out.length,
                                           out.azimuth, azimuth_at_end);
  return out;
}

double lifted_geodesic(const GeoPoint& from, const GeoPoint& to) {
  const Geodesic ground = geodesic(from, to);
  const double radius = GeographicLib::Ellipsoid::WGS84().NormalCurvatureRadius(from.latitude, ground.azimuth);
  return ground.length * (1.0 + 0.5 * (from.height + to.height) / radius);
}

PositionSurvey position_survey(std::string name, const GeoPoint& near, const GeoPoint& far,
                               const std::vector<GeoPoint>& track) {
  PositionSurvey out;
  out.name = std::move(name);
  out.far = east_north_up(near, far);
  out.geodesic = lifted_geodesic(near, far);
  for (const GeoPoint& p : track) out.track.push_back(east_north_up(near, p));
  return out;
}

}  // namespace spanloom
