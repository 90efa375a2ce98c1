#include "line/hang.h"

#include <algorithm>
#include <cmath>

namespace spanloom {

Vec3 guess_near_force(const Vec3& reach, double natural_length, const Vec3& load, double stiffness) {
  // With ends that meet there is no chord to pull along; any direction across the load will do.
  const double chord = std::max(norm(reach), 1e-3 * natural_length);
  const Vec3 along = norm(reach) > 0.0 ? (1.0 / norm(reach)) * reach : Vec3{1.0, 0.0, 0.0};
  const Vec3 across = load - dot(load, along) * along;
  const double w = std::max(norm(across), 1e-9 * stiffness);
  // H (1/EA) = (w/H)^2 / 24 where the chord is just as long as the chain.
  const double just_taut = std::cbrt(stiffness * w * w / 24.0);
  const double slack = natural_length / chord - 1.0;
  const double h = slack > 0.0 ? std::min(just_taut, w / std::sqrt(24.0 * slack))
                               : just_taut - stiffness * slack;
  return h * along + 0.5 * load;
}

Hung hang_chain(const ChainSet& chains, std::size_t chain, const Vec3& reach, const Vec3& start,
                double relative) {
  // Half the digits are enough for the closure: nodes() puts the rest where it costs no force.
  const double closure = std::sqrt(relative) * chains.natural_length(chain);
  return hang([&](const Vec3& f) { return chains.evaluate(chain, f); }, reach, start, relative, closure);
}

}  // namespace spanloom
