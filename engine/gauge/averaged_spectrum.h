// The spectrum of one direction of a record: mean of the periodograms of overlapping pieces, and its noise.
#pragma once

#include <cstddef>
#include <vector>

#include "gauge/lomb_scargle.h"

namespace spanloom {

/// About how long the pieces of a record are: a quarter of it, within these. They must tell natural frequencies apart, and
/// there must be several, or what blows at their own times break up looks like many peaks [s].
inline constexpr double kShortestPiece = 5.0, kLongestPiece = 20.0;

/// A piece of a record, tapered by Hann's window, times from its middle.
struct RecordPiece {
  std::size_t first = 0;                 ///< row of the record
  WeightedTimes times;
};

/// A record cut into pieces that overlap by half; pieces with less than half of the usual number of rows are left out.
struct Pieces {
  std::vector<RecordPiece> pieces;
  double length = 0.0;                   ///< of each [s]
  /// How many pieces without overlap would be as good a mean [-]; Welch (1967), Hann's window, half overlap.
  double looks() const;
};

/// @param time     rising [s]
/// @param spacing  usual time between rows [s]
Pieces cut_into_pieces(const std::vector<double>& time, double spacing);

/// All of a piece, values of the whole record.
std::vector<double> values_of(const RecordPiece& piece, const std::vector<double>& values);

/// Mean power of the pieces; unit u of the values.
struct AveragedSpectrum {
  FrequencyGrid grid;
  std::vector<double> power;             ///< [u2], as lomb_scargle()
  std::vector<double> noise;             ///< what noise alone would have here [u2]: median of 5 Hz around
};

AveragedSpectrum averaged_spectrum(const Pieces& pieces, const std::vector<double>& values, const FrequencyGrid& grid);

/// Spectral window of the pieces, mean [-].
std::vector<double> averaged_window(const Pieces& pieces, const FrequencyGrid& grid);

/// How sure the noise is: its standard deviation over itself [-], about.
double noise_doubt(const Pieces& pieces);

/// How probable it is that white noise has a peak so high anywhere in a band [-], about; at most 1.
/// @param times  power over noise [-]
/// @param band   [Hz]
/// Source: upcrossings of a sum of squares, Davies (1987), Biometrika 74; for one piece it is Baluev (2008), MNRAS 385,
/// noise known.
double false_alarm(const Pieces& pieces, double times, double band);

}  // namespace spanloom
