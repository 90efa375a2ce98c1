#include "statics/clearance.h"

#include <algorithm>
#include <cmath>

#include "statics/loop_geometry.h"

namespace spanloom {
namespace {

using Nodes = std::vector<Vec3>;

template <class Visit>
void for_each_chain(const Shape& shape, Visit visit) {
  for (const Nodes& nodes : shape.main) visit(nodes);
  for (const Nodes& nodes : shape.loop) {
    if (!nodes.empty()) visit(nodes);
  }
}

double distance_to(const Vec3& a, const Vec3& b, const Vec3& point) {
  const Vec3 along = b - a;
  const double squared = dot(along, along);
  const double t = squared > 0.0 ? std::clamp(dot(point - a, along) / squared, 0.0, 1.0) : 0.0;
  return norm(point - (a + t * along));
}

double signed_distance(const Nodes& nodes, const Vec3& edge) {
  double least = INFINITY;
  for (std::size_t i = 0; i + 1 < nodes.size(); ++i) {
    least = std::min(least, distance_to(nodes[i], nodes[i + 1], edge));
  }
  const bool over = edge.x >= nodes.front().x && edge.x <= nodes.back().x;
  return over && height_at(nodes, edge.x) < edge.z ? -least : least;
}

}  // namespace

std::optional<double> ground_height(std::span<const GroundPoint> ground, double x) {
  if (ground.size() < 2 || x < ground.front().distance || x > ground.back().distance) return std::nullopt;
  const auto right = std::lower_bound(ground.begin(), ground.end(), x,
                                      [](const GroundPoint& p, double at) { return p.distance < at; });
  double height = -INFINITY;
  if (right != ground.begin() && right->distance > (right - 1)->distance) {
    const GroundPoint &a = *(right - 1), &b = *right;
    height = a.height + (b.height - a.height) * (x - a.distance) / (b.distance - a.distance);
  }
  for (auto p = right; p != ground.end() && p->distance == x; ++p) height = std::max(height, p->height);
  return height;
}

bool in_anchor_zone(const Rig& rig, double x) {
  return x < rig.limits.anchor_zone.value || x > rig.site.gap - rig.limits.anchor_zone.value;
}

std::optional<Clearance> line_clearance(const Rig& rig, const Shape& shape) {
  const double from = rig.limits.anchor_zone.value, to = rig.site.gap - from;
  if (rig.site.ground.empty() || from > to) return std::nullopt;
  Clearance least{INFINITY, 0.0};
  const auto meet = [&](double height, double x) {
    const std::optional<double> ground = ground_height(rig.site.ground, x);
    if (ground && height - *ground < least.distance) least = {height - *ground, x};
  };
  for_each_chain(shape, [&](const Nodes& nodes) {
    const double begin = std::max(from, nodes.front().x), end = std::min(to, nodes.back().x);
    if (begin > end) return;
    for (double x : {begin, end}) meet(height_at(nodes, x), x);
    for (const Vec3& node : nodes) {
      if (node.x > begin && node.x < end) meet(node.z, node.x);
    }
    for (const GroundPoint& p : rig.site.ground) {
      if (p.distance > begin && p.distance < end) meet(height_at(nodes, p.distance), p.distance);
    }
  });
  if (!std::isfinite(least.distance)) return std::nullopt;
  return least;
}

std::optional<Clearance> edge_distance(const Rig& rig, const Shape& shape) {
  std::optional<Clearance> least;
  const auto meet = [&](const std::optional<double>& from_anchor, bool near) {
    if (!from_anchor) return;
    const double x = near ? *from_anchor : rig.site.gap - *from_anchor;
    const std::optional<double> height = ground_height(rig.site.ground, x);
    if (!height) return;
    for_each_chain(shape, [&](const Nodes& nodes) {
      const double distance = signed_distance(nodes, {x, 0.0, *height});
      if (!least || distance < least->distance) least = Clearance{distance, x};
    });
  };
  meet(rig.near_anchor.edge, true);
  meet(rig.far_anchor.edge, false);
  return least;
}

}  // namespace spanloom
