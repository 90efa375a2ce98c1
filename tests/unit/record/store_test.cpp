// Entries into the tables and back.
#include <gtest/gtest.h>

#include "record/record_json.h"
#include "record/schema.h"
#include "record/store.h"
#include "support/webbing_record.h"

namespace spanloom {
namespace {

using fixture::day;

/// One of each kind, with all that an entry can hold.
Record one_of_each() {
  fixture::WrittenRecord written;
  const EntryNumber reed = written.add(fixture::reed());
  const EntryNumber bare = written.add(LoggedWebbing{"Rush \"2\"", "rush", {}, {}, {}});
  written.add(
      LoggedRig{"Bank", "Willow", "gap = 16\n", {{"a.csv", "1,2\n"}, {"b.csv", ""}}, 16.0, 2500.0, 2490.5, 3170.1});
  written.record.entries.back().webbings = {{reed, Role::main}, {bare, Role::backup}};
  written.add(fixture::hung("2026-04-01", "2026-04-03", 18.5, 1), {reed, bare});
  written.record.entries.back().rig = 3;
  written.add(TimeHung{{}, 12, 0.0, 0, {}}, {bare});
  written.add(LoggedEvent{EventKind::leash_fall, 5012.5}, {reed});
  written.add(LoggedEvent{EventKind::other, {}}, {reed});
  written.add(Measured{2481.25, 12.5, {{"pulse", 2480.0, 15.0}, {"sag", 2484.0, 25.0}}, "{}"}, {reed});
  written.add(Rule{RuleMeasure::age, 36.0, "reed"});
  written.add(Retired{}, {bare});
  written.add(Note{});
  written.record.entries.back().words = "two\nlines";
  return written.record;
}

TEST(Store, GivesBackEveryEntryAsItWasWritten) {
  const fixture::RecordFolder folder;
  Record written = one_of_each();
  Database database = open_record(folder.file(), Access::write);
  for (const Entry& entry : written.entries) EXPECT_EQ(append(database, entry), entry.number);
  const Strike strike{local_today(), "typed twice"};
  append_strike(database, 5, strike);
  written.entries[4].strike = strike;
  // The export names every member of every entry.
  EXPECT_EQ(export_json(read_record(database)), export_json(written));
}

TEST(Store, SaysWhichEntryHasLostItsParts) {
  const fixture::RecordFolder folder;
  Database database = open_record(folder.file(), Access::write);
  database.run("INSERT INTO entry (kind, day, written_at) VALUES ('hung', '2026-05-01', '2026-05-01T12:00:00Z')");
  try {
    read_record(database);
    FAIL() << "half an entry was read";
  } catch (const RecordError& error) {
    EXPECT_NE(std::string(error.what()).find("entry 1 has lost what it says"), std::string::npos) << error.what();
  }
}

TEST(Store, NeverGivesANumberTwice) {
  const fixture::RecordFolder folder;
  Database database = open_record(folder.file(), Access::write);
  Entry note;
  note.day = day("2026-05-01"), note.written_at = "2026-05-01T12:00:00Z";
  EXPECT_EQ(append(database, note), 1);
  {
    Transaction undone(database);
    EXPECT_EQ(append(database, note), 2);
  }
  EXPECT_EQ(append(database, note), 2);  // that one never was
  EXPECT_EQ(append(database, note), 3);
}

}  // namespace
}  // namespace spanloom
