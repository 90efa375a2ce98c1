// The exact elastic catenary with point loads, as a reference of its own: nothing of the engine in it.
// Source: Irvine, Cable Structures (1981), sect. 1.3 (equations as in Irvine & Sinclair 1976). Between
// loads, from an end with horizontal force H and upward force V, s along the unstretched cable:
//   x(s) = H s / EA + (H / w) (asinh(V / H) - asinh((V - w s) / H))
//   z(s) = -(w s / EA) (V / w - s / 2) - (H / w) (sqrt(1 + (V / H)^2) - sqrt(1 + ((V - w s) / H)^2))
#pragma once

#include <cmath>
#include <cstddef>
#include <utility>
#include <vector>

namespace spanloom {

struct ElasticCable {
  double axial_stiffness = 0.0;    // EA [N]
  double weight_per_length = 0.0;  // per unstretched length [N/m]
  std::vector<double> length;      // unstretched, of each piece [m]
  std::vector<double> load;        // downward at the end of each piece but the last [N]

  struct Ends { double h, v; };    // force that holds the near end: towards it and up [N]
  struct Place { double x, z; };   // from the near end [m]

  // Along one piece; with the derivatives of the place by h and v (xv = zh but for the sign of z).
  struct Reach { double x, z, xh, xv, zv; };
  Reach along(double s, Ends f) const {
    const double ea = axial_stiffness, w = weight_per_length, t0 = f.v / f.h, t1 = (f.v - w * s) / f.h;
    const double s0 = std::hypot(1.0, t0), s1 = std::hypot(1.0, t1), turn = (std::asinh(t0) - std::asinh(t1)) / w;
    return {f.h * (s / ea + turn), -(s / ea) * (f.v - 0.5 * w * s) - f.h / w * (s0 - s1),
            s / ea + turn - (t0 / s0 - t1 / s1) / w, (1.0 / s0 - 1.0 / s1) / w, s / ea + (t0 / s0 - t1 / s1) / w};
  }

  // After so many whole pieces and a part of the next.
  Place place(std::size_t pieces, double part, Ends f) const {
    Place at{0.0, 0.0};
    for (std::size_t i = 0; i < pieces; ++i) {
      const Reach r = along(length[i], f);
      at = {at.x + r.x, at.z + r.z};
      f.v -= weight_per_length * length[i] + (i < load.size() ? load[i] : 0.0);
    }
    if (part > 0.0) {
      const Reach r = along(part, f);
      at = {at.x + r.x, at.z + r.z};
    }
    return at;
  }

  // The forces for ends (span, rise) apart: Newton from a stiff guess, steps halved while they miss more.
  Ends solve(double span, double rise) const {
    double total = 0.0, hung = 0.0;
    for (double l : length) total += l;
    for (double p : load) hung += p;
    const double all = weight_per_length * total + hung, chord = std::hypot(span, rise);
    const double slack = std::abs(total / chord - 1.0) + std::cbrt(all / axial_stiffness) * 0.1;
    Ends f{all / std::sqrt(24.0 * slack), 0.5 * all + all / std::sqrt(24.0 * slack) * rise / span};
    for (int i = 0; i < 200; ++i) {
      double xh, xv, zv;
      const auto [dx, dz] = miss(f, span, rise, xh, xv, zv);
      // d(x, -z) by (h, v) is symmetric positive definite.
      const double det = xh * zv - xv * xv, sh = (zv * dx + xv * dz) / det, sv = (-xv * dx - xh * dz) / det;
      double t = 1.0;
      for (int k = 0; k < 60; ++k, t *= 0.5) {
        const Ends next{f.h + t * sh, f.v + t * sv};
        if (next.h <= 0.0) continue;
        const auto [nx, nz] = miss(next, span, rise, xh, xv, zv);
        if (std::hypot(nx, nz) <= std::hypot(dx, dz)) break;
      }
      f = {f.h + t * sh, f.v + t * sv};
      if (std::hypot(sh, sv) <= 1e-15 * std::hypot(f.h, f.v)) break;
    }
    return f;
  }

 private:
  std::pair<double, double> miss(Ends f, double span, double rise, double& xh, double& xv, double& zv) const {
    xh = xv = zv = 0.0;
    double x = 0.0, z = 0.0;
    for (std::size_t i = 0; i < length.size(); ++i) {
      const Reach r = along(length[i], f);
      x += r.x, z += r.z, xh += r.xh, xv += r.xv, zv += r.zv;
      f.v -= weight_per_length * length[i] + (i < load.size() ? load[i] : 0.0);
    }
    return {span - x, rise - z};
  }
};

}  // namespace spanloom
