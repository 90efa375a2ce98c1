// The periodogram of samples at any times.
#pragma once

#include <cstddef>
#include <vector>

namespace spanloom {

/// Equal steps of frequency.
struct FrequencyGrid {
  double first = 0.0;                    ///< [Hz], >= 0
  double step = 0.0;                     ///< [Hz], > 0
  std::size_t count = 0;
  double at(std::size_t i) const { return first + step * double(i); }   ///< [Hz]
};

/// When samples were taken and how much each of them counts.
struct WeightedTimes {
  std::vector<double> time;              ///< [s]
  std::vector<double> weight;            ///< >= 0, sum 1 [-]
  double square_sum() const;             ///< of the weights [-]
};

/// Weights that rise from nothing at one end to one in the middle and fall again (Hann), scaled to sum 1.
/// @param time  rising [s]
WeightedTimes hann_weighted(std::vector<double> time, double from, double to);

/// Lomb-Scargle periodogram with weights and a mean of its own at each frequency. A sinusoid is fitted by least squares;
/// the power is scaled so that white noise of variance v has the expected power v at all frequencies, and so that even
/// samples of equal weight give the classical periodogram |X|^2 / N at its frequencies.
/// @param values  one a time, unit u
/// @return power at each frequency [u2], >= 0; 0 where samples cannot tell sine from cosine
/// Source: Lomb (1976); Scargle (1982), Ap. J. 263, eq. 10; floating mean and weights: Zechmeister & Kuerster (2009), A&A
/// 496, eq. 5.
std::vector<double> lomb_scargle(const WeightedTimes& times, const std::vector<double>& values, const FrequencyGrid& grid);

/// What a steady sinusoid looks like so far from its frequency: |sum of weight exp(i 2 pi f t)|^2, 1 at f = 0 [-].
std::vector<double> spectral_window(const WeightedTimes& times, const FrequencyGrid& grid);

}  // namespace spanloom
