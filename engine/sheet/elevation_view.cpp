#include "sheet/elevation_view.h"

#include <algorithm>
#include <cmath>
#include <vector>

namespace spanloom {
namespace {

constexpr double kPaperMetresPerPoint = 0.0254 / 72.0;
constexpr double kSidePad = 14.0;      // left and right of the anchors [pt]
constexpr double kTopPad = 22.0;       // room for tape numbers above the line [pt]
constexpr double kLoopPad = 30.0;      // room for exaggerated loops below it [pt]
constexpr double kGroundPad = 12.0;    // room for the hatching below the ground [pt]
constexpr double kFootRoom = 44.0;     // gap dimension and scale bar below the picture [pt]
constexpr double kLoopOnPaper = 11.0;  // how deep a typical loop should look [pt]
constexpr double kSmallestFigure = 4.0;  // foot to hip of a person that can still be seen [pt]

// What has to be in the picture [m].
struct Extent {
  double top, bottom;
};

Extent line_extent(const Rig& rig, const Plan& plan, const Vec3& foot) {
  Extent extent{std::max(0.0, rig.site.rise), std::min(0.0, rig.site.rise)};
  for (const Vec3& p : plan.standing.main_shape) extent.bottom = std::min(extent.bottom, p.z);
  extent.bottom = std::min(extent.bottom, foot.z - plan.body_below_main);
  extent.top = std::max(extent.top, foot.z + 1.9 * rig.walker.foot_to_hip.value);
  return extent;
}

double median_drop(const Plan& plan) {
  std::vector<double> drops;
  for (const PlanBay& bay : plan.bays) drops.push_back(bay.drop);
  const auto middle = drops.begin() + static_cast<std::ptrdiff_t>(drops.size() / 2);
  std::nth_element(drops.begin(), middle, drops.end());
  return *middle;
}

}  // namespace

ElevationView choose_view(const Frame& frame, const Rig& rig, const Plan& plan, const Vec3& foot) {
  const Extent line = line_extent(rig, plan, foot);
  const double room = frame.height - kTopPad - kFootRoom;
  const auto fitting = [&](double height) {
    const double across = rig.site.gap / (frame.width - 2.0 * kSidePad);
    const double down = height * (1.0 + kLoopPad / room) / room;
    return round_scale(std::max(across, down) / kPaperMetresPerPoint);
  };
  double lowest_ground = line.bottom;
  for (const GroundPoint& g : rig.site.ground) lowest_ground = std::min(lowest_ground, g.height);

  ElevationView view;
  view.scale = fitting(line.top - line.bottom);
  // A deep gorge would shrink the line to a scratch: then the ground is cut off instead, and said so.
  constexpr double kMostShrinking = 1.6;
  const double with_ground = fitting(line.top - lowest_ground);
  if (with_ground <= kMostShrinking * view.scale) view.scale = with_ground;
  view.points_per_metre = 1.0 / (view.scale * kPaperMetresPerPoint);
  view.near_x = frame.x + 0.5 * (frame.width - rig.site.gap * view.points_per_metre);
  view.zero_y = frame.y + kTopPad + line.top * view.points_per_metre;
  const double line_height = (line.top - line.bottom) * view.points_per_metre + kLoopPad;
  const double ground_height = (line.top - lowest_ground) * view.points_per_metre + kGroundPad;
  view.ground_is_cut = ground_height > room + 1.0;
  view.bottom_y = frame.y + kTopPad + std::min(room, std::max(line_height, ground_height));
  view.exaggeration = loop_exaggeration(median_drop(plan) * view.points_per_metre);
  view.figures_to_scale = rig.walker.foot_to_hip.value * view.points_per_metre >= kSmallestFigure;
  return view;
}

double round_scale(double least) {
  constexpr double kRound[] = {1.0, 1.25, 1.5, 1.75, 2.0, 2.5, 3.0, 3.5,
                               4.0, 4.5,  5.0, 6.0,  7.0, 8.0, 9.0, 10.0};
  constexpr double kRounding = 1e-12;  // what divisions leave must not cost a step
  const double decade = std::pow(10.0, std::floor(std::log10(least)));
  for (const double round : kRound) {
    if (round * decade >= least * (1.0 - kRounding)) return round * decade;
  }
  return 10.0 * decade;
}

double loop_exaggeration(double drop_on_paper) {
  if (!(drop_on_paper > 0.0) || drop_on_paper >= kLoopOnPaper) return 1.0;
  const double wanted = kLoopOnPaper / drop_on_paper;
  const double decade = std::pow(10.0, std::floor(std::log10(wanted)));
  for (const double factor : {5.0, 2.0}) {
    if (factor * decade <= wanted) return factor * decade;
  }
  return decade;
}

}  // namespace spanloom
