#include "webbing/stretch_curve.h"

#include <algorithm>
#include <cmath>
#include <cstring>
#include <limits>
#include <string>

#include "base/input_error.h"

namespace spanloom {
namespace {

// Newton's error squares at each step, so a step below this share of a span is the last that counts.
constexpr double kLastStep = 1e-8;

// Slope at an end by the three-point formula, kept within [1/4, 3] of the end chord: below, the
// stretch per tension would grow without bound; above, the cubic would overshoot.
double end_slope(double h0, double h1, double chord0, double chord1) {
  const double d = ((2.0 * h0 + h1) * chord0 - h0 * chord1) / (h0 + h1);
  return std::clamp(d, 0.25 * chord0, 3.0 * chord0);
}

std::vector<double> monotone_slopes(const std::vector<CurvePoint>& p) {
  const std::size_t n = p.size();
  std::vector<double> h(n - 1), chord(n - 1), slope(n);
  for (std::size_t i = 0; i + 1 < n; ++i) {
    h[i] = p[i + 1].stretch - p[i].stretch;
    chord[i] = (p[i + 1].tension - p[i].tension) / h[i];
  }
  if (n == 2) return {chord[0], chord[0]};
  for (std::size_t i = 1; i + 1 < n; ++i) {
    const double w0 = 2.0 * h[i] + h[i - 1], w1 = h[i] + 2.0 * h[i - 1];
    slope[i] = (w0 + w1) / (w0 / chord[i - 1] + w1 / chord[i]);
  }
  slope[0] = end_slope(h[0], h[1], chord[0], chord[1]);
  slope[n - 1] = end_slope(h[n - 2], h[n - 3], chord[n - 2], chord[n - 3]);
  return slope;
}

void check_points(const std::vector<CurvePoint>& p) {
  std::vector<Problem> problems;
  for (std::size_t i = 0; i < p.size(); ++i) {
    const std::string key = "[" + std::to_string(i) + "]";
    const std::string read = std::to_string(p[i].tension) + " N at " + std::to_string(p[i].stretch);
    if (!std::isfinite(p[i].tension) || !std::isfinite(p[i].stretch) || p[i].tension < 0.0 ||
        p[i].stretch < 0.0) {
      problems.push_back({key, read, "a tension and a stretch, both finite and not below 0", ""});
    } else if (i > 0 && !(p[i].tension > p[i - 1].tension && p[i].stretch > p[i - 1].stretch)) {
      problems.push_back({key, read, "more tension and more stretch than the point before",
                          "sort the points and leave out repeated ones"});
    }
  }
  if (p.size() < 2) {
    problems.push_back({"", std::to_string(p.size()) + " points", "at least one besides the origin", ""});
  }
  if (!problems.empty()) throw InputError(std::move(problems));
}

}  // namespace

StretchCurve StretchCurve::from_points(std::vector<CurvePoint> points) {
  if (points.empty() || points.front().tension != 0.0 || points.front().stretch != 0.0) {
    points.insert(points.begin(), CurvePoint{0.0, 0.0});
  }
  check_points(points);
  StretchCurve curve;
  const std::vector<double> slopes = monotone_slopes(points);
  double energy = 0.0;
  for (std::size_t i = 0; i + 1 < points.size(); ++i) {
    const CurvePoint &p = points[i], &q = points[i + 1];
    const double h = q.stretch - p.stretch, rise = q.tension - p.tension;
    const double d0 = slopes[i] * h, d1 = slopes[i + 1] * h;
    // The guess is the cubic with the inverse end slopes, near enough for Newton to need two steps.
    const double g0 = rise / std::max(d0, 0.05 * rise), g1 = rise / std::max(d1, 0.05 * rise);
    curve.spans_.push_back({p.stretch, h, p.tension, d0, 3.0 * rise - 2.0 * d0 - d1, d0 + d1 - 2.0 * rise, energy,
                            1.0 / rise, g0, 3.0 - 2.0 * g0 - g1, g0 + g1 - 2.0});
    energy += h * (p.tension + 0.5 * rise + (d0 - d1) / 12.0);
  }
  curve.last_slope_ = slopes.back();
  curve.last_energy_ = energy;
  if (points.size() == 2) curve.constant_stiffness_ = slopes[0];
  curve.last_measured_tension_ = points.back().tension;
  curve.points_ = std::move(points);
  return curve;
}

StretchCurve StretchCurve::linear(double axial_stiffness) {
  if (!(axial_stiffness > 0.0) || !std::isfinite(axial_stiffness)) {
    throw InputError("stretch", std::to_string(axial_stiffness) + " N", "an axial stiffness above 0");
  }
  StretchCurve curve = from_points({{0.0, 0.0}, {axial_stiffness, 1.0}});
  curve.constant_stiffness_ = axial_stiffness;
  curve.last_measured_tension_ = std::numeric_limits<double>::infinity();
  return curve;
}

std::vector<StretchCurve::Cubic> StretchCurve::cubics() const {
  std::vector<Cubic> cubics;
  for (const Span& span : spans_) cubics.push_back({span.e0, span.h, span.c1, span.c2, span.c3});
  return cubics;
}

const StretchCurve::Span& StretchCurve::span_of_stretch(double stretch) const {
  std::size_t i = 0;
  while (i + 1 < spans_.size() && stretch > spans_[i + 1].e0) ++i;
  return spans_[i];
}

const StretchCurve::Span& StretchCurve::span_of_tension(double tension) const {
  std::size_t i = 0;
  while (i + 1 < spans_.size() && tension > spans_[i + 1].t0) ++i;
  return spans_[i];
}

double StretchCurve::tension(double stretch) const {
  if (!(stretch > 0.0)) return 0.0;
  if (constant_stiffness_ > 0.0) return constant_stiffness_ * stretch;
  const CurvePoint& last = points_.back();
  if (stretch >= last.stretch) return last.tension + last_slope_ * (stretch - last.stretch);
  const Span& span = span_of_stretch(stretch);
  return span.tension((stretch - span.e0) / span.h);
}

double StretchCurve::stiffness(double stretch) const {
  if (!(stretch > 0.0)) return 0.0;
  if (constant_stiffness_ > 0.0) return constant_stiffness_;
  if (stretch >= points_.back().stretch) return last_slope_;
  const Span& span = span_of_stretch(stretch);
  return span.slope((stretch - span.e0) / span.h) / span.h;
}

double StretchCurve::energy(double stretch) const {
  if (!(stretch > 0.0)) return 0.0;
  if (constant_stiffness_ > 0.0) return 0.5 * constant_stiffness_ * stretch * stretch;
  const CurvePoint& last = points_.back();
  if (stretch >= last.stretch) {
    const double more = stretch - last.stretch;
    return last_energy_ + more * (last.tension + 0.5 * last_slope_ * more);
  }
  const Span& span = span_of_stretch(stretch);
  const double t = (stretch - span.e0) / span.h;
  return span.energy0 +
         span.h * t * (span.t0 + t * (span.c1 / 2.0 + t * (span.c2 / 3.0 + t * span.c3 / 4.0)));
}

StretchAt StretchCurve::stretch_at(double tension) const {
  if (constant_stiffness_ > 0.0) return {tension / constant_stiffness_, 1.0 / constant_stiffness_};
  const CurvePoint& last = points_.back();
  if (tension >= last.tension) {
    return {last.stretch + (tension - last.tension) / last_slope_, 1.0 / last_slope_};
  }
  const Span& span = span_of_tension(tension);
  // Newton on a rising cubic, kept inside a shrinking bracket.
  double low = 0.0, high = 1.0, t = std::clamp(span.guess(tension), 0.0, 1.0);
  for (int step = 0; step < 60; ++step) {
    const double miss = span.tension(t) - tension;
    (miss > 0.0 ? high : low) = t;
    double next = t - miss / span.slope(t);
    if (!(next >= low && next <= high)) next = 0.5 * (low + high);
    const double moved = std::abs(next - t);
    t = next;
    if (moved <= kLastStep) break;
  }
  return {span.e0 + span.h * t, span.h / span.slope(t)};
}

void StretchCurve::stretch_at(const double* tension, double* stretch, double* compliance) const {
  const auto one_by_one = [&] {
    for (std::size_t k = 0; k < kLanes; ++k) {
      const StretchAt at = stretch_at(tension[k]);
      stretch[k] = at.stretch;
      compliance[k] = at.compliance;
    }
  };
  if (constant_stiffness_ > 0.0) return one_by_one();
  // Gathered in memory: not every compiler writes to one place of a lane without a detour.
  struct Gathered { double t0[kLanes], c1[kLanes], c2[kLanes], c3[kLanes], e0[kLanes], h[kLanes], guess[kLanes]; } of;
  for (std::size_t k = 0; k < kLanes; ++k) {
    if (!(tension[k] < points_.back().tension)) return one_by_one();
    const Span& span = span_of_tension(tension[k]);
    of.t0[k] = span.t0, of.c1[k] = span.c1, of.c2[k] = span.c2, of.c3[k] = span.c3, of.e0[k] = span.e0, of.h[k] = span.h;
    of.guess[k] = span.guess(tension[k]);
  }
  const Lane wanted = load_lane(tension), t0 = load_lane(of.t0), c1 = load_lane(of.c1), c2 = load_lane(of.c2),
             c3 = load_lane(of.c3), e0 = load_lane(of.e0), h = load_lane(of.h);
  Lane t = load_lane(of.guess);
  // Three Newton steps settle every smooth span; one that they do not is left to the sure way.
  Lane moved{}, slope{};
  for (int step = 0; step < 3; ++step) {
    slope = c1 + t * (2.0 * c2 + t * 3.0 * c3);
    moved = (t0 + t * (c1 + t * (c2 + t * c3)) - wanted) / slope;
    t -= moved;
  }
  double last[kLanes];
  store_lane(moved, last);
  for (const double step : last) {
    if (!(std::abs(step) <= kLastStep)) return one_by_one();
  }
  const Lane e = e0 + h * t, per_tension = h / slope;
  std::memcpy(stretch, &e, sizeof e);
  std::memcpy(compliance, &per_tension, sizeof per_tension);
}

double StretchCurve::coenergy(double tension) const {
  const double stretch = stretch_at(tension).stretch;
  return stretch * tension - energy(stretch);
}

}  // namespace spanloom
