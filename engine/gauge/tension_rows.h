// The readings that tell of tension, one number a row, and what a line that hangs would read for each.
#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <variant>
#include <vector>

#include "base/quantity_text.h"
#include "gauge/gauge.h"
#include "gauge/line_as_hung.h"
#include "gauge/readings.h"

namespace spanloom {

/// One number that was read.
struct TensionRow {
  std::variant<PulseReading, SagReading, FrequencyReading, MarksReading, SpectrumPeak> what;
  GaugeMethod method = GaugeMethod::pulse;
  std::size_t place = 0;                 ///< index into places
  double duration = 0.0;                 ///< of the pieces of a record that a peak is from [s]
  double read = 0.0, sd = 0.0;           ///< [s], [m] or [Hz]
  std::string unit, words;
  std::vector<std::string> notes, assumed;
};

struct TensionRows {
  std::vector<TensionRow> rows;
  std::vector<double> places;            ///< on the gap axis [m]
};

/// Several timings of one thing become their mean; one that lies far from the others is left out and named.
/// @throws InputError with the keys of gauge() where a reading cannot be of this rig
TensionRows tension_rows(const Rig& rig, const Readings& readings, UnitSystem units);

/// A rough and smooth guess of what it would read, where it is to be had: the time of a pulse on a bare string.
std::optional<double> guessed(const HungLine& hung, const TensionRow& row);

/// What this line would read [unit of the row]; empty where it would read nothing, as where no pulse comes back.
/// @param near_Hz  where the peak of a spectrum is looked for; empty: where it was read
std::optional<double> foretold(const HungLine& hung, const TensionRow& row, std::optional<double> near_Hz = {});

}  // namespace spanloom
