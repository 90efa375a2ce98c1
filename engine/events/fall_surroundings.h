// How near a falling body comes to the ground and to the walls beside it.
#pragma once

#include "events/fall.h"

namespace spanloom {

/// Height of the standing main at a place of the gap [m]; at the ends' height beyond them.
double main_height(const MovingRig& rig, double along);

/// Takes a place of the hip into a result's clearance and wall distance. The body reaches from the hip down to the
/// feet, whichever way it hangs.
void note_distances(const Rig& rig, const Vec3& hip, const Vec3& velocity, FallResult& result);

/// Horizontal distance from a body down to a height to what stands beside it [m]: ground that rises there, or the
/// stated wall below the anchor. 0: it is inside. Empty where nothing is stated.
std::optional<double> wall_distance(const Rig& rig, double along, double lowest, AnchorEnd towards);

}  // namespace spanloom
