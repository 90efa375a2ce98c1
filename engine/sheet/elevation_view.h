// How the elevation is laid on the page: scale, window, exaggeration.
#pragma once

#include "base/vec3.h"
#include "rig/rig.h"
#include "sheet/drawing.h"
#include "statics/plan.h"

namespace spanloom {

/// Room for the elevation on the page, the gap dimension below it included [pt].
struct Frame {
  double x, y, width, height;
};

/// The picture is to scale in both directions but for what `exaggeration` and `figures_to_scale` say.
struct ElevationView {
  double scale = 1.0;             ///< 1 : scale
  double points_per_metre = 1.0;  ///< [pt/m]
  double near_x = 0.0;            ///< page x of the near anchor [pt]
  double zero_y = 0.0;            ///< page y of the near anchor [pt]
  double bottom_y = 0.0;          ///< lower edge of the picture [pt]
  bool ground_is_cut = false;     ///< the ground goes on below it
  double exaggeration = 1.0;      ///< drops of the loops are drawn so many times too large
  bool figures_to_scale = true;

  PagePoint at(double x, double z) const {
    return {near_x + x * points_per_metre, zero_y - z * points_per_metre};
  }
};

/// @param foot  where the drawn walker stands [m]
ElevationView choose_view(const Frame& frame, const Rig& rig, const Plan& plan, const Vec3& foot);

/// The next round scale 1:n that is not larger than wanted. @param least  n that just fits [-], > 0
double round_scale(double least);

/// By how much the drops are drawn too large so that a loop can be seen: 1, 2, 5, 10, 20, 50, ...
/// @param drop_on_paper  typical drop to scale [pt]
double loop_exaggeration(double drop_on_paper);

}  // namespace spanloom
