#include "survey/laser.h"

#include <cmath>
#include <numbers>

#include <fmt/format.h>

#include "base/input_error.h"

namespace spanloom {
namespace {

/// What one standard deviation of one reading does.
struct Effect {
  std::string of;
  double gap;   // [m]
  double rise;  // [m]
};

void check(const LaserSight& sight) {
  if (!(sight.distance.value > 0.0) || !std::isfinite(sight.distance.value)) {
    throw InputError("distance", fmt::format("{:g} m", sight.distance.value), "a distance above 0 m");
  }
  if (!(std::abs(sight.angle.value) < 0.5 * std::numbers::pi)) {
    throw InputError("angle", fmt::format("{:g} deg", sight.angle.value * 180.0 / std::numbers::pi),
                     "an angle between -90 deg and 90 deg, 0 deg being level", "give angles above the horizontal");
  }
}

GapRise with_spread(double gap, double rise, const std::vector<Effect>& effects) {
  GapRise out{gap, rise};
  for (const Effect& e : effects) {
    out.gap_variance += e.gap * e.gap;
    out.rise_variance += e.rise * e.rise;
    out.covariance += e.gap * e.rise;
  }
  return out;
}

struct Legs {
  double level, up;                                // of a sight [m]
  double level_by_distance, up_by_distance;        // one sd of the distance [m]
  double level_by_angle, up_by_angle;              // one sd of the angle [m]
};

Legs legs_of(const LaserSight& s) {
  check(s);
  const double c = std::cos(s.angle.value), n = std::sin(s.angle.value), d = s.distance.value;
  return {d * c, d * n, c * s.distance.sd, n * s.distance.sd, -d * n * s.angle.sd, d * c * s.angle.sd};
}

std::vector<Effect> effects_of(const Legs& a) {
  return {{"distance", a.level_by_distance, a.up_by_distance}, {"angle up or down", a.level_by_angle, a.up_by_angle}};
}

struct Stand {
  double gap = 0.0, rise = 0.0;
  std::vector<Effect> effects;
};

Stand stand_of(const LaserSight& near, const LaserSight& far, const Reading& between) {
  const Legs n = legs_of(near), f = legs_of(far);
  if (!(between.value > 0.0 && between.value <= std::numbers::pi)) {
    throw InputError("between", fmt::format("{:g} deg", between.value * 180.0 / std::numbers::pi),
                     "a horizontal angle above 0 deg, up to 180 deg",
                     "turn from the near to the far anchor, either way");
  }
  const double c = std::cos(between.value);
  // The law of cosines with the difference of the legs apart: exact where the stand is close to the line.
  const double gap = std::sqrt(std::pow(n.level - f.level, 2) + 2.0 * n.level * f.level * (1.0 - c));
  if (!(gap > 0.0)) throw InputError("between", "both anchors at one place", "two anchors apart");
  const double by_near = (n.level - f.level * c) / gap, by_far = (f.level - n.level * c) / gap;
  const double by_between = n.level * f.level * std::sin(between.value) / gap;
  return {gap, f.up - n.up,
          {{"distance to the near anchor", by_near * n.level_by_distance, -n.up_by_distance},
           {"angle to the near anchor", by_near * n.level_by_angle, -n.up_by_angle},
           {"distance to the far anchor", by_far * f.level_by_distance, f.up_by_distance},
           {"angle to the far anchor", by_far * f.level_by_angle, f.up_by_angle},
           {"angle between the anchors", by_between * between.sd, 0.0}}};
}

std::vector<Share> shares_of(const std::vector<Effect>& effects) {
  std::vector<Share> shares;
  for (const Effect& e : effects) shares.push_back({e.of, std::abs(e.gap), std::abs(e.rise)});
  return shares;
}

}  // namespace

GapRise gap_of_sight(const LaserSight& sight) {
  const Legs legs = legs_of(sight);
  return with_spread(legs.level, legs.up, effects_of(legs));
}

GapRise gap_from_stand(const LaserSight& near, const LaserSight& far, const Reading& between) {
  const Stand stand = stand_of(near, far, between);
  return with_spread(stand.gap, stand.rise, stand.effects);
}

std::vector<Share> shares_of_sight(const LaserSight& sight) { return shares_of(effects_of(legs_of(sight))); }

std::vector<Share> shares_of_stand(const LaserSight& near, const LaserSight& far, const Reading& between) {
  return shares_of(stand_of(near, far, between).effects);
}

}  // namespace spanloom
