// One loop whose natural length may change: its energy and how that changes with the length.
#pragma once

#include "base/sym3.h"
#include "line/mesh.h"

namespace spanloom {

/// Derivatives of a loop's least energy E by its natural length L, its ends held.
/// Notation: F_i = f - Q_i bar forces, b_i bar vectors, C_i bar compliances, lambda_i share of bar i in
/// dL (0 for links), pi_j = d(load on node j)/dL, q'_i = sum of pi_j before bar i.
struct LengthDerivatives {
  double slope = 0.0;       ///< dE/dL [N]
  double curvature = 0.0;   ///< d2E/dL2 at held near force, D_LL [N/m]
  Vec3 reach_rate;          ///< d(reach)/dL at held near force [-]
  Vec3 near_load_rate;      ///< d(load on the near end)/dL [N/m]
  Vec3 far_load_rate;       ///< d(load on inner nodes and far end)/dL [N/m]
};

/// @param near_force  f of the loop hung between its ends [N]
/// @param near, far   its ends [m]
/// @param trace_squared  of the chain (ChainSet), so that slack bars give way here as they do there [N2]
LengthDerivatives length_derivatives(const Mesh& mesh, const Line& line, std::size_t chain,
                                     const Vec3& near_force, const Vec3& near, const Vec3& far,
                                     double trace_squared);

}  // namespace spanloom
