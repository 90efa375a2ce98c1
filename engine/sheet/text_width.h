// How wide a text is on the sheet, so that lines are broken before they run into each other.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "sheet/words.h"

namespace spanloom {

enum class FontWeight { regular, bold };

/// Width of a text set in DejaVu Sans, kerning left out (it only makes text narrower).
/// @param size  font size [pt], > 0
/// @return [pt]; letters outside Latin count one em, which is more than nearly all of them need
double text_width(std::string_view text, double size, FontWeight weight = FontWeight::regular);

/// The text, or as much of it as fits with an ellipsis behind. @param width [pt]
std::string fit_text(std::string_view text, double width, double size,
                     FontWeight weight = FontWeight::regular);

/// The text broken into lines no wider than `width` [pt].
std::vector<std::string> wrap_text(std::string_view text, double width, double size,
                                   FontWeight weight = FontWeight::regular);

}  // namespace spanloom
