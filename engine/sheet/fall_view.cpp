#include "sheet/fall_view.h"

#include <algorithm>
#include <cmath>

#include "statics/clearance.h"

namespace spanloom {
namespace {

constexpr double kBesideBodies = 1.6;   // room for the dimension line [m]
constexpr double kRound = 0.4;          // above and below [m]
constexpr double kAboveHip = 0.95;      // crown of the head, share of foot to hip

struct Extent {
  double x_from = INFINITY, x_to = -INFINITY, z_from = INFINITY, z_to = -INFINITY;
  void meet(double x, double z) {
    x_from = std::min(x_from, x), x_to = std::max(x_to, x);
    z_from = std::min(z_from, z), z_to = std::max(z_to, z);
  }
};

Extent extent_of(const Rig& rig, const FallResult& fall) {
  const double leg = rig.walker.foot_to_hip.value;
  Extent extent;
  for (const FallFrame* frame : fall_moments(rig, fall)) {
    extent.meet(frame->hip.x, frame->hip.z - leg);
    extent.meet(frame->hip.x, frame->hip.z + kAboveHip * leg);
    extent.meet(frame->ring.x, frame->ring.z);
  }
  if (drawn_until(rig, fall).hits_ground) return extent;
  extent.meet(fall.lowest_at, fall.lowest);
  extent.meet(fall.lowest_at, fall.lowest + fall.clear_height);
  return extent;
}

}  // namespace

DrawnUntil drawn_until(const Rig& rig, const FallResult& fall) {
  if (fall.clearance && *fall.clearance < 0.0) {
    for (const FallPoint& point : fall.path) {
      const auto ground = ground_height(rig.site.ground, point.hip.x);
      if (ground && point.hip.z - rig.walker.foot_to_hip.value <= *ground) return {point.time, true};
    }
  }
  return {fall.lowest_time, false};
}

std::vector<const FallFrame*> fall_moments(const Rig& rig, const FallResult& fall) {
  constexpr std::size_t kSteps = 5;
  std::vector<const FallFrame*> moments;
  if (fall.frames.empty()) return moments;
  const double until = drawn_until(rig, fall).time;
  const auto apart = [&](const FallFrame& frame) { return std::abs(frame.time - until); };
  const auto nearest = std::min_element(fall.frames.begin(), fall.frames.end(), [&](const FallFrame& a, const FallFrame& b) {
    return apart(a) < apart(b);
  });
  const auto last = static_cast<std::size_t>(nearest - fall.frames.begin());
  const std::size_t stride = std::max<std::size_t>(1, (last + kSteps / 2) / kSteps);
  for (std::size_t i = 0; i < last; i += stride) moments.push_back(&fall.frames[i]);
  moments.push_back(&*nearest);
  return moments;
}

FallView fall_view(const PictureBox& frame, const Rig& rig, const FallResult& fall) {
  Extent extent = extent_of(rig, fall);
  extent.x_from -= kBesideBodies, extent.x_to += kBesideBodies;
  extent.z_to += kRound, extent.z_from -= kRound;
  // Ground close below is shown; ground far below would shrink the fall.
  const double height = extent.z_to - extent.z_from;
  const auto moments = fall_moments(rig, fall);
  const double last_x = moments.empty() ? fall.lowest_at : moments.back()->hip.x;
  if (const auto ground = ground_height(rig.site.ground, last_x)) {
    if (*ground > extent.z_from - 0.5 * height) extent.z_from = std::min(extent.z_from, *ground - kRound);
  }
  FallView view;
  view.points_per_metre =
      std::min(frame.height / (extent.z_to - extent.z_from), frame.width / (extent.x_to - extent.x_from));
  const double width = frame.width / view.points_per_metre;
  const double middle = 0.5 * (extent.x_from + extent.x_to), gap = rig.site.gap;
  constexpr double kBeyondAnchor = 1.5;   // [m]
  view.from = middle - 0.5 * width;
  if (width >= gap + 2.0 * kBeyondAnchor) {
    view.from = 0.5 * (gap - width);
  } else {
    view.from = std::clamp(view.from, -kBeyondAnchor, gap + kBeyondAnchor - width);
    view.from = std::clamp(view.from, extent.x_to - width, extent.x_from);  // never a body cut off
  }
  view.to = view.from + width;
  view.highest = extent.z_to;
  view.lowest = extent.z_to - frame.height / view.points_per_metre;
  view.left = frame.x, view.right = frame.x + frame.width;
  view.top = frame.y, view.bottom = frame.y + frame.height;
  return view;
}

}  // namespace spanloom
