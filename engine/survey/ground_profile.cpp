#include "survey/ground_profile.h"

#include <algorithm>
#include <cmath>

#include <fmt/format.h>

#include "base/input_error.h"

namespace spanloom {
namespace {

bool nearer(const GroundPoint& a, const GroundPoint& b) { return a.distance < b.distance; }

/// Levels the ground up to an anchor, or says how much is missing.
void reach_anchor(GroundProfile& profile, double at, AnchorEnd end, UnitSystem units) {
  const bool near = end == AnchorEnd::near;
  const GroundPoint last = near ? profile.points.front() : profile.points.back();
  const double missing = near ? last.distance - at : at - last.distance;
  if (!(missing > 0.0)) return;
  const char* anchor = near ? "near" : "far";
  const std::string length = quantity_text(missing, Measure::length, units);
  if (missing > kLevelToAnchor) {
    profile.notes.push_back(fmt::format("The ground ends {} before the {} anchor: no ground is given, and no clearance "
                                        "can be checked. Measure up to the anchor.", length, anchor));
    return;
  }
  profile.points.insert(near ? profile.points.begin() : profile.points.end(), {at, last.height});
  profile.notes.push_back(
      fmt::format("{} of ground next to the {} anchor were not measured and are taken level.", length, anchor));
}

}  // namespace

std::vector<GroundPoint> thinned(std::vector<GroundPoint> points) {
  std::stable_sort(points.begin(), points.end(), nearer);
  std::vector<GroundPoint> kept;
  for (const GroundPoint& p : points) {
    if (kept.empty() || p.distance - kept.back().distance >= kClosestGround) {
      kept.push_back(p);
    } else if (p.height > kept.back().height) {
      kept.back().height = p.height;
    }
  }
  return kept;
}

ProjectedGround project_ground(const std::vector<Vec3>& points, const Vec3& far, double most_sideways) {
  const double gap = std::hypot(far.x, far.y);
  if (!(gap > 0.0)) throw InputError("far", "both anchors at one place", "two anchors apart");
  const double along_x = far.x / gap, along_y = far.y / gap;
  ProjectedGround out;
  std::vector<GroundPoint> on_line;
  for (const Vec3& p : points) {
    const double along = p.x * along_x + p.y * along_y;
    const double aside = std::abs(p.y * along_x - p.x * along_y);
    if (aside > most_sideways) ++out.sideways;
    else if (along < -kBeyondAnchor || along > gap + kBeyondAnchor) ++out.beyond;
    else on_line.push_back({along, p.z});
  }
  out.points = thinned(on_line);
  out.thinned = on_line.size() - out.points.size();
  return out;
}

GroundProfile join_ground(const std::vector<GroundSource>& sources, double gap, UnitSystem units) {
  GroundProfile profile;
  std::vector<GroundPoint>& all = profile.points;
  for (const GroundSource& source : sources) {
    if (source.points.empty()) continue;
    const bool first = all.empty();
    const double from = first ? 0.0 : all.front().distance - kClosestGround;
    const double to = first ? 0.0 : all.back().distance + kClosestGround;
    const std::size_t before = all.size();
    for (const GroundPoint& p : source.points) {
      if (first || p.distance < from || p.distance > to) all.push_back(p);
    }
    std::stable_sort(all.begin(), all.end(), nearer);
    if (all.size() > before) profile.from.push_back(source.words);
  }
  if (all.empty()) return profile;
  reach_anchor(profile, 0.0, AnchorEnd::near, units);
  reach_anchor(profile, gap, AnchorEnd::far, units);
  const bool reaches = all.front().distance <= 0.0 && all.back().distance >= gap && all.size() > 1;
  if (!reaches) all.clear();
  return profile;
}

}  // namespace spanloom
