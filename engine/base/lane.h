// Four doubles worked on side by side.
#pragma once

#include <cmath>
#include <cstddef>
#include <cstring>
#include <new>
#include <vector>

#ifdef __wasm_simd128__
#include <wasm_simd128.h>
#endif

namespace spanloom {

inline constexpr std::size_t kLanes = 4;
using Lane = double __attribute__((vector_size(kLanes * sizeof(double))));

/// Memory that begins on a cache line, so that no lane lies across two.
template <class T>
struct LineAligned {
  using value_type = T;
  static constexpr std::align_val_t kAlignment{64};
  LineAligned() = default;
  template <class U> LineAligned(const LineAligned<U>&) {}
  T* allocate(std::size_t n) { return static_cast<T*>(::operator new(n * sizeof(T), kAlignment)); }
  void deallocate(T* at, std::size_t) { ::operator delete(at, kAlignment); }
  template <class U> bool operator==(const LineAligned<U>&) const { return true; }
};
/// A row of doubles to be worked on in lanes.
using Column = std::vector<double, LineAligned<double>>;

inline Lane load_lane(const double* from) {
  Lane lane;
  std::memcpy(&lane, from, sizeof lane);
  return lane;
}

inline void store_lane(const Lane& lane, double* to) { std::memcpy(to, &lane, sizeof lane); }

#ifdef __wasm_simd128__
// clang makes a loop through memory of the one below.
inline Lane square_root(const Lane& a) {
  v128_t halves[2];
  std::memcpy(halves, &a, sizeof halves);
  halves[0] = wasm_f64x2_sqrt(halves[0]), halves[1] = wasm_f64x2_sqrt(halves[1]);
  return load_lane(reinterpret_cast<const double*>(halves));
}
#else
inline Lane square_root(Lane a) {
  for (std::size_t i = 0; i < kLanes; ++i) a[i] = std::sqrt(a[i]);
  return a;
}
#endif

inline Lane larger(const Lane& a, const Lane& b) { return a > b ? a : b; }

inline double square_root(double a) { return std::sqrt(a); }

inline Lane lane_of(double a) { return Lane{a, a, a, a}; }

/// The last entry of `before`, then the first three of `now`.
inline Lane shifted(const Lane& before, const Lane& now) { return __builtin_shufflevector(before, now, 3, 4, 5, 6); }

inline bool any_below(const Lane& a, double limit) {
  const auto below = a < limit;
  return (below[0] | below[1] | below[2] | below[3]) != 0;
}

inline bool any_above(const Lane& a, double limit) {
  const auto above = a > limit;
  return (above[0] | above[1] | above[2] | above[3]) != 0;
}

inline double sum(const Lane& a) { return (a[0] + a[1]) + (a[2] + a[3]); }

}  // namespace spanloom
