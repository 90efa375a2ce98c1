// The entries as CSV, read back by the rules of RFC 4180, section 2.
#include <gtest/gtest.h>

#include "record/entries_csv.h"
#include "support/webbing_record.h"

namespace spanloom {
namespace {

/// Cells of each record: rules 1, 4, 5, 6 and 7.
std::vector<std::vector<std::string>> cells_of(const std::string& csv) {
  std::vector<std::vector<std::string>> rows = {{""}};
  bool inside = false;
  for (std::size_t i = 0; i < csv.size(); ++i) {
    std::string& cell = rows.back().back();
    if (csv[i] == '"' && inside && i + 1 < csv.size() && csv[i + 1] == '"') {
      cell += csv[++i];
    } else if (csv[i] == '"') {
      inside = !inside;
    } else if (!inside && csv[i] == ',') {
      rows.back().emplace_back();
    } else if (!inside && csv[i] == '\r' && csv[i + 1] == '\n') {
      rows.push_back({""}), ++i;
    } else {
      cell += csv[i];
    }
  }
  rows.pop_back();  // after the last line end
  return rows;
}

TEST(EntriesCsv, KeepsItsColumnsWhateverTheWordsAre) {
  fixture::WrittenRecord written;
  const EntryNumber reed = written.add(fixture::reed("Reed \"A\", 1"));
  written.add(fixture::hung("2026-05-01", "2026-05-03", 18.5, 1), {reed});
  written.add(LoggedEvent{EventKind::leash_fall, 5000.0}, {reed});
  written.add(Note{});
  written.record.entries.back().words = "a, b\n\"c\"";
  written.strike(4);
  const auto rows = cells_of(entries_csv(written.record));
  ASSERT_EQ(rows.size(), 5u);
  for (const auto& row : rows) EXPECT_EQ(row.size(), 14u);
  EXPECT_EQ(rows[2][4], "Reed \"A\", 1");
  EXPECT_EQ((std::vector<std::string>(rows[2].begin() + 6, rows[2].begin() + 12)),
            (std::vector<std::string>{"2026-05-01", "2026-05-03", "3", "18.5", "1", "4000"}));
  EXPECT_EQ(rows[3][11], "5000");
  EXPECT_NE(rows[4][12].find("a, b\n\"c\""), std::string::npos);
  EXPECT_EQ(rows[4][13], "a slip");
}

}  // namespace
}  // namespace spanloom
