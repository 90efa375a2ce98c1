// From the record of an accelerometer on the main to the frequencies at which the line swings.
#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <vector>

#include "base/vec3.h"
#include "gauge/acceleration.h"
#include "gauge/readings.h"

namespace spanloom {

/// The least a record must hold.
inline constexpr double kLeastRecord = 10.0;            ///< [s]
inline constexpr std::size_t kLeastRows = 200;
/// ... and the most: a day.
inline constexpr double kMostRecord = 86'400.0;         ///< [s]

struct SpectrumOptions {
  double highest = 10.0;                 ///< frequency that is looked at [Hz]; never more than 0.8 of half the sampling rate
  double false_alarm = 0.01;             ///< probability of any peak in white noise, each way [-]
  std::size_t most_peaks = 12;           ///< each way
  /// Up in the axes of the device, for records that gravity has been taken out of; empty: not known.
  std::optional<Vec3> device_up;
};

/// The spectrum of one way, for a picture.
struct WaySpectrum {
  SwingWay way = SwingWay::sideways;
  std::vector<double> frequency;         ///< [Hz]
  std::vector<double> density;           ///< of power, one-sided [(m/s2)2/Hz]
  std::vector<double> noise;             ///< the same of noise alone
};

struct RecordSpectrum {
  SpectrumReading reading;               ///< peaks of both ways together, those that stand highest above noise first
  std::vector<WaySpectrum> ways;         ///< sideways, up
  double sampling = 0.0;                 ///< rows a second, median [Hz]
  double longest_gap = 0.0;              ///< between rows [s]
  double gravity = 0.0;                  ///< found, 0: not in the record [m/s2]
  double sideways_share = 0.0;           ///< of level motion that goes the way taken for sideways [-]
  std::vector<std::string> notes;        ///< what the crew should know of it, in words
};

struct SpectrumOutcome {
  std::optional<RecordSpectrum> spectrum;
  std::string why;                       ///< in words, with the cure, when `spectrum` is empty
};

/// Times may be uneven and rows may be missing. Peaks: spectrum_peaks.h.
/// @param at  where the device is, on the gap axis [m]
/// @throws InputError "record[i].time", "record[i]" where times do not rise or a number is none; "spectrum.device_up",
/// "spectrum.highest" where an option cannot be
[[nodiscard]] SpectrumOutcome spectrum_of(const std::vector<Acceleration>& record, double at,
                                          const SpectrumOptions& options = {});

}  // namespace spanloom
