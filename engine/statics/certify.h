// The proof of an equilibrium, from node positions and the forward law alone.
#pragma once

#include <span>

#include "statics/equilibrium.h"

namespace spanloom {

/// Computes residual and energy gap of a line whose nodes are at `shape`; `near_force` are the
/// balanced forces claimed for it, per chain [N].
Certificate certify(const Line& line, const Shape& shape, std::span<const Vec3> near_force);

/// Whether a certificate is good enough to give the answer out: residual below 1e-9 of the greatest
/// force or sixteen times its rounding floor, which counts one bar at a time; energy gap below 1e-11 of the energies it is
/// made of.
bool holds(const Certificate& certificate);

}  // namespace spanloom
