// One SVG picture to PNG.
#pragma once

#include <string>

namespace spanloom {

/// @param width, height  of the picture [pt]; every point becomes `scale` dots across and down
/// @return the bytes of the file
/// @throws std::runtime_error when librsvg or cairo refuse the picture, which is a bug of ours
std::string png_from_svg(const std::string& svg, double width, double height, double scale = 2.0);

}  // namespace spanloom
