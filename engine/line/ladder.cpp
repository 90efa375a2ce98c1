#include "line/ladder.h"

namespace spanloom {

// Notation: C_k compliance of bay k, f_k force on tape k, g_k force in bay k, u_k move of tape k.
// Balance of a tape: g_k = g_{k-1} - f_k; a bay gives way by u_{k+1} - u_k = C_k g_k; both ends are held:
//   g_k = g_0 - s_k, s_k = f_1 + .. + f_k;   0 = u_n = (sum of C_k) g_0 - sum of C_k s_k.
std::span<const Vec3> Ladder::solve(std::span<const Sym3> spring, std::span<const Vec3> force) {
  const std::size_t n = spring.size();
  compliance_.resize(n);
  move_.resize(n + 1);
  Sym3 all;
  Vec3 sum, bent;
  for (std::size_t k = 0; k < n; ++k) {
    if (k > 0) sum += force[k];
    compliance_[k] = inverse(spring[k]);
    all += compliance_[k];
    bent += compliance_[k] * sum;
  }
  Vec3 in_bay = inverse(all) * bent, at;
  for (std::size_t k = 0; k < n; ++k) {
    move_[k] = at;
    if (k > 0) in_bay -= force[k];
    at += compliance_[k] * in_bay;
  }
  move_[n] = {};
  return move_;
}

}  // namespace spanloom
