// The file of the record: whose it is, what it refuses, what a fault leaves behind.
#include <gtest/gtest.h>
#include <sys/wait.h>
#include <unistd.h>

#include <csignal>
#include <fstream>

#include <fmt/format.h>

#include "record/schema.h"
#include "record/store.h"
#include "support/webbing_record.h"

namespace spanloom {
namespace {

using fixture::reed;

Entry entry_of(EntryDetail detail, const std::string& words = "") {
  Entry entry;
  entry.day = fixture::day("2026-05-01");
  entry.written_at = "2026-05-01T12:00:00Z";
  entry.words = words;
  entry.detail = std::move(detail);
  return entry;
}

class RecordFile : public testing::Test {
 protected:
  std::string bytes() const {
    std::ifstream in(folder_.file(), std::ios::binary);
    return {std::istreambuf_iterator<char>(in), std::istreambuf_iterator<char>()};
  }
  void put(const std::string& bytes) const { std::ofstream(folder_.file(), std::ios::binary) << bytes; }
  EntryNumber add(const Entry& entry) const {
    Database database = open_record(folder_.file(), Access::write);
    Transaction change(database);
    const EntryNumber number = append(database, entry);
    change.commit();
    return number;
  }
  Record read() const {
    Database database = open_record(folder_.file(), Access::read);
    return read_record(database);
  }
  std::string fault_of_opening(Access access = Access::write) const {
    try {
      open_record(folder_.file(), access);
    } catch (const RecordError& error) {
      return error.what();
    }
    return "";
  }
  std::string files() const {
    std::string all;
    for (const auto& entry : std::filesystem::directory_iterator(folder_.path))
      all += entry.path().filename().string() + ' ';
    return all;
  }
  fixture::RecordFolder folder_;
};

// SQLite file format 1.3: the header string, user version at byte 60, application id at byte 68, big-endian.
TEST_F(RecordFile, SaysInItsHeaderWhoseItIs) {
  add(entry_of(reed()));
  const std::string file = bytes();
  EXPECT_EQ(file.substr(0, 16), std::string("SQLite format 3\0", 16));
  EXPECT_EQ(file.substr(60, 4), std::string("\0\0\0\1", 4));
  EXPECT_EQ(file.substr(68, 4), "SpnL");
}

TEST_F(RecordFile, IsOneFileAfterEachCommand) {
  add(entry_of(reed()));
  EXPECT_EQ(files(), "record.sqlite ");
}

TEST_F(RecordFile, OfSomeoneElseIsRefusedAndLeftAsItIs) {
  {
    Database other(folder_.file(), Access::write);
    other.run("CREATE TABLE recipes (name TEXT); INSERT INTO recipes VALUES ('bread')");
  }
  for (const std::string& content : {bytes(), std::string("just words"), std::string(5000, 'x')}) {
    put(content);
    for (const Access access : {Access::read, Access::write}) {
      EXPECT_NE(fault_of_opening(access).find("not a record of this program"), std::string::npos);
      EXPECT_EQ(bytes(), content);
      EXPECT_EQ(files(), "record.sqlite ");
    }
  }
}

TEST_F(RecordFile, OfANewerVersionIsRefusedAndLeftAsItIs) {
  add(entry_of(reed()));
  std::string newer = bytes();
  newer[63] = 7;
  put(newer);
  EXPECT_NE(fault_of_opening().find("a record of version 7, and this program knows versions up to 1"),
            std::string::npos);
  EXPECT_EQ(bytes(), newer);
}

TEST_F(RecordFile, IsNotBegunByReading) {
  EXPECT_NE(fault_of_opening(Access::read).find("no record there yet"), std::string::npos);
  EXPECT_EQ(files(), "");
}

TEST_F(RecordFile, ThatIsDamagedIsSaidToBe) {
  add(entry_of(Note{}, std::string(3000, 'n')));
  std::string damaged = bytes();
  for (std::size_t at = 4096; at < damaged.size(); at += 64) damaged[at] = '\xff';
  put(damaged);
  try {
    read();
    FAIL() << "read a damaged file";
  } catch (const RecordError& error) {
    EXPECT_NE(std::string(error.what()).find("damaged"), std::string::npos) << error.what();
  }
}

void fail_in_the_middle(Database& database) { database.run("CREATE TABLE half (a); CREATE TABLE entry (b)"); }
void add_a_column(Database& database) { database.run("ALTER TABLE webbing ADD COLUMN colour TEXT"); }

TEST_F(RecordFile, IsBroughtToANewerVersionWithItsEntries) {
  add(entry_of(reed(), "kept"));
  const std::array<Migration, 2> newer = {record_migrations()[0], add_a_column};
  Database database(folder_.file(), Access::write);
  migrate(database, newer);
  EXPECT_EQ(database.number_of("PRAGMA user_version"), 2);
  EXPECT_EQ(database.number_of("SELECT count(*) FROM webbing WHERE colour IS NULL AND name = 'Reed 1'"), 1);
}

TEST_F(RecordFile, StaysAtItsVersionWhenAMigrationFails) {
  add(entry_of(reed(), "kept"));
  const std::string before = bytes();
  {
    const std::array<Migration, 2> newer = {record_migrations()[0], fail_in_the_middle};
    Database database(folder_.file(), Access::write);
    EXPECT_THROW(migrate(database, newer), RecordError);
  }
  EXPECT_EQ(bytes(), before);
  EXPECT_EQ(read().entries.size(), 1u);
}

TEST_F(RecordFile, ForgetsATransactionThatWasNotCommitted) {
  add(entry_of(reed()));
  {
    Database database = open_record(folder_.file(), Access::write);
    Transaction change(database);
    append(database, entry_of(Note{}, "never said"));
  }
  EXPECT_EQ(read().entries.size(), 1u);
}

// The child writes so much that SQLite has put changed pages into the file before it dies: its journal is hot.
TEST_F(RecordFile, UndoesWhatAKilledWriterLeftUndone) {
  add(entry_of(reed()));
  const std::string before = bytes();
  const pid_t child = fork();
  if (child == 0) {
    Database database = open_record(folder_.file(), Access::write);
    database.run("PRAGMA cache_size = 5");
    Transaction change(database);
    for (int i = 0; i < 50; ++i) append(database, entry_of(Note{}, std::string(3000, 'k')));
    raise(SIGKILL);
  }
  int status = 0;
  ASSERT_EQ(waitpid(child, &status, 0), child);
  ASSERT_TRUE(WIFSIGNALED(status));
  ASSERT_NE(bytes(), before) << "the kill came too early to try anything";
  ASSERT_TRUE(std::filesystem::exists(folder_.file().string() + "-journal"));
  const Record record = read();
  ASSERT_EQ(record.entries.size(), 1u);
  EXPECT_EQ(bytes(), before);
  EXPECT_EQ(files(), "record.sqlite ");
}

TEST_F(RecordFile, OnAFullDiskTakesNothingOfAnEntryAndSaysSo) {
  add(entry_of(reed()));
  const std::string before = bytes();
  {
    Database database = open_record(folder_.file(), Access::write);
    database.run(fmt::format("PRAGMA max_page_count = {}", database.number_of("PRAGMA page_count")).c_str());
    LoggedRig rig{"Long file", "", std::string(200'000, '#'), {{"side.csv", "a"}}, 16.0, 2500.0, 2500.0, 3000.0};
    Transaction change(database);
    try {
      append(database, entry_of(rig));
      FAIL() << "there was room";
    } catch (const RecordError& error) {
      EXPECT_NE(std::string(error.what()).find("nothing was recorded"), std::string::npos) << error.what();
      EXPECT_NE(std::string(error.what()).find("make room"), std::string::npos) << error.what();
    }
  }
  EXPECT_EQ(bytes(), before);
}

TEST_F(RecordFile, ThatMayNotBeWrittenSaysSo) {
  add(entry_of(reed()));
  Database database(folder_.file(), Access::read);
  try {
    append(database, entry_of(Note{}));
    FAIL() << "it was written";
  } catch (const RecordError& error) {
    EXPECT_NE(std::string(error.what()).find("may not be written"), std::string::npos) << error.what();
  }
}

TEST_F(RecordFile, LetsNobodyChangeOrDeleteWhatWasWritten) {
  add(entry_of(reed()));
  Database database = open_record(folder_.file(), Access::write);
  for (const char* change : {"DELETE FROM entry", "UPDATE entry SET words = 'x'", "DELETE FROM webbing",
                             "UPDATE webbing SET length_m = 1"}) {
    EXPECT_THROW(database.run(change), RecordError) << change;
  }
}

TEST_F(RecordFile, HoldsOffWhatCannotBeEvenWithoutThisProgram) {
  add(entry_of(reed()));
  Database database = open_record(folder_.file(), Access::write);
  for (const char* insert :
       {"INSERT INTO entry (kind, day, written_at) VALUES ('note', '2026-02-30', '2026-05-01T00:00:00Z')",
        "INSERT INTO entry (kind, day, written_at) VALUES ('poem', '2026-02-03', '2026-05-01T00:00:00Z')",
        "INSERT INTO hung VALUES (1, '2026-05-02', '2026-05-01', 1, 0, 0, NULL)",
        "INSERT INTO hung VALUES (1, '2026-05-01', '2026-05-03', 2, 0, 0, NULL)",
        "INSERT INTO hung VALUES (1, NULL, NULL, 2, 0, 3, NULL)", "INSERT INTO event VALUES (99, 'leash fall', NULL)",
        "INSERT INTO webbing VALUES (1, 'REED 1', 'reed', NULL, NULL, NULL)",
        "INSERT INTO rule VALUES (1, 'falls', 0, NULL)", "INSERT INTO measured VALUES (1, 'strong', 0, '')"}) {
    EXPECT_THROW(database.run(insert), RecordError) << insert;
  }
}

TEST_F(RecordFile, TakesWordsAsWordsWhateverTheySay) {
  const std::string words = "x'); DROP TABLE entry; --\n\"quoted\" \xc3\xa4\xe2\x98\x83 ?1 $a";
  add(entry_of(Note{}, words));
  EXPECT_EQ(read().entries.at(0).words, words);
}

}  // namespace
}  // namespace spanloom
