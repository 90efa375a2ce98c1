// Notation, as in Zechmeister & Kuerster (2009). w: weights; c, s: cosine and sine of 2 pi f t. C, S, CC, CS, SS, YC, YS:
// weighted sums of c, s, c c, c s, s s, y c, y s, with the weighted mean of y taken off before.
#include "gauge/lomb_scargle.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>
#include <numeric>

#include "base/lane.h"

namespace spanloom {
namespace {

struct Sums { Lane c{}, s{}, cc{}, cs{}, yc{}, ys{}; };

// Goes through the grid a few frequencies at a time; the angle of each sample is turned on from one group to the next.
class Sweep {
 public:
  Sweep(const std::vector<double>& time, const FrequencyGrid& grid) : now_(time.size()), turn_(time.size()) {
    for (std::size_t i = 0; i < time.size(); ++i) {
      const double per_hertz = 2.0 * std::numbers::pi * time[i];
      for (std::size_t k = 0; k < kLanes; ++k) {
        now_[i].cosine[k] = std::cos(per_hertz * grid.at(k));
        now_[i].sine[k] = std::sin(per_hertz * grid.at(k));
      }
      const double on = per_hertz * grid.step * double(kLanes);
      turn_[i] = {std::cos(on), std::sin(on)};
    }
  }

  // Sums at the next frequencies. @param y  weighted values; @param w  weights
  Sums next(const std::vector<double>& w, const std::vector<double>& y) {
    Sums sums;
    for (std::size_t i = 0; i < now_.size(); ++i) {
      const Lane c = now_[i].cosine, s = now_[i].sine, wc = w[i] * c;
      sums.c += wc, sums.s += w[i] * s;
      sums.cc += wc * c, sums.cs += wc * s;
      sums.yc += y[i] * c, sums.ys += y[i] * s;
      now_[i] = {c * turn_[i][0] - s * turn_[i][1], s * turn_[i][0] + c * turn_[i][1]};
    }
    return sums;
  }

 private:
  struct Angle { Lane cosine, sine; };
  std::vector<Angle> now_;
  std::vector<std::array<double, 2>> turn_;
};

template <class Power>
std::vector<double> swept(const WeightedTimes& times, const std::vector<double>& y, const FrequencyGrid& grid, Power power) {
  std::vector<double> out(grid.count, 0.0);
  Sweep sweep(times.time, grid);
  for (std::size_t first = 0; first < grid.count; first += kLanes) {
    const Sums sums = sweep.next(times.weight, y);
    for (std::size_t k = 0; k < std::min(kLanes, grid.count - first); ++k) out[first + k] = power(sums, k);
  }
  return out;
}

// Share of the weighted sum of squares that a sinusoid and a mean take off, not scaled [u2].
double taken_off(const Sums& sums, std::size_t k) {
  constexpr double kTold = 1e-9;         // sine from cosine [-]
  const double c = sums.c[k], s = sums.s[k];
  const double cc = sums.cc[k] - c * c, ss = 1.0 - sums.cc[k] - s * s, cs = sums.cs[k] - c * s;
  const double yc = sums.yc[k], ys = sums.ys[k], determinant = cc * ss - cs * cs;
  if (!(determinant > kTold)) return 0.0;
  return std::max(0.0, (ss * yc * yc + cc * ys * ys - 2.0 * cs * yc * ys) / determinant);
}

}  // namespace

double WeightedTimes::square_sum() const { return std::inner_product(weight.begin(), weight.end(), weight.begin(), 0.0); }

WeightedTimes hann_weighted(std::vector<double> time, double from, double to) {
  WeightedTimes out{std::move(time), {}};
  double sum = 0.0;
  for (const double t : out.time) {
    const double root = std::sin(std::numbers::pi * (t - from) / (to - from));
    out.weight.push_back(root * root);
    sum += root * root;
  }
  for (double& w : out.weight) w /= sum;
  return out;
}

std::vector<double> lomb_scargle(const WeightedTimes& times, const std::vector<double>& values, const FrequencyGrid& grid) {
  const double mean = std::inner_product(values.begin(), values.end(), times.weight.begin(), 0.0);
  std::vector<double> y(values.size());
  for (std::size_t i = 0; i < y.size(); ++i) y[i] = times.weight[i] * (values[i] - mean);
  const double scale = 1.0 / (2.0 * times.square_sum());
  return swept(times, y, grid, [&](const Sums& sums, std::size_t k) { return scale * taken_off(sums, k); });
}

std::vector<double> spectral_window(const WeightedTimes& times, const FrequencyGrid& grid) {
  return swept(times, times.weight, grid, [](const Sums& sums, std::size_t k) {
    return sums.yc[k] * sums.yc[k] + sums.ys[k] * sums.ys[k];
  });
}

}  // namespace spanloom
