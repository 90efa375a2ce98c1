#include "gauge/lomb_scargle.h"

#include <algorithm>
#include <complex>
#include <numeric>

#include <gtest/gtest.h>
#include <unsupported/Eigen/FFT>

#include "invented_record.h"

namespace spanloom {
namespace {

using fixture::normal;
using fixture::wave;

WeightedTimes alike(std::vector<double> time) {
  const std::size_t n = time.size();
  return {std::move(time), std::vector<double>(n, 1.0 / double(n))};
}

// Scargle (1982), Ap. J. 263, section III: at even samples and their natural frequencies his periodogram is the classical
// one, |X|^2 / N. Reference: the fast Fourier transform of Eigen. Rounding only.
TEST(LombScargle, IsTheClassicalPeriodogramAtEvenSamples) {
  constexpr std::size_t kRows = 240;
  auto random = random_stream(1, 1);
  std::vector<double> time, values;
  for (std::size_t i = 0; i < kRows; ++i) {
    time.push_back(0.05 * double(i));
    values.push_back(3.0 + wave(2.5, time.back()) + normal(random));
  }
  std::vector<std::complex<double>> transform;
  Eigen::FFT<double>().fwd(transform, values);
  const double step = 1.0 / (0.05 * kRows);
  const std::vector<double> power = lomb_scargle(alike(time), values, {step, step, kRows / 2 - 1});
  for (std::size_t k = 0; k < power.size(); ++k) {
    const double classical = std::norm(transform[k + 1]) / double(kRows);
    EXPECT_NEAR(power[k], classical, 1e-10 * (1.0 + classical)) << k;
  }
}

// Least squares: a sinusoid of amplitude A with N samples has power N A^2 / 4, wherever the samples are.
TEST(LombScargle, FindsAllOfASinusoidAtUnevenTimes) {
  auto random = random_stream(1, 2);
  std::vector<double> time, values;
  for (int i = 0; i < 300; ++i) time.push_back(20.0 * fixture::even(random));
  std::sort(time.begin(), time.end());
  for (const double t : time) values.push_back(7.0 + 2.0 * wave(1.3, t + 0.1));
  const double mean = std::accumulate(values.begin(), values.end(), 0.0) / 300.0;
  double square = 0.0;
  for (const double v : values) square += (v - mean) * (v - mean);
  const double power = lomb_scargle(alike(time), values, {1.3, 0.1, 1})[0];
  EXPECT_NEAR(power, 0.5 * square, 1e-9 * square);   // nothing is left of the sum of squares
}

TEST(LombScargle, HasNoMoreOfWhiteNoiseThanItsVariance) {
  double sum = 0.0;
  std::size_t n = 0;
  for (std::uint64_t seed = 0; seed < 40; ++seed) {
    auto random = random_stream(2, seed);
    const std::vector<double> time = fixture::times_of(20.0, 25.0, 0.4, random);
    std::vector<double> values;
    for (std::size_t i = 0; i < time.size(); ++i) values.push_back(1.5 * normal(random));
    for (const double p : lomb_scargle(hann_weighted(time, 0.0, 20.1), values, {0.5, 0.05, 150})) sum += p, ++n;
  }
  // About 40 x 100 independent powers, each with a standard deviation of its mean: 1.6 %; twice that is allowed.
  EXPECT_NEAR(sum / double(n) / 2.25, 1.0, 0.032);
}

TEST(LombScargle, TellsNothingWhereSineAndCosineAreAlike) {
  std::vector<double> time, values;
  for (int i = 0; i < 50; ++i) time.push_back(0.1 * i), values.push_back(i % 2);
  for (const double p : lomb_scargle(alike(time), values, {10.0, 10.0, 2})) EXPECT_EQ(p, 0.0);   // the sampling rate itself
}

// Hann's window is nothing at two steps of 1 / T and a quarter of its power at one (Harris 1978, Proc. IEEE 66).
TEST(SpectralWindow, IsHannsAtEvenSamples) {
  std::vector<double> time;
  for (int i = 0; i < 400; ++i) time.push_back(0.05 * (i + 0.5));
  const std::vector<double> window = spectral_window(hann_weighted(time, 0.0, 20.0), {0.0, 0.05, 5});
  EXPECT_NEAR(window[0], 1.0, 1e-12);
  EXPECT_NEAR(window[1], 0.25, 1e-9);
  EXPECT_NEAR(window[2], 0.0, 1e-9);
  EXPECT_NEAR(window[3], 0.0, 1e-9);
}

}  // namespace
}  // namespace spanloom
