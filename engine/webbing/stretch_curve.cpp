#include "webbing/stretch_curve.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <string>

#include "base/input_error.h"

namespace spanloom {
namespace {

// One span of the curve between two points, as a cubic in t = (e - e0) / h (Hermite form).
struct Span {
  double e0, h, t0, rise, d0, d1;  // d0, d1: slopes times h [N]

  double tension(double t) const {
    const double a = d0 + d1 - 2.0 * rise, b = 3.0 * rise - 2.0 * d0 - d1;
    return t0 + t * (d0 + t * (b + t * a));
  }
  double slope(double t) const {  // dT/dt
    const double a = d0 + d1 - 2.0 * rise, b = 3.0 * rise - 2.0 * d0 - d1;
    return d0 + t * (2.0 * b + t * 3.0 * a);
  }
  double energy(double t) const {  // integral from e0
    const double a = d0 + d1 - 2.0 * rise, b = 3.0 * rise - 2.0 * d0 - d1;
    return h * t * (t0 + t * (d0 / 2.0 + t * (b / 3.0 + t * a / 4.0)));
  }
};

Span make_span(const CurvePoint& p, const CurvePoint& q, double slope_p, double slope_q) {
  const double h = q.stretch - p.stretch;
  return {p.stretch, h, p.tension, q.tension - p.tension, slope_p * h, slope_q * h};
}

// Where in a span a share s of its rise is reached, by the cubic with the inverse end slopes: near enough
// for Newton to need two steps.
double guess_place(const Span& span, double s) {
  const double g0 = span.rise / std::max(span.d0, 0.05 * span.rise);
  const double g1 = span.rise / std::max(span.d1, 0.05 * span.rise);
  const double a = g0 + g1 - 2.0, b = 3.0 - 2.0 * g0 - g1;
  return std::clamp(s * (g0 + s * (b + s * a)), 0.0, 1.0);
}

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
  curve.slopes_ = monotone_slopes(points);
  curve.energy_.assign(points.size(), 0.0);
  for (std::size_t i = 0; i + 1 < points.size(); ++i) {
    const Span span = make_span(points[i], points[i + 1], curve.slopes_[i], curve.slopes_[i + 1]);
    curve.energy_[i + 1] = curve.energy_[i] + span.energy(1.0);
  }
  if (points.size() == 2) curve.constant_stiffness_ = curve.slopes_[0];
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

std::size_t StretchCurve::span_of_stretch(double stretch) const {
  std::size_t i = 0;
  while (i + 2 < points_.size() && stretch > points_[i + 1].stretch) ++i;
  return i;
}

std::size_t StretchCurve::span_of_tension(double tension) const {
  std::size_t i = 0;
  while (i + 2 < points_.size() && tension > points_[i + 1].tension) ++i;
  return i;
}

double StretchCurve::tension(double stretch) const {
  if (!(stretch > 0.0)) return 0.0;
  if (constant_stiffness_ > 0.0) return constant_stiffness_ * stretch;
  const CurvePoint& last = points_.back();
  if (stretch >= last.stretch) return last.tension + slopes_.back() * (stretch - last.stretch);
  const std::size_t i = span_of_stretch(stretch);
  const Span span = make_span(points_[i], points_[i + 1], slopes_[i], slopes_[i + 1]);
  return span.tension((stretch - span.e0) / span.h);
}

double StretchCurve::stiffness(double stretch) const {
  if (!(stretch > 0.0)) return 0.0;
  if (constant_stiffness_ > 0.0) return constant_stiffness_;
  if (stretch >= points_.back().stretch) return slopes_.back();
  const std::size_t i = span_of_stretch(stretch);
  const Span span = make_span(points_[i], points_[i + 1], slopes_[i], slopes_[i + 1]);
  return span.slope((stretch - span.e0) / span.h) / span.h;
}

double StretchCurve::energy(double stretch) const {
  if (!(stretch > 0.0)) return 0.0;
  if (constant_stiffness_ > 0.0) return 0.5 * constant_stiffness_ * stretch * stretch;
  const CurvePoint& last = points_.back();
  if (stretch >= last.stretch) {
    const double more = stretch - last.stretch;
    return energy_.back() + more * (last.tension + 0.5 * slopes_.back() * more);
  }
  const std::size_t i = span_of_stretch(stretch);
  const Span span = make_span(points_[i], points_[i + 1], slopes_[i], slopes_[i + 1]);
  return energy_[i] + span.energy((stretch - span.e0) / span.h);
}

StretchAt StretchCurve::stretch_at(double tension) const {
  if (constant_stiffness_ > 0.0) return {tension / constant_stiffness_, 1.0 / constant_stiffness_};
  const CurvePoint& last = points_.back();
  if (tension >= last.tension) {
    return {last.stretch + (tension - last.tension) / slopes_.back(), 1.0 / slopes_.back()};
  }
  const std::size_t i = span_of_tension(tension);
  const Span span = make_span(points_[i], points_[i + 1], slopes_[i], slopes_[i + 1]);
  // Newton on a rising cubic, kept inside a shrinking bracket. Its error squares at each step, so a
  // step below kLastStep is the last one that changes anything.
  constexpr double kLastStep = 1e-8;
  double low = 0.0, high = 1.0, t = guess_place(span, (tension - span.t0) / span.rise);
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

double StretchCurve::coenergy(double tension) const {
  const double stretch = stretch_at(tension).stretch;
  return stretch * tension - energy(stretch);
}

}  // namespace spanloom
