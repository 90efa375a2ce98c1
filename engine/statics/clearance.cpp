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

// Depths below this are the rounding of a line that ends on the ground.
constexpr double kTouch = 1e-6;  // [m]

Vec3 from_the_side(const Vec3& point) { return {point.x, 0.0, point.z}; }

Vec3 nearest_on(const Vec3& a, const Vec3& b, const Vec3& point) {
  const Vec3 along = b - a;
  const double squared = dot(along, along);
  const double t = squared > 0.0 ? std::clamp(dot(point - a, along) / squared, 0.0, 1.0) : 0.0;
  return a + t * along;
}

// A straight piece of ground, seen from the side; a.x <= b.x.
struct GroundPiece {
  Vec3 a, b;

  double height(double x) const {
    if (b.x <= a.x) return std::max(a.z, b.z);
    return a.z + (b.z - a.z) * (x - a.x) / (b.x - a.x);
  }
};

// Visits the pieces of ground in a stretch, cut at its ends. A wall right at an anchor is what the
// anchor is fixed to: it is left out.
template <class Visit>
void for_each_ground(const Site& site, const Stretch& within, Visit visit) {
  for (std::size_t i = 0; i + 1 < site.ground.size(); ++i) {
    const GroundPoint &left = site.ground[i], &right = site.ground[i + 1];
    const GroundPiece whole{{left.distance, 0.0, left.height}, {right.distance, 0.0, right.height}};
    if (whole.b.x < within.from || whole.a.x > within.to) continue;
    const bool upright = whole.a.x == whole.b.x;
    if (upright && (whole.a.x <= 0.0 || whole.a.x >= site.gap)) continue;
    if (upright) {
      visit(whole);
      continue;
    }
    const double from = std::max(whole.a.x, within.from), to = std::min(whole.b.x, within.to);
    visit(GroundPiece{{from, 0.0, whole.height(from)}, {to, 0.0, whole.height(to)}});
  }
}

void meet(Clearance& least, double distance, double at) {
  if (distance < least.distance) least = {distance, at};
}

void meet_where_below(Clearance& least, const Nodes& nodes, const GroundPiece& ground) {
  const double begin = std::max(ground.a.x, nodes.front().x), end = std::min(ground.b.x, nodes.back().x);
  if (begin > end) return;
  const auto look = [&](double height, double x) {
    if (height < ground.height(x) - kTouch) meet(least, height - ground.height(x), x);
  };
  for (double x : {begin, end}) look(height_at(nodes, x), x);
  for (const Vec3& node : nodes) {
    if (node.x > begin && node.x < end) look(node.z, node.x);
  }
}

// Least distance of two straight pieces lies at an end of one of them, unless they cross; a line that
// crosses the ground is below it on one side.
void meet_distance(Clearance& least, const Nodes& nodes, const GroundPiece& ground) {
  for (std::size_t i = 0; i + 1 < nodes.size(); ++i) {
    const Vec3 a = from_the_side(nodes[i]), b = from_the_side(nodes[i + 1]);
    const double apart = std::max(std::min(a.x, b.x) - ground.b.x, ground.a.x - std::max(a.x, b.x));
    if (apart >= least.distance) continue;
    for (const Vec3& end : {ground.a, ground.b}) meet(least, norm(end - nearest_on(a, b, end)), end.x);
    for (const Vec3& node : {a, b}) {
      const Vec3 on_ground = nearest_on(ground.a, ground.b, node);
      meet(least, norm(node - on_ground), on_ground.x);
    }
  }
}

// Ground that an anchor answers for: all of it, and the part from the stated edge outwards.
struct ZoneGround {
  Stretch all;
  std::optional<Stretch> beyond_edge;
};

std::array<ZoneGround, 2> zone_grounds(const Rig& rig) {
  const double gap = rig.site.gap;
  const auto reach = [&](const AnchorSpec& anchor) {
    return std::min(gap, std::max(rig.limits.anchor_zone.value, anchor.edge.value_or(0.0)));
  };
  const double near = reach(rig.near_anchor), far = gap - reach(rig.far_anchor);
  std::array<ZoneGround, 2> zones{ZoneGround{{0.0, near}, std::nullopt}, ZoneGround{{far, gap}, std::nullopt}};
  if (rig.near_anchor.edge) zones[0].beyond_edge = Stretch{std::min(*rig.near_anchor.edge, gap), near};
  if (rig.far_anchor.edge) zones[1].beyond_edge = Stretch{far, std::max(gap - *rig.far_anchor.edge, 0.0)};
  return zones;
}

// Visits the ground between neighbouring places, cut to the ends of `within`, each piece with the height
// of the lower of the two feet.
template <class Visit>
void for_each_ground_under(const Rig& rig, std::span<const Vec3> feet, const Stretch& within, Visit visit) {
  if (feet.empty()) return;
  std::vector<Vec3> places(feet.begin(), feet.end());
  places.push_back({0.0, 0.0, 0.0});
  places.push_back({rig.site.gap, 0.0, rig.site.rise});
  std::sort(places.begin(), places.end(), [](const Vec3& a, const Vec3& b) { return a.x < b.x; });
  for (std::size_t i = 0; i + 1 < places.size(); ++i) {
    const Stretch step{std::max(places[i].x, within.from), std::min(places[i + 1].x, within.to)};
    if (step.from > step.to) continue;
    const double foot = std::min(places[i].z, places[i + 1].z);
    for_each_ground(rig.site, step, [&](const GroundPiece& ground) { visit(ground, foot); });
  }
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
  const std::optional<Stretch> between = between_zones(rig);
  if (rig.site.ground.empty() || !between) return std::nullopt;
  Clearance least{INFINITY, 0.0};
  const auto look = [&](double height, double x) {
    if (const auto ground = ground_height(rig.site.ground, x)) meet(least, height - *ground, x);
  };
  for_each_chain(shape, [&](const Nodes& nodes) {
    const double begin = std::max(between->from, nodes.front().x), end = std::min(between->to, nodes.back().x);
    if (begin > end) return;
    for (double x : {begin, end}) look(height_at(nodes, x), x);
    for (const Vec3& node : nodes) {
      if (node.x > begin && node.x < end) look(node.z, node.x);
    }
    for (const GroundPoint& p : rig.site.ground) {
      if (p.distance > begin && p.distance < end) look(height_at(nodes, p.distance), p.distance);
    }
  });
  if (!std::isfinite(least.distance)) return std::nullopt;
  return least;
}

std::optional<Clearance> edge_distance(const Rig& rig, const Shape& shape) {
  Clearance least{INFINITY, 0.0};
  for (const ZoneGround& zone : zone_grounds(rig)) {
    for_each_chain(shape, [&](const Nodes& nodes) {
      for_each_ground(rig.site, zone.all, [&](const GroundPiece& ground) { meet_where_below(least, nodes, ground); });
      if (!zone.beyond_edge) return;
      for_each_ground(rig.site, *zone.beyond_edge,
                      [&](const GroundPiece& ground) { meet_distance(least, nodes, ground); });
    });
  }
  if (!std::isfinite(least.distance)) return std::nullopt;
  return least;
}

std::optional<Stretch> between_zones(const Rig& rig) {
  const Stretch between{rig.limits.anchor_zone.value, rig.site.gap - rig.limits.anchor_zone.value};
  if (between.from > between.to) return std::nullopt;
  return between;
}

std::array<Stretch, 2> anchor_zones(const Rig& rig) {
  const double zone = std::min(rig.limits.anchor_zone.value, 0.5 * rig.site.gap);
  return {Stretch{0.0, zone}, Stretch{rig.site.gap - zone, rig.site.gap}};
}

std::optional<Clearance> foot_clearance(const Rig& rig, std::span<const Vec3> feet, const Stretch& within) {
  Clearance least{INFINITY, 0.0};
  for_each_ground_under(rig, feet, within, [&](const GroundPiece& ground, double foot) {
    for (const Vec3& end : {ground.a, ground.b}) meet(least, foot - end.z, end.x);
  });
  if (!std::isfinite(least.distance)) return std::nullopt;
  return least;
}

std::optional<Stretch> ground_met(const Rig& rig, std::span<const Vec3> feet, const Stretch& within,
                                  double below) {
  std::optional<Stretch> met;
  for_each_ground_under(rig, feet, within, [&](const GroundPiece& ground, double foot) {
    const double level = foot - below;
    const Vec3 &a = ground.a, &b = ground.b;
    if (std::max(a.z, b.z) < level) return;
    const auto reached = [&](const Vec3& end) {
      return end.z >= level ? end.x : a.x + (b.x - a.x) * (level - a.z) / (b.z - a.z);
    };
    met = Stretch{std::min(met ? met->from : INFINITY, reached(a)), std::max(met ? met->to : -INFINITY, reached(b))};
  });
  return met;
}

}  // namespace spanloom
