#include "statics/loop_geometry.h"

#include <algorithm>
#include <cmath>

#include "base/constants.h"

namespace spanloom {

double height_at(std::span<const Vec3> nodes, double x) {
  const auto right = std::upper_bound(nodes.begin(), nodes.end(), x,
                                      [](double at, const Vec3& node) { return at < node.x; });
  if (right == nodes.begin()) return nodes.front().z;
  if (right == nodes.end()) return nodes.back().z;
  const Vec3 &a = *(right - 1), &b = *right;
  return a.z + (b.z - a.z) * (x - a.x) / (b.x - a.x);
}

namespace {

struct Within { double from, to; };

// Visits main height minus loop height at every node of either inside a stretch; both are straight
// between nodes, so the extremes are there.
template <class Visit>
void differences(std::span<const Vec3> main, std::span<const Vec3> loop, const Within& x, Visit visit) {
  const double from = std::max({x.from, main.front().x, loop.front().x});
  const double to = std::min({x.to, main.back().x, loop.back().x});
  for (double at : {from, to}) visit(height_at(main, at) - height_at(loop, at));
  for (const Vec3& node : main) {
    if (node.x > from && node.x < to) visit(node.z - height_at(loop, node.x));
  }
  for (const Vec3& node : loop) {
    if (node.x > from && node.x < to) visit(height_at(main, node.x) - node.z);
  }
}

// Place on the polyline a length away from a node, forwards or backwards.
double x_along(std::span<const Vec3> nodes, std::size_t from, double length, int direction) {
  std::size_t i = from;
  while (direction > 0 ? i + 1 < nodes.size() : i > 0) {
    const std::size_t next = direction > 0 ? i + 1 : i - 1;
    const double step = norm(nodes[next] - nodes[i]);
    if (step >= length) return nodes[i].x + (nodes[next].x - nodes[i].x) * length / step;
    length -= step;
    i = next;
  }
  return nodes[i].x;
}

}  // namespace

double loop_drop(std::span<const Vec3> main, std::span<const Vec3> loop) {
  double greatest = -INFINITY;
  differences(main, loop, {-INFINITY, INFINITY}, [&](double d) { greatest = std::max(greatest, d); });
  return greatest;
}

double ankle_margin(std::span<const Vec3> main, std::span<const Vec3> loop, std::size_t foot) {
  double least = INFINITY;
  const Within x{x_along(main, foot, kAnkleHalfWidth, -1), x_along(main, foot, kAnkleHalfWidth, +1)};
  differences(main, loop, x, [&](double d) { least = std::min(least, d); });
  return least;
}

}  // namespace spanloom
