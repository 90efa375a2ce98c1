// The chain of tapes: a block-tridiagonal system with 3 x 3 symmetric blocks, solved in two sweeps.
#pragma once

#include <span>
#include <vector>

#include "base/sym3.h"
#include "base/vec3.h"

namespace spanloom {

/// Tapes joined by springs: the matrix of a spring k between tape k and k+1 is +K on the diagonal
/// blocks of both and -K between them. Tapes 0 and n are held, so the unknowns are tapes 1..n-1.
/// Solved for the forces in the bays rather than by elimination: one 3 x 3 system, O(n), and no difference
/// of nearly equal stiffnesses, so bays may be far stiffer along than across.
class Ladder {
 public:
  /// Solves for the moves of tapes 0..n under the forces on them; the held ones stay 0.
  /// @param spring  stiffness of each of the n bays [N/m], positive definite
  /// @param force   on each of the n + 1 tapes [N]; the first and last are not used
  /// @return moves [m], size n + 1; valid until the next call
  std::span<const Vec3> solve(std::span<const Sym3> spring, std::span<const Vec3> force);

 private:
  std::vector<Sym3> compliance_;
  std::vector<Vec3> move_;
};

}  // namespace spanloom
