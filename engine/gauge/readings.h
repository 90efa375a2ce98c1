// What a crew reads off a line that hangs, each reading with its uncertainty.
#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <vector>

#include "base/stated.h"

namespace spanloom {

/// Which way a line swings.
enum class SwingWay { sideways, up };

/// A pulse sent along the main by a blow of the hand, and the time until it has come back so many times.
struct PulseReading {
  double at = 0.0;                       ///< where it is struck and felt, on the gap axis [m]
  double round_trips = 1.0;              ///< counted, whole [-], >= 1
  std::vector<double> times;             ///< of all of them together, one a timing [s], > 0
  Stated<double> length;                 ///< how long the blow lasts [s]
  Stated<double> timing_sd;              ///< of one timing [s]
};

/// What a sag is measured from.
enum class SagFrom { anchors, standing };

/// A known weight hung at a place.
struct SagReading {
  double at = 0.0;                       ///< on the gap axis [m]
  double mass = 0.0;                     ///< [kg], >= 0
  double sag = 0.0;                      ///< of the main there [m]
  SagFrom from = SagFrom::anchors;       ///< below the straight line between the anchors, or below where it stood empty
  Stated<double> sd;                     ///< of the sag [m]
};

/// Swings of the whole line, counted against a watch.
struct FrequencyReading {
  SwingWay way = SwingWay::sideways;
  int bellies = 1;                       ///< half waves along the line, 1: it swings as a whole
  double swings = 1.0;                   ///< full swings, there and back, in each timing
  std::vector<double> times;             ///< of so many swings [s]
  Stated<double> timing_sd;              ///< of one timing [s]
};

/// Two marks made on the main when it lay unloaded.
struct MarksReading {
  double at = 0.0;                       ///< on the gap axis [m]
  double unloaded = 0.0;                 ///< apart, unloaded [m]
  double standing = 0.0;                 ///< apart now [m]
  Stated<double> sd;                     ///< of the difference of the two [m]
};

/// One peak of a spectrum.
struct SpectrumPeak {
  SwingWay way = SwingWay::sideways;
  double frequency = 0.0;                ///< [Hz]
  double sd = 0.0;                       ///< [Hz]
};

/// What an accelerometer on the main showed (spectrum.h).
struct SpectrumReading {
  double at = 0.0;                       ///< on the gap axis [m]
  double duration = 0.0;                 ///< of the record [s]
  double resolved_over = 0.0;            ///< length of the pieces whose spectra were averaged [s]
  std::vector<SpectrumPeak> peaks;       ///< strongest first
};

/// How deep a loop hangs.
struct DropReading {
  std::size_t bay = 0;                   ///< counted from 0
  double drop = 0.0;                     ///< greatest vertical distance main to loop, standing [m], > 0
  Stated<double> sd;                     ///< [m]
};

/// What is known before anything is read: how far the rig as it hangs may be from the rig as planned.
struct GaugePrior {
  Stated<double> mass_sd;                ///< of the webbing's mass per length, as a share [-]
  Stated<double> stretch_sd;             ///< of its stretch at a tension, as a share [-]
  Stated<double> gap_sd;                 ///< [m]
  Stated<double> loop_sd;                ///< of the natural length of each loop by itself [m]
  Stated<double> all_loops_sd;           ///< of all loops alike, as a share of their length [-]
};

/// The defaults of the prior and of each reading, in one place; all assumed.
GaugePrior usual_prior();
inline constexpr double kUsualTiming = 0.1;        ///< sd of a timing by hand [s]
inline constexpr double kUsualBlow = 0.04;         ///< how long a sharp blow lasts [s]
inline constexpr double kUsualSagSd = 0.03;        ///< [m]
inline constexpr double kUsualMarksSd = 0.001;     ///< [m]
inline constexpr double kUsualDropSd = 0.01;       ///< [m]

// What a reading can be: the gauge and those that read files and options refuse the same.
inline constexpr double kMostRoundTrips = 5.0;     ///< of a pulse that are believed [-]
inline constexpr double kShortestBlow = 0.005, kLongestBlow = 5.0;  ///< [s]
inline constexpr double kHeaviest = 500.0;         ///< hung on the main [kg]
inline constexpr int kMostBellies = 10;            ///< [-]

struct Readings {
  std::string title;                     ///< for the crew: when, who; may be empty
  std::vector<PulseReading> pulses;
  std::vector<SagReading> sags;
  std::vector<FrequencyReading> frequencies;
  std::vector<MarksReading> marks;
  std::vector<SpectrumReading> spectra;
  std::vector<DropReading> drops;
  GaugePrior prior = usual_prior();
};

}  // namespace spanloom
