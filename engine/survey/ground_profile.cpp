#include "survey/ground_profile.h"

#include <algorithm>
#include <cmath>

#include <fmt/format.h>

#include "base/input_error.h"

namespace spanloom {
namespace {

bool nearer(const GroundPoint& a, const GroundPoint& b) { return a.distance < b.distance; }

constexpr double kWorthAWord = 0.005;  // shorter reads as 0.00 m [m]

/// Of the straight pieces between points, at least one; level beyond the ends [m].
double height_on(const std::vector<GroundPoint>& points, double distance) {
  const auto after = std::lower_bound(points.begin(), points.end(), GroundPoint{distance, 0.0}, nearer);
  if (after == points.end()) return points.back().height;
  if (after == points.begin() || after->distance <= distance) return after->height;
  const GroundPoint& before = *(after - 1);
  const double part = (distance - before.distance) / (after->distance - before.distance);
  return before.height + part * (after->height - before.height);
}

/// Points of a poorer source that lie above better ground.
struct HigherGround {
  std::size_t count = 0;
  GroundPoint worst{0.0, 0.0};
  double above = 0.0;  // the better ground, at `worst` [m]
};

std::string told(const HigherGround& higher, const std::string& words, UnitSystem units) {
  const auto length = [&](double si) { return quantity_text(si, Measure::length, units); };
  return fmt::format("{} lies above the better ground at {} (the most: {} from the near anchor, height {}, {} above "
                     "it). The higher ground is used there; measure again.",
                     words, higher.count == 1 ? "1 point" : fmt::format("{} points", higher.count),
                     length(higher.worst.distance), length(higher.worst.height), length(higher.above));
}

/// Levels the ground up to an anchor, or says how much is missing.
void reach_anchor(GroundProfile& profile, double at, AnchorEnd end, UnitSystem units) {
  const bool near = end == AnchorEnd::near;
  const GroundPoint last = near ? profile.points.front() : profile.points.back();
  const double missing = near ? last.distance - at : at - last.distance;
  if (!(missing > 0.0)) return;
  const bool worth_a_word = missing >= kWorthAWord;
  const char* anchor = near ? "near" : "far";
  const std::string length = quantity_text(missing, Measure::length, units);
  if (missing > kLevelToAnchor) {
    profile.notes.push_back(fmt::format("The ground ends {} before the {} anchor: no ground is given, and no clearance "
                                        "can be checked. Measure up to the anchor.", length, anchor));
    return;
  }
  profile.points.insert(near ? profile.points.begin() : profile.points.end(), {at, last.height});
  if (!worth_a_word) return;
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
  if (kept.empty()) return kept;
  // A kept point stands for its neighbours, but the straight line to the next one may dip under them.
  std::vector<GroundPoint> out = kept;
  for (const GroundPoint& p : points) {
    const bool last = p.distance > kept.back().distance && p.distance == points.back().distance;
    const bool twice = out.size() > kept.size() && out.back().distance == p.distance;
    if (twice) out.back().height = std::max(out.back().height, p.height);
    else if (last || p.height > height_on(kept, p.distance) + kGroundAlike) out.push_back(p);
  }
  std::stable_sort(out.begin(), out.end(), nearer);
  return out;
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
    const std::vector<GroundPoint> better = all;
    HigherGround higher;
    for (const GroundPoint& p : source.points) {
      if (first || p.distance < from || p.distance > to) {
        all.push_back(p);
        continue;
      }
      const double above = p.height - height_on(better, p.distance);
      if (!(above > kGroundHidden)) continue;
      all.push_back(p);
      ++higher.count;
      if (above > higher.above) higher = {higher.count, p, above};
    }
    if (higher.count > 0) profile.notes.push_back(told(higher, source.words, units));
    std::stable_sort(all.begin(), all.end(), nearer);
    if (all.size() == before) continue;
    profile.from.push_back(source.words);
    profile.height_sd = std::max(profile.height_sd, source.height_sd);
  }
  if (all.empty()) return profile;
  reach_anchor(profile, 0.0, AnchorEnd::near, units);
  reach_anchor(profile, gap, AnchorEnd::far, units);
  const bool reaches = all.front().distance <= 0.0 && all.back().distance >= gap && all.size() > 1;
  if (!reaches) all.clear();
  return profile;
}

}  // namespace spanloom
