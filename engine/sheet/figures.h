// The small pictures of the elevation: ground, people, anchors, dimension lines, marks.
#pragma once

#include <vector>

#include "base/quantity_text.h"
#include "checks/verdicts.h"
#include "sheet/drawing.h"

namespace spanloom {

/// Where a picture stands, its labels included [pt].
struct PictureBox {
  double x = 0.0, y = 0.0, width = 0.0, height = 0.0;
  double text_size = 10.0;
};

/// A person in page lengths: everything follows from leash and foot to hip.
struct FigureSize {
  double foot_to_hip;  ///< [pt]
  double leash;        ///< [pt]
};

/// Someone standing with arms out, feet at `foot`.
void draw_standing_figure(Drawing& drawing, PagePoint foot, const FigureSize& size);
/// The same person hanging still on the leash under `ring`; the feet are leash + foot_to_hip below.
void draw_hanging_figure(Drawing& drawing, PagePoint ring, const FigureSize& size);

/// The surface as a heavy line with short strokes on the ground's side.
/// @param surface  from left to right, the ground to the right hand of the way
void draw_ground(Drawing& drawing, const std::vector<PagePoint>& surface);

/// A straight dimension line with a tick at each end.
void draw_dimension(Drawing& drawing, PagePoint from, PagePoint to);

/// Text on white, so that lines behind it do not run through it.
void draw_label(Drawing& drawing, PagePoint at, std::string_view words, const TextStyle& style);

/// A round distance between the ticks of an axis, 1, 2 or 5 of some power of ten, so that at most `most` of them fit.
/// @param range  > 0
double tick_step(double range, int most);

/// A bar of a round length with its words to the right. @param middle  of bar and words @param y  of their baseline
void draw_scale_bar(Drawing& drawing, double middle, double y, double points_per_metre, UnitSystem units);

/// Where an axis along the gap lies on the page [pt], and from where to where on the gap it runs [m].
struct PlaceAxis {
  double left, right, y;
  double from, to;
  double text_size;
};
/// Ticks and numbers below the axis and what they are; the axis line itself is the caller's.
void draw_place_axis(Drawing& drawing, const PlaceAxis& axis, UnitSystem units);

/// The mark of a verdict, told apart by shape and by how full it is: an empty ring, a ring half
/// filled, a full block crossed out.
void draw_verdict_mark(Drawing& drawing, PagePoint centre, double size, Verdict verdict);

}  // namespace spanloom
