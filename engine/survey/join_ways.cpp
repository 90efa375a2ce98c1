// Ways of measuring joined by inverse covariance.
#include <algorithm>
#include <cmath>

#include "base/input_error.h"
#include "survey/survey.h"

namespace spanloom {
namespace {

/// A symmetric 2 x 2 matrix.
struct Sym2 {
  double xx = 0.0, yy = 0.0, xy = 0.0;
};

Sym2 inverse(const Sym2& a) {
  const double determinant = a.xx * a.yy - a.xy * a.xy;
  if (!(determinant > 0.0) || !std::isfinite(determinant)) {
    throw InputError("survey", "gap and rise that are wholly tied to each other", "readings with an uncertainty each");
  }
  return {a.yy / determinant, a.xx / determinant, -a.xy / determinant};
}

Sym2 covariance_of(const GapRise& g) { return {g.gap_variance, g.rise_variance, g.covariance}; }

}  // namespace

GapRise joined(const std::vector<GapRise>& ways) {
  if (ways.empty()) throw InputError("survey", "nothing measured", "at least one way of measuring");
  if (ways.size() == 1) return ways.front();
  const double gap0 = ways.front().gap, rise0 = ways.front().rise;  // differences from here keep their digits
  Sym2 weights;
  double gap_pull = 0.0, rise_pull = 0.0;
  for (const GapRise& way : ways) {
    const Sym2 w = inverse(covariance_of(way));
    weights = {weights.xx + w.xx, weights.yy + w.yy, weights.xy + w.xy};
    gap_pull += w.xx * (way.gap - gap0) + w.xy * (way.rise - rise0);
    rise_pull += w.xy * (way.gap - gap0) + w.yy * (way.rise - rise0);
  }
  const Sym2 c = inverse(weights);
  GapRise out{gap0 + c.xx * gap_pull + c.xy * rise_pull, rise0 + c.xy * gap_pull + c.yy * rise_pull};
  double misfit = 0.0;
  for (const GapRise& way : ways) {
    const Sym2 w = inverse(covariance_of(way));
    const double g = way.gap - out.gap, r = way.rise - out.rise;
    misfit += w.xx * g * g + 2.0 * w.xy * g * r + w.yy * r * r;
  }
  const double freedom = 2.0 * (static_cast<double>(ways.size()) - 1.0);
  const double widened = std::max(1.0, misfit / freedom);
  out.gap_variance = widened * c.xx;
  out.rise_variance = widened * c.yy;
  out.covariance = widened * c.xy;
  return out;
}

}  // namespace spanloom
