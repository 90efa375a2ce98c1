// The ground under the line from points measured any way: projected, sorted, thinned, joined.
#pragma once

#include <cstddef>
#include <string>
#include <vector>

#include "base/quantity_text.h"
#include "base/vec3.h"
#include "rig/rig.h"

namespace spanloom {

/// A point farther along than this beyond an anchor is left out [m].
inline constexpr double kBeyondAnchor = 5.0;
/// Of points closer together than this along the gap the highest stays, see thinned() [m].
inline constexpr double kClosestGround = 0.25;
/// Where the first or last point is this near to its anchor, the ground is taken level up to the anchor [m].
inline constexpr double kLevelToAnchor = 2.0;

/// Thinned ground is nowhere lower than a measured point by more than this [m].
inline constexpr double kGroundAlike = 0.01;
/// A point of a poorer source this far above better ground is used, and told [m].
inline constexpr double kGroundHidden = 0.5;

/// Points laid onto the line between the anchors.
struct ProjectedGround {
  std::vector<GroundPoint> points;   ///< distances rise strictly
  std::size_t sideways = 0;          ///< left out: too far to the side
  std::size_t beyond = 0;            ///< left out: behind an anchor
  std::size_t thinned = 0;           ///< left out: a higher point is as good as there
};

/// @param points  east, north, up of the near anchor, or any frame with z up and its origin there [m]
/// @param far  the far anchor in that frame
/// @param most_sideways  how far from the vertical plane through the anchors a point may be [m]
/// @throws InputError "far" unless the anchors are apart horizontally
ProjectedGround project_ground(const std::vector<Vec3>& points, const Vec3& far, double most_sideways);

/// Sorted by distance; of points closer than kClosestGround the highest stays, and with it every point above the
/// straight lines between those that stay: the ground is nowhere lower than a point by more than kGroundAlike.
std::vector<GroundPoint> thinned(std::vector<GroundPoint> points);

/// Ground from one source, best source first.
struct GroundSource {
  std::string words;                 ///< "the ground table", "laser readings to the ground", "the track"
  std::vector<GroundPoint> points;   ///< by distance
  double height_sd = 0.0;            ///< of its heights above the near anchor [m]; 0: not worth a word
};

struct GroundProfile {
  std::vector<GroundPoint> points;   ///< from anchor to anchor; empty: not known all the way
  std::vector<std::string> from;     ///< sources used, best first
  std::vector<std::string> notes;    ///< what was taken level, what is missing, in words
  double height_sd = 0.0;            ///< of the worst source used [m]; 0: not worth a word
};

/// Joins sources: between the first and last point of a better one a poorer one is used only where it is
/// higher by more than kGroundHidden, and a note says so.
/// @param gap  the ground must reach from 0 to there [m]
GroundProfile join_ground(const std::vector<GroundSource>& sources, double gap,
                          UnitSystem units = UnitSystem::metric);

}  // namespace spanloom
