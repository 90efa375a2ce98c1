#include "gauge/averaged_spectrum.h"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace spanloom {
namespace {

// Variance of time in a piece, weighted as noise is [s2].
double spread_of(const WeightedTimes& times) {
  double mean = 0.0, square = 0.0;
  const double sum = times.square_sum();
  for (std::size_t i = 0; i < times.time.size(); ++i) {
    const double share = times.weight[i] * times.weight[i] / sum;
    mean += share * times.time[i];
    square += share * times.time[i] * times.time[i];
  }
  return square - mean * mean;
}

void add(std::vector<double>& to, const std::vector<double>& from, double share) {
  for (std::size_t i = 0; i < to.size(); ++i) to[i] += share * from[i];
}

// Median of a gamma distribution over its mean [-]. Source: Choi (1994), Proc. AMS 121.
double median_of_mean(double shape) { return (shape - 1.0 / 3.0 + 8.0 / (405.0 * shape)) / shape; }

constexpr double kReach = 2.5;           // of the median that noise is taken from, to each side [Hz]

std::vector<double> noise_of(const std::vector<double>& power, double step, double looks) {
  const auto reach = std::size_t(kReach / step);
  std::vector<double> noise, around;
  for (std::size_t i = 0; i < power.size(); ++i) {
    // The same width at the ends of the band, where it reaches further inwards.
    const std::size_t width = std::min(power.size(), 2 * reach + 1);
    const std::size_t from = std::min(i > reach ? i - reach : 0, power.size() - width);
    around.assign(power.begin() + std::ptrdiff_t(from), power.begin() + std::ptrdiff_t(from + width));
    const auto middle = around.begin() + std::ptrdiff_t(width / 2);
    std::nth_element(around.begin(), middle, around.end());
    noise.push_back(*middle / median_of_mean(looks));
  }
  return noise;
}

}  // namespace

double Pieces::looks() const {
  constexpr double kAlike = 1.0 / 36.0;  // of neighbours: squared correlation of their powers [-]
  const auto n = double(pieces.size());
  return n / (1.0 + 2.0 * kAlike * (n - 1.0) / n);
}

Pieces cut_into_pieces(const std::vector<double>& time, double spacing) {
  const double duration = time.back() - time.front();
  const double wanted = std::clamp(0.25 * duration, kShortestPiece, kLongestPiece);
  const auto count = std::size_t(std::max(1.0, std::round(2.0 * duration / wanted) - 1.0));
  Pieces out;
  out.length = 2.0 * duration / double(count + 1);
  for (std::size_t k = 0; k < count; ++k) {
    const double from = time.front() + 0.5 * out.length * double(k), to = from + out.length, middle = 0.5 * (from + to);
    const auto first = std::lower_bound(time.begin(), time.end(), from);
    const auto last = k + 1 == count ? time.end() : std::lower_bound(first, time.end(), to);
    if (double(last - first) < 0.5 * out.length / spacing) continue;
    std::vector<double> inside(first, last);
    for (double& t : inside) t -= middle;
    out.pieces.push_back({std::size_t(first - time.begin()), hann_weighted(std::move(inside), from - middle, to - middle)});
  }
  return out;
}

std::vector<double> values_of(const RecordPiece& piece, const std::vector<double>& values) {
  const auto first = values.begin() + std::ptrdiff_t(piece.first);
  return {first, first + std::ptrdiff_t(piece.times.time.size())};
}

AveragedSpectrum averaged_spectrum(const Pieces& pieces, const std::vector<double>& values, const FrequencyGrid& grid) {
  AveragedSpectrum out{grid, std::vector<double>(grid.count, 0.0), {}};
  const double share = 1.0 / double(pieces.pieces.size());
  for (const RecordPiece& piece : pieces.pieces) add(out.power, lomb_scargle(piece.times, values_of(piece, values), grid), share);
  out.noise = noise_of(out.power, grid.step, pieces.looks());
  return out;
}

std::vector<double> averaged_window(const Pieces& pieces, const FrequencyGrid& grid) {
  std::vector<double> out(grid.count, 0.0);
  const double share = 1.0 / double(pieces.pieces.size());
  for (const RecordPiece& piece : pieces.pieces) add(out, spectral_window(piece.times, grid), share);
  return out;
}

double noise_doubt(const Pieces& pieces) {
  constexpr double kMedian = 1.2533;     // sd of a median over that of a mean, normal [-]
  constexpr double kHannWidth = 1.5;     // in 1 / length of a piece: so far apart, powers have little in common [-]
  return kMedian / std::sqrt(2.0 * kReach * pieces.length / kHannWidth * pieces.looks());
}

double false_alarm(const Pieces& pieces, double times, double band) {
  const double shape = pieces.looks(), z = shape * times;
  if (!std::isfinite(z)) return 0.0;     // no noise at all
  if (z < 2.0 * shape) return 1.0;       // the tail below is bounded only well above the mean
  double spread = 0.0;
  for (const RecordPiece& piece : pieces.pieces) spread += spread_of(piece.times) / double(pieces.pieces.size());
  const double density = std::exp((shape - 1.0) * std::log(z) - z - std::lgamma(shape));
  const double at_one_place = density * z / (z - shape + 1.0);
  const double crossings = band * std::sqrt(4.0 * std::numbers::pi * spread * z) * density;
  return std::min(1.0, at_one_place + crossings);
}

}  // namespace spanloom
