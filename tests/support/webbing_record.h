// A small record of invented webbing to try rules on.
#pragma once

#include <filesystem>
#include <string>
#include <utility>
#include <vector>

#include "record/entries.h"

namespace spanloom::fixture {

inline Day day(const char* text) { return parse_day(text).value(); }

/// A record in memory whose entries get numbers as they come.
class WrittenRecord {
 public:
  EntryNumber add(EntryDetail detail, std::vector<EntryNumber> webbings = {}, const char* on = "2026-05-01") {
    Entry entry;
    entry.number = static_cast<EntryNumber>(record.entries.size()) + 1;
    entry.day = day(on);
    entry.written_at = "2026-05-01T12:00:00Z";
    for (const EntryNumber webbing : webbings) entry.webbings.push_back({webbing, std::nullopt});
    entry.detail = std::move(detail);
    record.entries.push_back(entry);
    return entry.number;
  }
  void strike(EntryNumber number) {
    record.entries.at(static_cast<std::size_t>(number) - 1).strike = Strike{day("2026-06-01"), "a slip"};
  }

  Record record;
};

inline LoggedWebbing reed(const char* name = "Reed 1") { return {name, "reed", 60.0, 28000.0, day("2024-03-01")}; }

inline TimeHung hung(const char* from, const char* to, double sun_hours = 0.0, int wet_days = 0) {
  return {DayRange{day(from), day(to)}, days_from_to(day(from), day(to)), 3600.0 * sun_hours, wet_days, 4000.0};
}

/// A folder of its own that is gone when the test is.
class RecordFolder {
 public:
  RecordFolder() {
    std::string name = (std::filesystem::temp_directory_path() / "spanloom-record-XXXXXX").string();
    path = mkdtemp(name.data());
  }
  RecordFolder(const RecordFolder&) = delete;
  RecordFolder& operator=(const RecordFolder&) = delete;
  ~RecordFolder() {
    std::error_code ignored;
    std::filesystem::remove_all(path, ignored);
  }
  std::filesystem::path file() const { return path / "record.sqlite"; }
  std::filesystem::path path;
};

}  // namespace spanloom::fixture
