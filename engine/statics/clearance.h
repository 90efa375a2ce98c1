// Distances from the line to the ground.
#pragma once

#include <array>
#include <optional>
#include <span>
#include <vector>

#include "base/vec3.h"
#include "rig/rig.h"
#include "statics/equilibrium.h"

namespace spanloom {

/// Height of the ground at a place of the gap [m]; at a step the higher side. Empty without ground.
std::optional<double> ground_height(std::span<const GroundPoint> ground, double x);

/// A least distance and where it is.
struct Clearance {
  double distance = 0.0;  ///< [m]
  double at = 0.0;        ///< on the gap axis [m]
};

/// Whether a place of the gap lies in one of the anchor zones.
bool in_anchor_zone(const Rig& rig, double x);

/// Least height of main and loops over the ground outside the anchor zones. Empty without ground, or
/// when the zones cover the gap.
std::optional<Clearance> line_clearance(const Rig& rig, const Shape& shape);

/// Least distance of main and loops to the ground of the anchor zones, from each stated edge outwards.
/// Seen from the side: an edge runs across the gap, so a line blown aside is no farther from it.
/// Ground anywhere in a zone, stated edge or not, counts where the line passes below it; the distance
/// is then minus the greatest depth, straight up from the line to the ground.
/// Empty without ground, or when no edge is stated and the line is nowhere below the ground.
std::optional<Clearance> edge_distance(const Rig& rig, const Shape& shape);

/// A part of the gap [m].
struct Stretch {
  double from = 0.0;
  double to = 0.0;
};

/// The gap between the anchor zones. Empty when the zones cover it.
std::optional<Stretch> between_zones(const Rig& rig);

/// The two anchor zones, the near one first; each at most half of the gap.
std::array<Stretch, 2> anchor_zones(const Rig& rig);

/// Least height of the foot over the ground of a stretch of the gap, for somebody who walks all of it.
/// Between two neighbouring places (the anchors count as places) the lower of the two feet stands over
/// the highest ground there: too low where the line is steep. Only where the line is lowest can a foot
/// between two places be deeper, by about sag (distance of the places / gap)^2.
/// @param feet  the foot's points of one sweep [m], in any order
/// @return at: the place of that ground. Empty without ground or feet
std::optional<Clearance> foot_clearance(const Rig& rig, std::span<const Vec3> feet, const Stretch& within);

/// From where to where in a stretch a body that reaches `below` [m] under the foot meets the ground, by
/// the same rule. Empty where it does not.
std::optional<Stretch> ground_met(const Rig& rig, std::span<const Vec3> feet, const Stretch& within,
                                  double below);

}  // namespace spanloom
