// Air drag on a node's share of webbing: quadratic in the speed through the air, across the line only.
#pragma once

#include "base/constants.h"
#include "base/lane.h"
#include "motion/motion_line.h"

namespace spanloom {

/// What slows a node per speed and speed through the air: 1/2 rho Cd A / m [1/m].
struct DragRate { double y = 0.0, z = 0.0; };

inline DragRate drag_rate(const DragArea& area, double mass) {
  const double k = mass > 0.0 ? 0.5 * kAirDensity / mass : 0.0;
  return {k * area.sideways, k * area.upright};
}

/// Change of velocity over a time from w' = -k |w| w with the second term of its series, so that the error is of
/// third order. Number: double or Lane. @param y, z  velocity through the air [m/s]
template <class Number>
[[gnu::always_inline]] inline void add_drag(const Number& ky, const Number& kz, double time, const Number& y, const Number& z, Number& dy, Number& dz) {
  const Number yy = y * y, zz = z * z;
  const Number both = yy + zz, turn = ky * yy + kz * zz;
  const Number speed = square_root(both);
  dy = ky * (time * y * (0.5 * time * (turn + ky * both) - speed));
  dz = kz * (time * z * (0.5 * time * (turn + kz * both) - speed));
}

}  // namespace spanloom
