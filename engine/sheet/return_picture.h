// A shake over place and time: what travels along the main and comes back is seen as stripes.
#pragma once

#include <string>

#include "base/quantity_text.h"
#include "motion/shake_report.h"
#include "sheet/drawing.h"
#include "sheet/figures.h"

namespace spanloom {

/// Size of the picture when it is a document of its own [pt].
inline constexpr double kPictureWidth = 760.0;
inline constexpr double kPictureHeight = 900.0;

/// False where a report holds no motion to be drawn, as when it was stopped.
bool has_picture(const ShakeReport& report);

/// The main at equal times, place across and time down. Where it is to the left of its rest (or above it, shaken
/// upwards) it is filled dark, to the other side grey, so that a swing that travels is a slanting stripe. Works in
/// black and white.
void draw_return(Drawing& drawing, const ShakeReport& report, const PictureBox& box, UnitSystem units);

/// The same with heading and caption as a complete SVG document of kPictureWidth by kPictureHeight.
std::string return_picture(const ShakeReport& report, const std::string& title, UnitSystem units);

}  // namespace spanloom
