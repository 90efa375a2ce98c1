// Distances from the line to the ground.
#pragma once

#include <optional>
#include <span>
#include <vector>

#include "base/vec3.h"
#include "rig/rig.h"
#include "statics/equilibrium.h"

namespace spanloom {

/// Height of the ground at a place of the gap [m]; at a step the higher side. Empty without ground.
std::optional<double> ground_height(std::span<const GroundPoint> ground, double x);

/// A least distance and where it is, on the gap axis [m].
struct Clearance {
  double distance = 0.0;
  double at = 0.0;
};

/// Whether a place of the gap lies in one of the anchor zones.
bool in_anchor_zone(const Rig& rig, double x);

/// Least height of main and loops over the ground outside the anchor zones. Empty without ground, or
/// when the zones cover the gap.
std::optional<Clearance> line_clearance(const Rig& rig, const Shape& shape);

/// Least distance of main and loops to the stated edges; negative where the line passes below one.
/// Empty when no edge, or no ground to take its height from, is given.
std::optional<Clearance> edge_distance(const Rig& rig, const Shape& shape);

}  // namespace spanloom
