// What the commands under `spanloom log` share: which file, days and quantities of arguments, and how entries get in.
#pragma once

#include <functional>
#include <optional>
#include <string>
#include <vector>

#include "base/input_error.h"
#include "base/quantity_text.h"
#include "command.h"
#include "files/units.h"
#include "record/entries.h"
#include "record/record_path.h"

namespace spanloom {

struct LogOptions {
  std::optional<std::string> file;
  std::string units = "metric";
  std::optional<std::string> date;  ///< of what happened
  std::string words;

  UnitSystem unit_system() const { return units == "us" ? UnitSystem::us : UnitSystem::metric; }
};

/// --file and --units.
void add_log_file(CLI::App& command, LogOptions& options);
/// The same with --date and --words, for commands that add entries.
void add_log_options(CLI::App& command, LogOptions& options);

/// Reads arguments and gathers what is wrong with them, so that all is told at once.
class Arguments {
 public:
  std::optional<Day> day(const std::string& key, const std::optional<std::string>& text);
  /// Zero or more. @return in SI
  std::optional<double> quantity(const std::string& key, const std::optional<std::string>& text, const Wanted& wanted);
  /// As quantity(), but above zero.
  std::optional<double> positive(const std::string& key, const std::optional<std::string>& text, const Wanted& wanted);
  /// "3 years", "18 months". @return whole months
  std::optional<double> months(const std::string& key, const std::optional<std::string>& text);
  void add(std::string key, std::string read, std::string expected, std::string cure = "");
  /// @throws InputError with all that was found
  void done() const;

 private:
  std::vector<Problem> problems_;
};

/// The webbings named; where none is, those of the rig. @throws InputError where that leaves none
std::vector<EntryWebbing> webbings_named(const std::vector<std::string>& names, const Entry* rig, const Record& record);

/// An entry of the day and words of the options.
Entry blank_entry(const LogOptions& options, Arguments& arguments);

using MakeEntries = std::function<std::vector<Entry>(const Record& record)>;

/// Adds entries in one transaction and says so once they are on the disk. A record is begun where there is none, but
/// not by entries that cannot be.
/// @param make  the entries; throws InputError
Exit add_entries(const LogOptions& options, const MakeEntries& make);

/// "The record is in FILE", on a line of its own so that it can be copied.
std::string place_words(const RecordPath& path);

Command add_log_webbing(CLI::App& log);
Command add_log_rig(CLI::App& log);
Command add_log_hung(CLI::App& log);
Command add_log_event(CLI::App& log);
Command add_log_measured(CLI::App& log);
Command add_log_rule(CLI::App& log);
Command add_log_retire(CLI::App& log);
Command add_log_note(CLI::App& log);
Command add_log_strike(CLI::App& log);
Command add_log_show(CLI::App& log);
Command add_log_list(CLI::App& log);
Command add_log_export(CLI::App& log);

}  // namespace spanloom
