// Notation. X = sum w y exp(-i omega t) over a piece, X', X'' its derivatives by omega; P_k = |X|^2 / sum w^2.
#include "gauge/spectrum_peaks.h"

#include <algorithm>
#include <cmath>
#include <complex>
#include <numbers>
#include <optional>

namespace spanloom {
namespace {

constexpr double kWiderShare = 0.5;      // of what a peak is wider than that of a steady swing [-]
constexpr double kOneShare = 0.5;        // of the half width of one look [-]
constexpr double kSteadyShare = 0.2;     // of the half width that the window gives a steady swing [-]
constexpr double kHannHalfWidth = 0.72;  // of that, in 1 / length of a piece [-]
constexpr double kOneLook = 2.0;         // fewer looks tell nothing of how blows differ [-]

struct Transform { std::complex<double> x, x1, x2; };

Transform transform(const WeightedTimes& times, const std::vector<double>& y, double omega) {
  Transform out;
  for (std::size_t i = 0; i < y.size(); ++i) {
    const double t = times.time[i];
    const std::complex<double> term = times.weight[i] * y[i] * std::polar(1.0, -omega * t);
    out.x += term;
    out.x1 += std::complex<double>(0.0, -t) * term;
    out.x2 += -t * t * term;
  }
  return out;
}

// The power of each piece at a frequency with its slope and bend by omega, and how the slope of the sum hangs on each row.
struct Look {
  std::vector<double> power, slope;      // of each piece
  double all_slope = 0.0, all_bend = 0.0;
};

class Record {
 public:
  Record(const Pieces& pieces, const std::vector<double>& values) : pieces_(pieces.pieces), rows_(values.size()) {
    for (const RecordPiece& piece : pieces_) {
      std::vector<double>& y = y_.emplace_back(values_of(piece, values));
      double mean = 0.0;
      for (std::size_t i = 0; i < y.size(); ++i) mean += piece.times.weight[i] * y[i];
      for (double& v : y) v -= mean;
      per_noise_.push_back(1.0 / piece.times.square_sum());
    }
  }

  Look look(double omega) const {
    Look out;
    for (std::size_t k = 0; k < pieces_.size(); ++k) {
      const Transform f = transform(pieces_[k].times, y_[k], omega);
      out.power.push_back(per_noise_[k] * std::norm(f.x));
      out.slope.push_back(2.0 * per_noise_[k] * std::real(std::conj(f.x) * f.x1));
      out.all_slope += out.slope.back();
      out.all_bend += 2.0 * per_noise_[k] * (std::norm(f.x1) + std::real(std::conj(f.x) * f.x2));
    }
    return out;
  }

  // Variance of the slope of the sum for noise of variance 1.
  double slope_variance(double omega) const {
    std::vector<double> by_row(rows_, 0.0);
    for (std::size_t k = 0; k < pieces_.size(); ++k) {
      const WeightedTimes& times = pieces_[k].times;
      const Transform f = transform(times, y_[k], omega);
      for (std::size_t i = 0; i < times.time.size(); ++i) {
        const double t = times.time[i];
        const std::complex<double> lever = std::complex<double>(0.0, -t) * std::conj(f.x) + std::conj(f.x1);
        by_row[pieces_[k].first + i] += 2.0 * per_noise_[k] * times.weight[i] * std::real(std::polar(1.0, -omega * t) * lever);
      }
    }
    double sum = 0.0;
    for (const double v : by_row) sum += v * v;
    return sum;
  }

 private:
  const std::vector<RecordPiece>& pieces_;
  std::size_t rows_;
  std::vector<std::vector<double>> y_;
  std::vector<double> per_noise_;
};

// Where the slope is 0, by Newton's steps from the top of the grid. Empty where that leads elsewhere.
std::optional<double> top_near(const Record& record, double omega, double reach) {
  double at = omega;
  for (int step = 0; step < 12; ++step) {
    const Look look = record.look(at);
    if (!(look.all_bend < 0.0)) return std::nullopt;
    const double move = -look.all_slope / look.all_bend;
    at += move;
    if (std::abs(at - omega) > reach) return std::nullopt;
    if (std::abs(move) < 1e-7 * reach) return at;
  }
  return at;
}

// Student's t over the normal's, for 95 %. Source: Abramowitz & Stegun 26.7.5.
double wider_for(double freedom) {
  constexpr double z = 1.959964;
  const double z3 = z * z * z, z5 = z3 * z * z;
  return 1.0 + ((z3 + z) / 4.0 / freedom + (5.0 * z5 + 16.0 * z3 + 3.0 * z) / 96.0 / (freedom * freedom)) / z;
}

// How many pieces carry a peak, overlap counted [-].
double looks_at(const Look& look) {
  constexpr double kOverlapped = 0.75;   // what a piece half shared with its neighbours is worth
  double sum = 0.0, square = 0.0;
  for (const double p : look.power) sum += p, square += p * p;
  return square > 0.0 ? std::max(1.0, kOverlapped * sum * sum / square) : 1.0;
}

double scatter_of(const Look& look, double looks) {
  if (looks < kOneLook) return 0.0;
  const auto n = double(look.slope.size());
  double square = 0.0;
  for (const double s : look.slope) square += s * s;
  return wider_for(looks - 1.0) * std::sqrt(n / (n - 1.0) * square) / std::abs(look.all_bend);
}

// Half of the width at half the power [Hz].
double half_width(const AveragedSpectrum& spectrum, std::size_t top) {
  const std::vector<double>& p = spectrum.power;
  const double half = 0.5 * p[top];
  const auto steps_to_half = [&](std::ptrdiff_t way) {
    double steps = 0.0;
    for (auto i = std::ptrdiff_t(top) + way; i >= 0 && i < std::ptrdiff_t(p.size()); i += way, steps += 1.0) {
      const double here = p[std::size_t(i)], before = p[std::size_t(i - way)];
      if (here < half) return steps + (before - half) / (before - here);
    }
    return steps;
  };
  return 0.5 * spectrum.grid.step * (steps_to_half(1) + steps_to_half(-1));
}

// What the width of a peak leaves open. In one look a wide peak and one broken up by several blows are alike.
double width_sd(double width, double steady, double looks) {
  if (looks < kOneLook) return kOneShare * width / std::sqrt(looks);
  const double wider = std::sqrt(std::max(0.0, width * width - steady * steady));
  return std::hypot(kWiderShare * wider, kSteadyShare * steady) / std::sqrt(looks);
}

FoundPeak measured(const AveragedSpectrum& spectrum, const Record& record, double steady, std::size_t top) {
  constexpr double kTurn = 2.0 * std::numbers::pi;
  const double width = half_width(spectrum, top), grid = kTurn * spectrum.grid.at(top);
  const std::optional<double> omega = top_near(record, grid, 2.0 * kTurn * spectrum.grid.step);
  // Beside a stronger peak the top of the tapered sum may be none: then it is known to its width.
  if (!omega) return {spectrum.grid.at(top), width, spectrum.power[top]};
  const Look look = record.look(*omega);
  const double looks = looks_at(look);
  const double noise = std::sqrt(spectrum.noise[top] * record.slope_variance(*omega)) / std::abs(look.all_bend);
  const double sd = std::hypot(std::max(noise, scatter_of(look, looks)) / kTurn, width_sd(width, steady, looks));
  return {*omega / kTurn, sd, spectrum.power[top]};
}

// Which tops of the grid are peaks of their own.
class Choice {
 public:
  Choice(const AveragedSpectrum& spectrum, const Pieces& pieces) : power_(spectrum.power) {
    window_ = averaged_window(pieces, {0.0, spectrum.grid.step, spectrum.grid.count});
    reach_ = std::size_t(0.5 / (pieces.length * spectrum.grid.step));
  }

  bool stands_beside(std::size_t top, std::size_t stronger) const {
    constexpr double kDoubt = 4.0;       // a swing that dies away is wider than the window
    const auto [low, high] = std::minmax(top, stronger);
    const std::size_t apart = high - low, from = apart > reach_ ? apart - reach_ : 0;
    const std::size_t to = std::min(apart + reach_ + 1, window_.size());
    const double lobe = *std::max_element(window_.begin() + std::ptrdiff_t(from), window_.begin() + std::ptrdiff_t(to));
    const double valley = *std::min_element(power_.begin() + std::ptrdiff_t(low), power_.begin() + std::ptrdiff_t(high));
    return power_[top] > kDoubt * lobe * power_[stronger] && valley < 0.5 * power_[top];
  }

 private:
  const std::vector<double>& power_;
  std::vector<double> window_;
  std::size_t reach_ = 0;
};

}  // namespace

std::vector<FoundPeak> find_peaks(const AveragedSpectrum& spectrum, const Pieces& pieces, const std::vector<double>& values,
                                  const PeakOptions& options) {
  const std::vector<double>& p = spectrum.power;
  const double band = spectrum.grid.step * double(p.size());
  const double doubt = 1.0 + noise_doubt(pieces);
  std::vector<std::size_t> tops, chosen;
  for (std::size_t i = 1; i + 1 < p.size(); ++i) {
    if (!(p[i] > p[i - 1] && p[i] >= p[i + 1])) continue;
    if (false_alarm(pieces, p[i] / (doubt * spectrum.noise[i]), band) < options.false_alarm) tops.push_back(i);
  }
  std::stable_sort(tops.begin(), tops.end(), [&](std::size_t a, std::size_t b) { return p[a] > p[b]; });
  const Choice choice(spectrum, pieces);
  for (const std::size_t top : tops) {
    if (chosen.size() == options.most) break;
    const bool own = std::all_of(chosen.begin(), chosen.end(), [&](std::size_t c) { return choice.stands_beside(top, c); });
    if (own) chosen.push_back(top);
  }
  const Record record(pieces, values);
  std::vector<FoundPeak> found;
  for (const std::size_t top : chosen) found.push_back(measured(spectrum, record, kHannHalfWidth / pieces.length, top));
  return found;
}

}  // namespace spanloom
