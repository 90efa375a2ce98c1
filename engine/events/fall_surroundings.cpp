#include "events/fall_surroundings.h"

#include <algorithm>
#include <cmath>

#include "statics/clearance.h"

namespace spanloom {

double main_height(const MovingRig& rig, double along) {
  const std::size_t last = rig.line.main_nodes - 1;
  for (std::size_t i = 0; i < last; ++i) {
    const Vec3 &from = rig.rest[i], &to = rig.rest[i + 1];
    if (along < from.x || along > to.x || !(to.x > from.x)) continue;
    return from.z + (along - from.x) / (to.x - from.x) * (to.z - from.z);
  }
  return along < rig.rest[last / 2].x ? rig.rest[0].z : rig.rest[last].z;
}

namespace {

// Nearest place, going one way, where the ground between two neighbouring points stands as high as `lowest`.
std::optional<double> ground_beside(const std::vector<GroundPoint>& ground, double along, double lowest, double sign) {
  std::optional<double> nearest;
  const auto note = [&](double x) {
    const double away = sign * (x - along);
    if (away >= 0.0 && (!nearest || away < *nearest)) nearest = away;
  };
  for (std::size_t i = 0; i < ground.size(); ++i) {
    if (ground[i].height >= lowest) note(ground[i].distance);
    if (i == 0 || ground[i].height == ground[i - 1].height) continue;
    const double share = (lowest - ground[i - 1].height) / (ground[i].height - ground[i - 1].height);
    if (share >= 0.0 && share <= 1.0) note(ground[i - 1].distance + share * (ground[i].distance - ground[i - 1].distance));
  }
  return nearest;
}

}  // namespace

std::optional<double> wall_distance(const Rig& rig, double along, double lowest, AnchorEnd towards) {
  const bool near = towards == AnchorEnd::near;
  std::optional<double> least = ground_beside(rig.site.ground, along, lowest, near ? -1.0 : 1.0);
  const std::optional<double> ground = ground_height(rig.site.ground, along);
  if (ground && *ground >= lowest) least = 0.0;
  const AnchorSpec& anchor = near ? rig.near_anchor : rig.far_anchor;
  const double top = near ? 0.0 : rig.site.rise;
  if (anchor.wall && lowest < top) {
    const double away = std::max(0.0, near ? along - *anchor.wall : rig.site.gap - *anchor.wall - along);
    least = least ? std::min(*least, away) : away;
  }
  return least;
}

void note_distances(const Rig& rig, const Vec3& hip, const Vec3& velocity, FallResult& result) {
  const double feet = hip.z - rig.walker.foot_to_hip.value;
  if (const std::optional<double> ground = ground_height(rig.site.ground, hip.x)) {
    if (!result.clearance || feet - *ground < *result.clearance) {
      result.clearance = feet - *ground;
      result.clearance_at = hip.x;
    }
  }
  for (const AnchorEnd towards : {AnchorEnd::near, AnchorEnd::far}) {
    const std::optional<double> away = wall_distance(rig, hip.x, feet, towards);
    if (!away || (result.wall && *away >= *result.wall)) continue;
    result.wall = away;
    result.wall_speed = std::max(0.0, towards == AnchorEnd::near ? -velocity.x : velocity.x);
  }
}

}  // namespace spanloom
