// The load-stretch curve of a webbing: tension against stretch, its energy and their inverses.
#pragma once

#include <cstddef>
#include <vector>

#include "base/lane.h"

namespace spanloom {

/// One measured point of a pull test.
struct CurvePoint {
  double tension;  ///< [N]
  double stretch;  ///< l / L0 - 1 [-]
};

/// Stretch at a tension, with what a Newton step needs.
struct StretchAt {
  double stretch;     ///< e [-]
  double compliance;  ///< de/dT [1/N]
};

/// Monotone tension-stretch law T(e): a shape-preserving cubic through the measured points,
/// zero for e <= 0, extended beyond the last point by its last slope.
///
/// Slopes at the points: Fritsch & Butland (1984), SIAM J. Sci. Stat. Comput. 5, weighted harmonic
/// mean; end slopes by the three-point formula, kept within [1/4, 3] of the end chord so that the
/// curve rises and stays finite in both directions.
class StretchCurve {
 public:
  /// @param points  strictly rising in tension and stretch; a leading (0, 0) is added if absent
  /// @throws InputError (keys "[i]") if fewer than one point besides the origin, or not rising
  static StretchCurve from_points(std::vector<CurvePoint> points);

  /// A straight curve. @param axial_stiffness  EA [N], > 0
  static StretchCurve linear(double axial_stiffness);

  /// Tension [N] at stretch e [-]; 0 where e <= 0.
  double tension(double stretch) const;
  /// dT/de [N] at stretch e; the slope at 0 from the right where e <= 0 is 0.
  double stiffness(double stretch) const;
  /// Integral of T from 0 to e [N] (energy per natural length, J/m).
  double energy(double stretch) const;
  /// Stretch [-] and compliance [1/N] at a tension [N], >= 0. Exact inverse of tension().
  StretchAt stretch_at(double tension) const;
  /// The same for kLanes tensions at once, several times faster on a curve with many points.
  void stretch_at(const double* tension, double* stretch, double* compliance) const;
  /// Integral of e from 0 to T [N]: stretch * tension - energy.
  double coenergy(double tension) const;

  /// Greatest tension of the measured points [N]; infinite for linear().
  double last_measured_tension() const { return last_measured_tension_; }
  /// EA [N] if the curve is one straight line, else 0.
  double constant_stiffness() const { return constant_stiffness_; }
  /// The points the curve runs through, the origin first.
  const std::vector<CurvePoint>& points() const { return points_; }
  /// The curve between two points: with t = (e - stretch) / width in [0, 1] the tension rises by
  /// t (c1 + t (c2 + t c3)) [N] over the first of them.
  struct Cubic { double stretch, width, c1, c2, c3; };
  /// The curve piece by piece, from the origin on.
  std::vector<Cubic> cubics() const;
  /// dT/de beyond the last point [N].
  double last_slope() const { return last_slope_; }

 private:
  // One span between two points: with t = (e - e0) / h in [0, 1], T = t0 + t (c1 + t (c2 + t c3)).
  struct Span {
    double e0, h, t0, c1, c2, c3;
    double energy0;             // integral of T up to the span [N]
    double per_rise;            // 1 / (rise of T over the span) [1/N]
    double g1, g2, g3;          // t by the share of the rise: a first guess for Newton

    double tension(double t) const { return t0 + t * (c1 + t * (c2 + t * c3)); }
    double slope(double t) const { return c1 + t * (2.0 * c2 + t * 3.0 * c3); }  // dT/dt
    double guess(double tension) const {
      const double s = (tension - t0) * per_rise;
      return s * (g1 + s * (g2 + s * g3));
    }
  };
  std::vector<CurvePoint> points_;
  std::vector<Span> spans_;
  double last_slope_ = 0.0;     // dT/de at the last point [N]
  double last_energy_ = 0.0;    // integral of T up to it [N]
  double last_measured_tension_ = 0.0;
  double constant_stiffness_ = 0.0;

  const Span& span_of_stretch(double stretch) const;
  const Span& span_of_tension(double tension) const;
};

}  // namespace spanloom
