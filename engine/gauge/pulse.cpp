#include "gauge/pulse.h"

#include <algorithm>
#include <cmath>
#include <numbers>

#include "motion/frequency_response.h"
#include "motion/lateral_spectrum.h"

namespace spanloom {
namespace {

using Complex = std::complex<double>;
constexpr double kPi = std::numbers::pi;

/// Speed of the struck node over time.
class Answer {
 public:
  Answer(const HungLine& hung, std::size_t node, double blow, double until)
      : tau_(0.25 * blow), period_(until), sigma_(7.0 / until) {
    constexpr double kFade = 5.3;  // exp(-5.3^2 / 2) is below 1e-6
    const auto count = std::size_t(std::ceil(kFade / tau_ * period_ / (2.0 * kPi))) + 1;
    for (std::size_t k = 0; k < count; ++k) omega_.push_back(2.0 * kPi * double(k) / period_);
    amplitude_ = receptance_at(hung, node, 1, sigma_, omega_);
    for (std::size_t k = 0; k < count; ++k) {
      const Complex s{sigma_, omega_[k]};
      amplitude_[k] *= s * std::exp(-s * middle() + 0.5 * s * s * tau_ * tau_) * (k == 0 ? 0.5 : 1.0);
    }
  }

  double middle() const { return 4.0 * tau_; }  // of the blow [s]
  double tick() const { return 0.25 * tau_; }

  /// [arbitrary unit], the same throughout
  double speed(double time) const {
    const double step = 2.0 * kPi / period_ * time;
    const Complex turn{std::cos(step), std::sin(step)};
    Complex phase{1.0, 0.0};
    double sum = 0.0;
    for (const Complex& a : amplitude_) {
      sum += a.real() * phase.real() - a.imag() * phase.imag();
      phase *= turn;
    }
    return sum * std::exp(sigma_ * time);
  }

  struct Peak { double time, speed; };
  /// The greatest speed within a stretch of time.
  std::optional<Peak> fastest(double from, double to) const {
    std::vector<double> seen;
    for (double t = from; t <= to; t += tick()) seen.push_back(speed(t));
    if (seen.size() < 3) return std::nullopt;
    const auto best = std::size_t(std::max_element(seen.begin() + 1, seen.end() - 1) - seen.begin());
    const double before = seen[best - 1], at = seen[best], after = seen[best + 1];
    if (!(at > 0.0) || at < before || at < after) return std::nullopt;  // still rising at the edge
    const double bend = before - 2.0 * at + after;
    const double shift = bend < 0.0 ? 0.5 * (before - after) / bend : 0.0;
    return Peak{from + (double(best) + shift) * tick(), at - 0.25 * (before - after) * shift};
  }

 private:
  double tau_, period_, sigma_;
  std::vector<double> omega_;
  std::vector<Complex> amplitude_;
};

// Mass of the loops over that of the main.
double loops_over_main(const HungLine& hung) {
  double main = 0.0, loops = 0.0;
  for (std::size_t chain = 0; chain < hung.mesh.line.chains.size(); ++chain) {
    const ChainRange range = hung.mesh.line.chains[chain];
    for (std::size_t i = range.first; i < range.first + range.count; ++i) {
      (chain % 2 == 0 ? main : loops) += hung.mesh.line.length[i] * hung.mesh.mass_per_length[i];
    }
  }
  return loops / main;
}

}  // namespace

bool hangs_in_a_plane(const HungLine& hung) {
  return std::all_of(hung.rest.begin(), hung.rest.end(),
                     [&](const Vec3& place) { return std::abs(place.y - hung.rest[0].y) < 1e-9; });
}

std::vector<Complex> receptance_at(const HungLine& hung, std::size_t node, int axis, double sigma,
                                   std::span<const double> omega) {
  std::vector<Complex> out;
  out.reserve(omega.size());
  const bool plane = hangs_in_a_plane(hung);
  if (axis == 1 && plane) {
    LateralSpectrum spectrum({sigma, {omega.begin(), omega.end()}, 0.0});
    spectrum.take(lateral_line(hung.line, hung.rest));
    const std::size_t driven[] = {node};
    spectrum.solve(driven);
    for (std::size_t k = 0; k < omega.size(); ++k) out.push_back(spectrum.receptance(0, k));
    return out;
  }
  const FrequencyResponse response(hung.line, hung.rest, plane ? Swing::in_plane : Swing::all);
  const Vec3 unit = axis == 1 ? Vec3{0.0, 1.0, 0.0} : Vec3{0.0, 0.0, 1.0};
  for (const double w : omega) out.push_back(response.displacement(node, unit, {sigma, w})[node][std::size_t(axis)]);
  return out;
}

double sharp_round_trip(const HungLine& hung) {
  double time = 0.0;
  std::size_t node = 0;
  for (std::size_t bay = 0; bay < hung.mesh.line.bays(); ++bay) {
    const ChainRange main = hung.mesh.line.main_chain(bay);
    const double tension = norm(hung.standing.near_force[2 * bay]);
    for (std::size_t i = main.first; i < main.first + main.count; ++i, ++node) {
      const double length = norm(hung.rest[node + 1] - hung.rest[node]);
      const double mass = hung.mesh.line.length[i] * hung.mesh.mass_per_length[i];
      time += 2.0 * std::sqrt(mass * length / tension);
    }
  }
  return time;
}

double string_round_trip(const HungLine& hung, double blow) {
  const double sharp = sharp_round_trip(hung);
  return blow < kSharpBlow * sharp ? sharp : sharp * std::sqrt(1.0 + loops_over_main(hung));
}

std::optional<PulseEcho> echo_of_blow(const HungLine& hung, std::size_t node, double blow, int round_trips) {
  constexpr double kWindow = 0.15;  // of a round trip to either side
  const double once = string_round_trip(hung, blow);
  const Answer answer(hung, node, blow, (round_trips + 0.5) * 1.2 * once + 2.0 * blow);
  const double start = answer.middle();
  const auto sent = answer.fastest(0.0, start + blow);
  if (!sent) return std::nullopt;
  // Later returns about as many times the first, not one after the other: else one wrong peak takes all after it along.
  auto echo = answer.fastest(start + (1.0 - kWindow) * once, start + (1.0 + kWindow) * once);
  if (!echo) return std::nullopt;
  const double trip = echo->time - start;
  if (round_trips > 1) echo = answer.fastest(start + (round_trips - kWindow) * trip, start + (round_trips + kWindow) * trip);
  if (!echo || echo->speed < kFaintest * sent->speed) return std::nullopt;
  return PulseEcho{echo->time - start, echo->speed / sent->speed};
}

}  // namespace spanloom
