// What the points of an anchor carry: its legs under the force of the line, and after one point has gone.
#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <vector>

#include "base/vec3.h"
#include "rig/rig.h"

namespace spanloom {

struct LegLoad {
  double tension = 0.0;             ///< of the leg, which is the load on its point [N], >= 0
  Vec3 force;                       ///< on the point [N]
};

struct LegsUnderLoad {
  std::vector<LegLoad> legs;        ///< one a point; a point that has gone carries nothing
  Vec3 shift;                       ///< of the master point from where it is unloaded [m]
  double residual = 0.0;            ///< unbalanced force at the master point [N]
};

struct LegsOutcome {
  std::optional<LegsUnderLoad> loads;
  std::string why_not;              ///< in words; "" exactly when there are loads
  bool cannot_hold = false;         ///< there are none because no leg is left or pulls against the force
};

/// Where the master point of an anchor comes to rest, and what each point carries then.
///
/// Fixed legs are straight springs that only pull, unloaded as long as their point is away. Equalising legs are one
/// sling without friction that runs point - master point - point, so every leg pulls alike; it stretches as one
/// spring. The axial stiffness is that of a leg, of both strands together where a sling makes it.
/// When a point goes, a fixed leg goes with it. The sling keeps its whole length and is held at the master point by
/// a twist or a stopper knot, so it does not run out; what the lost leg had in it goes to the others. That is the
/// greatest shift: knots that stop the sling earlier make it smaller.
/// A sling may draw the master point up to one of its points; the leg there then takes what the others leave.
/// The legs weigh nothing, and the master point meets no rock.
///
/// @param force  of the line on the anchor [N], finite; 0 leaves the anchor unloaded
/// @param gone   index of a point that holds no more
/// @return the loads, or why there are none: no leg is left, no leg pulls against the force, no rest was found
/// Accuracy: the forces on the points add up to `force` within `residual`, which is at most 1e-9 |force| or sixteen times
/// what rounding of the positions makes of it.
/// Source: minimum of the convex potential energy, as in any elastic truss (Timoshenko, Strength of Materials).
[[nodiscard]] LegsOutcome load_legs(const AnchorSpec& anchor, const Vec3& force, std::optional<std::size_t> gone = {});

}  // namespace spanloom
