// Four doubles worked on side by side.
#pragma once

#include <cmath>
#include <cstddef>
#include <cstring>

namespace spanloom {

inline constexpr std::size_t kLanes = 4;
using Lane = double __attribute__((vector_size(kLanes * sizeof(double))));

inline Lane load_lane(const double* from) {
  Lane lane;
  std::memcpy(&lane, from, sizeof lane);
  return lane;
}

inline void store_lane(const Lane& lane, double* to) { std::memcpy(to, &lane, sizeof lane); }

inline Lane square_root(Lane a) {
  for (std::size_t i = 0; i < kLanes; ++i) a[i] = std::sqrt(a[i]);
  return a;
}

inline Lane larger(const Lane& a, const Lane& b) { return a > b ? a : b; }

inline bool any_below(const Lane& a, double limit) {
  const auto below = a < limit;
  return (below[0] | below[1] | below[2] | below[3]) != 0;
}

inline double sum(const Lane& a) { return (a[0] + a[1]) + (a[2] + a[3]); }

}  // namespace spanloom
