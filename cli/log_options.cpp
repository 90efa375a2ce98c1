#include "log_options.h"

#include <CLI/CLI.hpp>

#include <cmath>

#include <fmt/format.h>

#include "files/file_error.h"
#include "record/check_entry.h"
#include "record/record_text.h"
#include "record/schema.h"
#include "record/store.h"
#include "report_options.h"
#include "sheet/text_table.h"

namespace spanloom {
namespace {

constexpr double kMonthsPerYear = 12.0, kMostMonths = 1200.0;

void make_sure_of(const Entry& entry, const Record& record) {
  std::vector<Problem> problems = problems_of(entry, record, local_today());
  if (!problems.empty()) throw InputError(std::move(problems));
}

/// Adds entries to what is in the record, each checked beside those before it. @throws InputError
void take_in(std::vector<Entry> entries, Record& record) {
  for (Entry& entry : entries) {
    make_sure_of(entry, record);
    record.entries.push_back(std::move(entry));
  }
}

void say(const Record& record, std::size_t first, const RecordPath& path, UnitSystem units) {
  PlainText text;
  for (std::size_t i = first; i < record.entries.size(); ++i) {
    const Entry& entry = record.entries[i];
    text.add_words(fmt::format("Entry {} is in the record: {}", entry.number, entry_words(entry, record, units)));
    for (const EntryWebbing& link : entry.webbings) {
      for (const Overlap& overlap : overlaps_of(entry, link.webbing, record))
        text.add_labelled("Look at this: ", overlap.words, 2);
    }
  }
  print_result(text.text() + place_words(path));
}

}  // namespace

void add_log_file(CLI::App& command, LogOptions& options) {
  command.add_option("--file", options.file,
                     "The file of the record; else the one that SPANLOOM_LOG names, else "
                     "spanloom/spanloom-log.sqlite in the user's data folder")->type_name("FILE");
  command.add_option("--units", options.units, "Units to print; the record keeps SI")
      ->check(CLI::IsMember({"metric", "us"}))
      ->capture_default_str();
}

void add_log_options(CLI::App& command, LogOptions& options) {
  add_log_file(command, options);
  command.add_option("--date", options.date, "Day of what is logged, YYYY-MM-DD; today if not given")->type_name("DAY");
  command.add_option("--words", options.words, "What else there is to say of it")->type_name("WORDS");
}

void Arguments::add(std::string key, std::string read, std::string expected, std::string cure) {
  problems_.push_back({std::move(key), std::move(read), std::move(expected), std::move(cure)});
}

void Arguments::done() const {
  if (!problems_.empty()) throw InputError(problems_);
}

std::optional<Day> Arguments::day(const std::string& key, const std::optional<std::string>& text) {
  if (!text) return std::nullopt;
  const auto day = parse_day(*text);
  if (!day) add(key, in_quotes(*text), "a day that exists, such as 2026-05-01");
  return day;
}

std::optional<double> Arguments::quantity(const std::string& key, const std::optional<std::string>& text,
                                          const Wanted& wanted) {
  if (!text) return std::nullopt;
  const auto read = parse_quantity(*text, wanted);
  if (const auto* fault = std::get_if<QuantityFault>(&read)) {
    add(key, in_quotes(*text), fault->expected, fault->cure);
    return std::nullopt;
  }
  const double value = std::get<double>(read);
  if (value < 0.0) add(key, in_quotes(*text), "nothing below zero");
  return value < 0.0 ? std::nullopt : std::optional(value);
}

std::optional<double> Arguments::positive(const std::string& key, const std::optional<std::string>& text,
                                          const Wanted& wanted) {
  const auto value = quantity(key, text, wanted);
  if (value == 0.0) add(key, in_quotes(*text), "more than zero");
  return value == 0.0 ? std::nullopt : value;
}

std::optional<double> Arguments::months(const std::string& key, const std::optional<std::string>& text) {
  if (!text) return std::nullopt;
  const std::size_t end = text->find_first_not_of("0123456789.");
  const auto number = parse_number(text->substr(0, end));
  const std::size_t at = end == std::string::npos ? end : text->find_first_not_of(' ', end);
  const std::string unit = at == std::string::npos ? "" : text->substr(at);
  const bool years = unit == "years" || unit == "year";
  const double months = number.value_or(0.0) * (years ? kMonthsPerYear : 1.0);
  const bool good = (years || unit == "months" || unit == "month") && months >= 1.0 && months <= kMostMonths &&
                    months == std::floor(months);
  if (!good) add(key, in_quotes(*text), "whole months or years up to 100 years, such as \"3 years\" or \"18 months\"");
  return good ? std::optional(months) : std::nullopt;
}

std::vector<EntryWebbing> webbings_named(const std::vector<std::string>& names_given, const Entry* rig,
                                         const Record& record) {
  std::vector<EntryWebbing> out;
  const auto add = [&](EntryNumber number) {
    for (const EntryWebbing& link : out) {
      if (link.webbing == number) return;
    }
    out.push_back({number, std::nullopt});
  };
  for (const std::string& name : names_given) add(webbing_called(name, record, "PIECE").number);
  if (names_given.empty() && rig != nullptr) {
    for (const EntryWebbing& link : rig->webbings) add(link.webbing);
  }
  if (!out.empty()) return out;
  if (rig == nullptr) throw InputError("PIECE", "nothing", "the webbing that this is about", "name it, or give --rig");
  throw InputError("PIECE", "nothing", "the webbing that this is about",
                   fmt::format("rig {} names none that it is for: name it here", rig->number));
}

Entry blank_entry(const LogOptions& options, Arguments& arguments) {
  Entry entry;
  entry.day = options.date ? arguments.day("--date", options.date).value_or(Day{}) : local_today();
  entry.written_at = written_now();
  entry.words = options.words;
  return entry;
}

std::string place_words(const RecordPath& path) {
  return "The record is in " + std::filesystem::absolute(path.file).string() + '\n';
}

Exit add_entries(const LogOptions& options, const MakeEntries& make) {
  const RecordPath path = record_path(options.file);
  std::error_code ignored;
  if (!std::filesystem::exists(path.file, ignored)) {
    Record none;
    take_in(make(none), none);  // a slip must not begin a record
    make_folder_for(path);
  }
  Database database = open_record(path.file, Access::write);
  Transaction change(database);
  Record record = read_record(database);
  const std::size_t first = record.entries.size();
  take_in(make(record), record);
  for (std::size_t i = first; i < record.entries.size(); ++i)
    record.entries[i].number = append(database, record.entries[i]);
  change.commit();
  say(record, first, path, options.unit_system());
  return Exit::ok;
}

}  // namespace spanloom
