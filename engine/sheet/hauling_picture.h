// Tension and sag against the length of main that is pulled through.
#pragma once

#include <string>

#include "base/quantity_text.h"
#include "hauling/hauling_report.h"
#include "rig/rig.h"

namespace spanloom {

/// Size of the picture [pt].
inline constexpr double kHaulingPictureWidth = 760.0;
inline constexpr double kHaulingPictureHeight = 640.0;

/// A complete SVG document: tension above, sag below on the same axis, a dot for each step. Works in black and white.
std::string hauling_picture(const Rig& rig, const HaulingReport& report, UnitSystem units);

}  // namespace spanloom
