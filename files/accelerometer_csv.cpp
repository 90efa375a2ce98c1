#include "files/accelerometer_csv.h"

#include <cstddef>
#include <utility>

#include <fmt/format.h>

namespace spanloom {
namespace {

// Bad cells are read as 0 and would seem to go back in time: only a table without them is looked at.
void check_times(const CsvRows<Acceleration>& table, const std::string& file, const std::string& key, Findings& findings) {
  constexpr int kMostTold = 20;
  int told = 0;
  for (std::size_t i = 1; i < table.rows.size() && told < kMostTold; ++i) {
    const double before = table.rows[i - 1].time, now = table.rows[i].time;
    if (now > before) continue;
    const bool same = now == before;
    findings.add(file, table.places[i],
                 {key, fmt::format("the time {:.6g} s after {:.6g} s", now, before), "times that rise from row to row",
                  same ? "take out rows that stand twice; write times with all their decimals" : "sort the rows by time"});
    ++told;
  }
}

void check_size(const CsvRows<Acceleration>& table, const std::string& file, const std::string& key, Findings& findings) {
  const Place last = table.places.empty() ? Place{} : table.places.back();
  if (table.rows.size() < kLeastRows) {
    findings.add(file, last, {key, fmt::format("{} rows", table.rows.size()), fmt::format("at least {} rows", kLeastRows),
                              "record for a minute, with 50 rows a second or more"});
    return;
  }
  const double duration = table.rows.back().time - table.rows.front().time;
  if (duration >= kLeastRecord) return;
  findings.add(file, last, {key, fmt::format("a record of {:.3g} s", duration), fmt::format("at least {:g} s", kLeastRecord),
                            "record for a minute; is the unit of the time right?"});
}

}  // namespace

CsvRows<Acceleration> read_accelerometer_csv(std::string_view text, const std::string& file, const std::string& key,
                                             Findings& findings) {
  const std::vector<CsvColumn> wanted = {{"time", Quantity::duration},
                                         {"x", Quantity::acceleration},
                                         {"y", Quantity::acceleration},
                                         {"z", Quantity::acceleration}};
  Findings of_file;
  CsvRows<std::vector<double>> table = read_csv_table(text, wanted, kAccelerometerLimits, file, key, of_file);
  CsvRows<Acceleration> out;
  out.places = std::move(table.places);
  out.rows.reserve(table.rows.size());
  for (const std::vector<double>& row : table.rows) out.rows.push_back({row[0], row[1], row[2], row[3]});
  if (of_file.empty()) check_times(out, file, key, of_file);
  if (of_file.empty()) check_size(out, file, key, of_file);
  for (const FileProblem& p : of_file.in_reading_order()) findings.add(p.file, p.place, p.problem);
  return out;
}

}  // namespace spanloom
