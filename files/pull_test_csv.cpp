#include "files/pull_test_csv.h"

#include <algorithm>
#include <array>

namespace spanloom {
namespace {

enum Column : std::size_t { kTension, kStretch, kLengthBetween, kTime };

using Table = CsvRows<std::vector<double>>;

// A column that is left out reads as 0 all the way down.
bool is_there(const Table& table, Column column) {
  return std::any_of(table.rows.begin(), table.rows.end(), [&](const std::vector<double>& row) { return row[column] != 0.0; });
}

// True if stretches are to be made of lengths.
bool has_lengths(const Table& table, const std::string& file, std::optional<double> gauge_length, Findings& findings) {
  const bool stretch = is_there(table, kStretch), length = is_there(table, kLengthBetween);
  const Place head = table.places.empty() ? Place{} : table.places.front();
  if (stretch && length) {
    findings.add(file, head, {"", "both \"stretch\" and \"length\"", "one of the two", "take one column out"});
  } else if (!stretch && !length) {
    findings.add(file, head, {"", "no stretch other than 0", "a column \"stretch [%]\" or \"length [mm]\"", ""});
  } else if (length && !gauge_length) {
    findings.add(file, head, {"", "lengths between two marks", "their distance without load too", "give --gauge-length \"1 m\""});
  } else if (stretch && gauge_length) {
    findings.add(file, head, {"", "stretches", "no --gauge-length, which goes with \"length\"", "leave it out"});
  }
  return length;
}

void check_order(const Table& table, const std::string& file, Findings& findings) {
  for (std::size_t i = 1; i < table.rows.size(); ++i) {
    if (table.rows[i][kTime] >= table.rows[i - 1][kTime]) continue;
    findings.add(file, table.places[i], {"", "a time before that of the row above", "rows in order of time", "sort them by time"});
    return;
  }
}

}  // namespace

FileError PullTestFile::locate(const InputError& error) const {
  std::vector<FileProblem> located;
  for (Problem problem : error.problems()) {
    Place place;
    if (problem.key.starts_with('[')) {
      const std::size_t row = std::stoul(problem.key.substr(1));
      if (row < places.size()) place = places[row];
      problem.key.clear();
    } else if (!problem.key.empty()) {
      problem.key.insert(0, "--");
    }
    located.push_back({file, place, std::move(problem)});
  }
  return FileError(std::move(located));
}

PullTestFile read_pull_test_csv(std::string_view text, const std::string& file, std::optional<double> gauge_length) {
  const std::vector<CsvColumn> wanted = {{"tension", Quantity::force},
                                         {"stretch", Quantity::share, true},
                                         {"length", Quantity::length, true},
                                         {"time", Quantity::duration, true}};
  Findings findings;
  const Table table = read_csv_table(text, wanted, kPullTestLimits, file, "", findings);
  const bool lengths = findings.empty() && has_lengths(table, file, gauge_length, findings);
  check_order(table, file, findings);
  if (!findings.empty()) throw FileError(findings.in_reading_order());
  PullTestFile out{file, {}, table.places};
  for (const std::vector<double>& row : table.rows) {
    out.samples.push_back({row[kTension], lengths ? row[kLengthBetween] / *gauge_length - 1.0 : row[kStretch]});
  }
  return out;
}

}  // namespace spanloom
