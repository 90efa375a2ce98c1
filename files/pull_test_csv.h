// Readings of a pull test from CSV (files/csv_table.h).
//
//   tension [kN],length [mm],time [s]
//   0.02,1000.4,0
//   0.35,1003.1,1
//
// Rows in order of time, cycle after cycle. `stretch [%]`, from the length without load before the first pull, may stand in
// place of `length`, which is that between two marks. `time` may be left out: it only shows that the order is right.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "base/input_error.h"
#include "files/csv_table.h"
#include "files/file_error.h"
#include "webbing/pull_test_cycles.h"

namespace spanloom {

/// Several readings a second for an hour.
inline constexpr CsvLimits kPullTestLimits{20'000'000, 200'000};

struct PullTestFile {
  std::string file;
  std::vector<PullSample> samples;
  std::vector<Place> places;  ///< of each sample's row

  /// What the engine finds wrong ("[row]", "cycle"), with its place.
  FileError locate(const InputError& error) const;
};

/// @param gauge_length  between the marks without load, before the first pull [m]; with `length` only
/// @throws FileError with every problem of the file
PullTestFile read_pull_test_csv(std::string_view text, const std::string& file, std::optional<double> gauge_length);

}  // namespace spanloom
