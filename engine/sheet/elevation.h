// The line from the side, to scale: ground, anchors, main, loops, tapes, the walker.
#pragma once

#include <string>
#include <vector>

#include "rig/rig.h"
#include "sheet/drawing.h"
#include "sheet/quantity_text.h"
#include "statics/plan.h"

namespace spanloom {

/// Room for the elevation on the page [pt].
struct Frame {
  double x, y, width, height;
};

/// Draws the elevation and returns what must be said beside it: scale, exaggeration, what was cut off.
/// The drawing may take less height than the frame; `used_height` says how much.
struct ElevationNotes {
  double used_height = 0.0;         ///< [pt]
  std::vector<std::string> words;   ///< the scale first
};

ElevationNotes draw_elevation(Drawing& drawing, const Frame& frame, const Rig& rig,
                              const Plan& plan, UnitSystem units);

/// The next round scale 1:n (1, 1.25, 1.5, 2, 2.5, 3, 4, 5, 6, 8 times a power of ten) that is not
/// larger than wanted. @param least  n that just fits [-], > 0
double round_scale(double least);

/// By how much the drops are drawn too large so that a loop can be seen: 1, 2, 5, 10, 20, 50, ...
/// @param drop_on_paper  typical drop to scale [pt]
double loop_exaggeration(double drop_on_paper);

}  // namespace spanloom
