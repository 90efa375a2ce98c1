// Slider rings: the backup runs through them until nothing more is gained.
#pragma once

#include <string>

#include "line/mesh.h"
#include "statics/equilibrium.h"

namespace spanloom {

/// The line with its rings let go.
struct SlidRings {
  Line line;                    ///< the same bars, loop lengths and weights moved
  Equilibrium rest;             ///< not certified where the rings did not come to rest
  double ring_unbalanced = 0.0; ///< greatest force along the backup left at a ring [N]
  double slid_max = 0.0;        ///< greatest length that ran through one ring [m]
  bool starts_agree = true;     ///< see slide_rings_from_three_starts
};

/// Lets webbing run through frictionless rings from a locked state. The natural coordinate s_k of the
/// backup at ring k is one more unknown of tape k; energy is stretch and height. Stretch energy stays
/// convex (perspective of a convex function), height does not, so the answer is a stationary point with
/// positive pivots, reached by descent on the energy from where the rings were locked.
/// Notation: L natural length of a loop, f its near force, D(f; R, L) the chain's dual energy (chain.h).
[[nodiscard]] SlidRings slide_rings(const Mesh& mesh, const Line& locked, const Equilibrium& at);

/// The same from equal slack and from two starts with slack moved to every other loop; says whether the
/// three agree (tapes to 1e-6 m). The first is returned.
[[nodiscard]] SlidRings slide_rings_from_three_starts(const Mesh& mesh, const Line& locked, const Equilibrium& at);

}  // namespace spanloom
