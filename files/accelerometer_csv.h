// The record of an accelerometer as CSV: columns "time", "x", "y" and "z", along the axes of the device.
//
//   # phone taped to the main at 4 m, gravity included
//   time [s],x [m/s2],y [m/s2],z [m/s2]
//   0.000,0.42,9.31,2.87
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "files/csv_table.h"
#include "gauge/acceleration.h"
#include "gauge/spectrum.h"

namespace spanloom {

/// Ten minutes at 500 rows a second are 300,000 rows.
inline constexpr CsvLimits kAccelerometerLimits{20'000'000, 500'000};

/// Times rise from row to row, there are kLeastRows at least over kLeastRecord. Problems go to `findings`, under `key`; of
/// times that do not rise the first twenty.
CsvRows<Acceleration> read_accelerometer_csv(std::string_view text, const std::string& file, const std::string& key,
                                             Findings& findings);

}  // namespace spanloom
