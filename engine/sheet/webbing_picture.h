// A pull test as a picture: every reading, and the curve that goes into the rig file.
#pragma once

#include <string>
#include <vector>

#include "base/quantity_text.h"
#include "sheet/drawing.h"
#include "sheet/figures.h"
#include "webbing/pull_test.h"

namespace spanloom {

/// Size of the picture when it is a document of its own [pt].
inline constexpr double kPullPictureWidth = 760.0;
inline constexpr double kPullPictureHeight = 640.0;

/// Tension over stretch from the length before the first pull: readings thin, the curve bold, its points as rings.
void draw_pull_test(Drawing& drawing, const std::vector<PullSample>& samples, const PullTest& test, const PictureBox& box,
                    UnitSystem units);

/// The same with heading and caption as a complete SVG document.
std::string pull_test_picture(const std::vector<PullSample>& samples, const PullTest& test, const std::string& name, UnitSystem units);

}  // namespace spanloom
