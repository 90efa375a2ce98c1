// Which moments of a fall are drawn, and how metres become points there.
#pragma once

#include <vector>

#include "events/fall.h"
#include "rig/rig.h"
#include "sheet/figures.h"

namespace spanloom {

/// Until when a fall is drawn: the lowest point, or the moment when the feet reach the ground [s].
struct DrawnUntil {
  double time = 0.0;
  bool hits_ground = false;
};
DrawnUntil drawn_until(const Rig& rig, const FallResult& fall);

/// Frames at equal times from the start on, the last at drawn_until().
std::vector<const FallFrame*> fall_moments(const Rig& rig, const FallResult& fall);

/// The window on the fall: true proportions, as large as the box allows with all bodies in it.
struct FallView {
  double left = 0.0, right = 0.0, top = 0.0, bottom = 0.0;  ///< on the page [pt]
  double points_per_metre = 1.0;
  double from = 0.0, to = 0.0;            ///< of the gap axis [m]
  double highest = 0.0, lowest = 0.0;     ///< heights at top and bottom [m]

  PagePoint at(double x, double z) const {
    return {left + (x - from) * points_per_metre, top + (highest - z) * points_per_metre};
  }
  PagePoint at(const Vec3& p) const { return at(p.x, p.z); }
};

/// @param frame  room for the window on the page; its words are not in it
FallView fall_view(const PictureBox& frame, const Rig& rig, const FallResult& fall);

}  // namespace spanloom
