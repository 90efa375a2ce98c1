#include "line/ladder.h"

namespace spanloom {

std::span<const Vec3> Ladder::solve(std::span<const Sym3> spring, std::span<const Vec3> force) {
  const std::size_t n = spring.size();
  move_.assign(n + 1, Vec3{});
  pivot_inverse_.resize(n + 1);
  for (std::size_t k = 1; k < n; ++k) {
    Sym3 pivot = spring[k - 1] + spring[k];
    Vec3 right = force[k];
    if (k > 1) {
      pivot -= sandwich(spring[k - 1], pivot_inverse_[k - 1]);
      right += spring[k - 1] * (pivot_inverse_[k - 1] * move_[k - 1]);
    }
    pivot_inverse_[k] = inverse(pivot);
    move_[k] = right;  // forward-reduced force for now
  }
  for (std::size_t k = n; k-- > 1;) {
    move_[k] = pivot_inverse_[k] * (move_[k] + (k + 1 < n ? spring[k] * move_[k + 1] : Vec3{}));
  }
  return move_;
}

}  // namespace spanloom
