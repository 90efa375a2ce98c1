// Readings of `spanloom gauge` on the command line, for cold fingers, beside those of a file.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "base/input_error.h"
#include "files/readings_toml.h"
#include "gauge/readings.h"

namespace CLI {
class App;
}

namespace spanloom {

/// As written, one text a reading: "1.5 m, 3, 0.52 s".
struct QuickReadings {
  std::vector<std::string> pulses, sags, swings, marks, drops;

  bool empty() const { return pulses.empty() && sags.empty() && swings.empty() && marks.empty() && drops.empty(); }
};

/// --pulse, --sag, --swings, --marks and --drop.
void add_quick_readings(CLI::App& command, QuickReadings& quick);

/// All that was read: the file's readings first, those of the options after them.
class GivenReadings {
 public:
  /// @throws InputError with every option that is wrong
  GivenReadings(std::optional<ReadingsFile> file, QuickReadings quick);

  const Readings& readings() const { return readings_; }
  /// What the crew should know of the records of accelerometers.
  std::vector<std::string> notes() const { return file_ ? file_->notes : std::vector<std::string>{}; }
  /// What is wrong with a reading that an option gave, under that option; empty where none did.
  std::optional<Problem> of_option(const Problem& problem) const;
  /// What is wrong with a reading of the file, with its place; empty where it is of none.
  std::optional<FileProblem> of_file(const Problem& problem) const;

 private:
  std::optional<ReadingsFile> file_;
  QuickReadings quick_;
  Readings readings_;
};

}  // namespace spanloom
