// The line from the side, to scale: ground, anchors, main, loops, tapes, the walker.
#pragma once

#include <string>
#include <vector>

#include "rig/rig.h"
#include "sheet/drawing.h"
#include "sheet/elevation_view.h"
#include "base/quantity_text.h"
#include "statics/plan.h"

namespace spanloom {

/// Draws the elevation and returns what must be said beside it: scale, exaggeration, what was cut off.
/// The drawing may take less height than the frame; `used_height` says how much.
struct ElevationNotes {
  double used_height = 0.0;         ///< [pt]
  std::vector<std::string> words;   ///< the scale first
};

ElevationNotes draw_elevation(Drawing& drawing, const Frame& frame, const Rig& rig,
                              const Plan& plan, UnitSystem units);

}  // namespace spanloom
