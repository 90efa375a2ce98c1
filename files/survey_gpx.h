// Anchors and a track from GPX 1.1.
//
// Of the file are used: waypoints (`wpt`) with `name` and `ele`, and the points of tracks (`trk`, `trkseg`, `trkpt`)
// with `ele`. All else is passed over. Source: GPX 1.1 schema, Topografix 2004, http://www.topografix.com/GPX/1/1.
#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "files/file_error.h"
#include "files/survey_geodesy.h"

namespace spanloom {

inline constexpr std::size_t kLargestGpx = 20'000'000;   ///< [bytes]

/// Names of the waypoints that are the anchors; upper and lower case (of plain Latin letters) are the same.
struct AnchorNames {
  std::string near = "near anchor";
  std::string far = "far anchor";
};

struct GpxAnchor {
  GeoPoint at;
  Place place;                           ///< of its waypoint in the file
};

struct GpxGap {
  GpxAnchor near, far;
  std::vector<GeoPoint> track;           ///< points that have a height
  std::size_t track_without_height = 0;
};

/// @param file  its name, for errors
/// @return nothing if there is anything wrong: then `findings` has every problem of the file, under key "gpx"; of
/// broken XML the first place
std::optional<GpxGap> read_gpx(std::string_view text, const std::string& file, const AnchorNames& names,
                               Findings& findings);

/// Whether a text is XML rather than TOML: its first letter is '<'.
bool looks_like_xml(std::string_view text);

}  // namespace spanloom
