// The readings file of `spanloom gauge`: TOML with the units written out, see docs/gauge.md.
#pragma once

#include <filesystem>
#include <string>
#include <string_view>
#include <vector>

#include "base/input_error.h"
#include "files/file_error.h"
#include "files/key_places.h"
#include "files/rig_toml.h"
#include "gauge/readings.h"

namespace spanloom {

/// Readings and where each of their keys stands.
struct ReadingsFile {
  Readings readings;          ///< problems_of(readings) is empty
  KeyPlaces places;
  std::vector<std::string> notes;  ///< what the crew should know of the records, in words

  /// What gauge() finds wrong with a reading of this file, with its place.
  FileProblem locate(const Problem& problem) const { return places.locate(problem); }
};

/// @param file  name of the readings file, for errors
/// @param load_side_file  gets records of accelerometers by the names written in the file
/// @throws FileError with every problem of the file and of its records; where the TOML itself is broken, with the first
/// such place
ReadingsFile read_readings(std::string_view text, const std::string& file, const SideFileLoader& load_side_file);

/// The same from the disk; records lie relative to the readings file.
/// @throws FileError also when a file cannot be opened
ReadingsFile read_readings_file(const std::filesystem::path& path);

}  // namespace spanloom
