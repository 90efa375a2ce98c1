// Number of tapes against return, and the layouts themselves, at a glance.
#pragma once

#include <string>

#include "base/quantity_text.h"
#include "rig/rig.h"
#include "spacing/space_report.h"

namespace spanloom {

/// Size of the picture [pt].
inline constexpr double kSpacePictureWidth = 760.0;
inline constexpr double kSpacePictureHeight = 940.0;

/// Above, the mean return of full-size shakes over the number of tapes: layouts found, the chosen one, the rig as it is,
/// evenly taped, at random. Below, main, tapes and loops of the rig as it is, evenly taped and chosen, drops
/// exaggerated alike. Marks differ by shape and are named; works in black and white.
/// @return a complete SVG document of kSpacePictureWidth by kSpacePictureHeight
std::string space_picture(const Rig& rig, const SpaceReport& report, UnitSystem units);

}  // namespace spanloom
