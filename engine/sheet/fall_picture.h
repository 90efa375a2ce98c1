// A fall from the side: line, ring and body at equal times, in true proportions.
#pragma once

#include <string>
#include <vector>

#include "base/quantity_text.h"
#include "events/catch_report.h"
#include "rig/rig.h"
#include "sheet/drawing.h"
#include "sheet/figures.h"

namespace spanloom {

/// Size of the picture when it is a document of its own [pt].
inline constexpr double kFallPictureWidth = 760.0;
inline constexpr double kFallPictureHeight = 640.0;

/// False where a fall was not kept to be drawn.
bool has_picture(const FallResult& fall);

/// The fall of a list that is drawn: the first that was kept and held the walker, if there is one outside the anchor zones
/// of those; null if there is none.
const FallResult* pictured_fall(const std::vector<FallResult>& falls);

/// The part of the line where it happens, seen with the near anchor at the left, from the start to the lowest point or to
/// the ground.
/// The last moment is drawn heaviest. Works in black and white.
void draw_fall(Drawing& drawing, const Rig& rig, const FallResult& fall, const PictureBox& box, UnitSystem units);

/// How to read draw_fall(), in sentences.
std::string fall_caption(const Rig& rig, const FallResult& fall, UnitSystem units);

/// "Main failure, the greatest force on the body of all": what a fall is among those of its report.
std::string fall_heading(const CatchReport& report, const FallResult& fall);

/// The same with heading, numbers and caption as a complete SVG document of kFallPictureWidth by kFallPictureHeight.
std::string fall_picture(const Rig& rig, const CatchReport& report, const FallResult& fall, UnitSystem units);

}  // namespace spanloom
