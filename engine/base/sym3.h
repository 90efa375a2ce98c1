// A symmetric 3 x 3 matrix and a general one, as small as the chain of tapes needs them.
#pragma once

#include "base/vec3.h"

namespace spanloom {

struct Sym3 {
  double xx = 0.0, xy = 0.0, xz = 0.0, yy = 0.0, yz = 0.0, zz = 0.0;

  Sym3& operator+=(const Sym3& b) {
    xx += b.xx; xy += b.xy; xz += b.xz; yy += b.yy; yz += b.yz; zz += b.zz;
    return *this;
  }
  Sym3& operator-=(const Sym3& b) {
    xx -= b.xx; xy -= b.xy; xz -= b.xz; yy -= b.yy; yz -= b.yz; zz -= b.zz;
    return *this;
  }
};

inline Sym3 operator+(Sym3 a, const Sym3& b) { return a += b; }

inline Vec3 operator*(const Sym3& m, const Vec3& v) {
  return {m.xx * v.x + m.xy * v.y + m.xz * v.z, m.xy * v.x + m.yy * v.y + m.yz * v.z,
          m.xz * v.x + m.yz * v.y + m.zz * v.z};
}

/// s * v v^T
inline Sym3 outer(double s, const Vec3& v) {
  return {s * v.x * v.x, s * v.x * v.y, s * v.x * v.z, s * v.y * v.y, s * v.y * v.z, s * v.z * v.z};
}

inline Sym3 scaled_identity(double s) { return {s, 0.0, 0.0, s, 0.0, s}; }

/// Inverse by LDL^T, which keeps small and large directions apart where cofactors would mix them.
/// The matrix must be positive definite.
inline Sym3 inverse(const Sym3& m) {
  const double i0 = 1.0 / m.xx;
  const double l10 = m.xy * i0, l20 = m.xz * i0;
  const double i1 = 1.0 / (m.yy - l10 * m.xy);
  const double l21 = (m.yz - l20 * m.xy) * i1;
  const double i2 = 1.0 / (m.zz - l20 * m.xz - l21 * (m.yz - l20 * m.xy));
  const double a20 = l10 * l21 - l20;  // last row of L^-1, first column
  return {i0 + l10 * l10 * i1 + a20 * a20 * i2, -l10 * i1 - a20 * l21 * i2, a20 * i2,
          i1 + l21 * l21 * i2, -l21 * i2, i2};
}

/// k s k for symmetric k and s, itself symmetric.
inline Sym3 sandwich(const Sym3& k, const Sym3& s) {
  const Vec3 a = s * Vec3{k.xx, k.xy, k.xz}, b = s * Vec3{k.xy, k.yy, k.yz}, c = s * Vec3{k.xz, k.yz, k.zz};
  const Vec3 ka = k * a, kb = k * b, kc = k * c;
  return {ka.x, kb.x, kc.x, kb.y, kc.y, kc.z};
}

}  // namespace spanloom
