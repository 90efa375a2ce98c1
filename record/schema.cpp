#include "record/schema.h"

#include <sqlite3.h>

#include <array>
#include <fstream>

#include <fmt/format.h>

namespace spanloom {
namespace {

namespace fs = std::filesystem;

static_assert(SQLITE_VERSION_NUMBER >= 3037000, "STRICT tables came with SQLite 3.37");

// Entries are only ever added. A wrong one is struck out by a row of `strike`; the triggers hold everybody to that.
// A day plus no days is itself only if the calendar has it: date() alone lets 30 February pass.
constexpr const char* kTablesOfVersion1 = R"sql(
CREATE TABLE entry (
  id INTEGER PRIMARY KEY AUTOINCREMENT,
  kind TEXT NOT NULL CHECK (kind IN ('webbing', 'rig', 'hung', 'event', 'measured', 'rule', 'retired', 'note')),
  day TEXT NOT NULL CHECK (date(day, '+0 days') IS day),
  written_at TEXT NOT NULL CHECK (datetime(written_at) IS NOT NULL),
  words TEXT NOT NULL DEFAULT ''
) STRICT;
CREATE TABLE strike (
  entry_id INTEGER PRIMARY KEY REFERENCES entry (id),
  day TEXT NOT NULL CHECK (date(day, '+0 days') IS day),
  written_at TEXT NOT NULL CHECK (datetime(written_at) IS NOT NULL),
  reason TEXT NOT NULL CHECK (length(reason) > 0)
) STRICT;
CREATE TABLE webbing (
  entry_id INTEGER PRIMARY KEY REFERENCES entry (id),
  name TEXT NOT NULL CHECK (length(name) BETWEEN 1 AND 80),
  kind TEXT NOT NULL CHECK (length(kind) BETWEEN 1 AND 80),
  length_m REAL CHECK (length_m > 0),
  strength_N REAL CHECK (strength_N > 0),
  new_on TEXT CHECK (date(new_on, '+0 days') IS new_on)
) STRICT;
CREATE TABLE rig (
  entry_id INTEGER PRIMARY KEY REFERENCES entry (id),
  title TEXT NOT NULL,
  place TEXT NOT NULL,
  file_text TEXT NOT NULL,
  gap_m REAL NOT NULL CHECK (gap_m > 0),
  tension_near_N REAL NOT NULL CHECK (tension_near_N >= 0),
  tension_far_N REAL NOT NULL CHECK (tension_far_N >= 0),
  walker_tension_max_N REAL NOT NULL CHECK (walker_tension_max_N >= 0)
) STRICT;
CREATE TABLE rig_side_file (
  entry_id INTEGER NOT NULL REFERENCES rig (entry_id),
  name TEXT NOT NULL,
  file_text TEXT NOT NULL,
  PRIMARY KEY (entry_id, name)
) STRICT, WITHOUT ROWID;
CREATE TABLE entry_webbing (
  entry_id INTEGER NOT NULL REFERENCES entry (id),
  webbing_id INTEGER NOT NULL REFERENCES webbing (entry_id),
  role TEXT CHECK (role IN ('main', 'backup')),
  PRIMARY KEY (entry_id, webbing_id)
) STRICT, WITHOUT ROWID;
CREATE TABLE entry_rig (
  entry_id INTEGER PRIMARY KEY REFERENCES entry (id),
  rig_id INTEGER NOT NULL REFERENCES rig (entry_id)
) STRICT;
CREATE TABLE hung (
  entry_id INTEGER PRIMARY KEY REFERENCES entry (id),
  from_day TEXT CHECK (date(from_day, '+0 days') IS from_day),
  to_day TEXT CHECK (date(to_day, '+0 days') IS to_day AND to_day >= from_day),
  days INTEGER NOT NULL CHECK (days >= 1),
  sun_s REAL NOT NULL CHECK (sun_s >= 0 AND sun_s <= 86400.0 * days),
  wet_days INTEGER NOT NULL CHECK (wet_days BETWEEN 0 AND days),
  tension_N REAL CHECK (tension_N > 0),
  CHECK ((from_day IS NULL) = (to_day IS NULL)),
  CHECK (from_day IS NULL OR days = julianday(to_day) - julianday(from_day) + 1)
) STRICT;
CREATE TABLE event (
  entry_id INTEGER PRIMARY KEY REFERENCES entry (id),
  what TEXT NOT NULL CHECK (what IN ('leash fall', 'main failure', 'other')),
  force_N REAL CHECK (force_N > 0)
) STRICT;
CREATE TABLE measured (
  entry_id INTEGER PRIMARY KEY REFERENCES entry (id),
  tension_N REAL NOT NULL CHECK (tension_N > 0),
  tension_sd_N REAL NOT NULL CHECK (tension_sd_N >= 0),
  result_json TEXT NOT NULL
) STRICT;
CREATE TABLE measured_by (
  entry_id INTEGER NOT NULL REFERENCES measured (entry_id),
  number INTEGER NOT NULL,
  method TEXT NOT NULL,
  tension_N REAL NOT NULL CHECK (tension_N > 0),
  sd_N REAL NOT NULL CHECK (sd_N >= 0),
  PRIMARY KEY (entry_id, number)
) STRICT, WITHOUT ROWID;
CREATE TABLE rule (
  entry_id INTEGER PRIMARY KEY REFERENCES entry (id),
  measure TEXT NOT NULL CHECK (
    measure IN ('days_hung', 'sun_s', 'wet_days', 'falls', 'age_months', 'force_share', 'force_N')),
  limit_value REAL NOT NULL CHECK (limit_value > 0),
  webbing_kind TEXT
) STRICT;
CREATE INDEX entry_webbing_of_webbing ON entry_webbing (webbing_id);
CREATE INDEX entry_rig_of_rig ON entry_rig (rig_id);
CREATE VIEW valid_entry AS SELECT * FROM entry WHERE id NOT IN (SELECT entry_id FROM strike);
CREATE TRIGGER webbing_has_its_own_name BEFORE INSERT ON webbing
WHEN EXISTS (SELECT 1 FROM webbing JOIN valid_entry ON id = entry_id WHERE name = NEW.name COLLATE NOCASE)
BEGIN SELECT RAISE(ABORT, 'a webbing of this name is in the record'); END;
)sql";

constexpr std::array kTables = {"entry",     "strike", "webbing", "rig",      "rig_side_file", "entry_webbing",
                                "entry_rig", "hung",   "event",   "measured", "measured_by",   "rule"};

void make_version_1(Database& database) {
  database.run(kTablesOfVersion1);
  for (const char* table : kTables) {
    for (const char* change : {"UPDATE", "DELETE"}) {
      database.run(
          fmt::format("CREATE TRIGGER {0}_no_{1} BEFORE {1} ON {0} BEGIN SELECT RAISE(ABORT, 'entries are struck "
                      "out, never changed or deleted'); END;",
                      table, change)
              .c_str());
    }
  }
  database.run(fmt::format("PRAGMA application_id = {}", kRecordId).c_str());
}

/// What the first page of a file says of it, read without SQLite so that nothing is touched.
/// Source: SQLite file format, sections 1.3.1 (magic), 1.3.16 (user version), 1.3.17 (application id).
struct Header {
  bool sqlite = false;
  std::uint32_t version = 0, id = 0;
};

std::uint32_t big_endian(const char* bytes) {
  std::uint32_t number = 0;
  for (int i = 0; i < 4; ++i) number = number << 8 | static_cast<unsigned char>(bytes[i]);
  return number;
}

Header header_of(const fs::path& file) {
  std::array<char, 100> bytes{};
  std::ifstream stream(file, std::ios::binary);
  if (!stream)
    throw RecordError(file.string() + ": cannot be opened; see its rights, or name another file with --file");
  stream.read(bytes.data(), bytes.size());
  if (!stream) return {};
  constexpr std::string_view kMagic("SQLite format 3\0", 16);
  return {std::string_view(bytes.data(), kMagic.size()) == kMagic, big_endian(bytes.data() + 60),
          big_endian(bytes.data() + 68)};
}

[[noreturn]] void refuse_newer(const std::string& file, std::int64_t version) {
  throw RecordError(
      fmt::format("{}: a record of version {}, and this program knows versions up to {}; use the newer program. "
                  "The file was left as it is",
                  file, version, record_migrations().size()));
}

/// @return version of its tables
std::size_t version_of_ours(const fs::path& file) {
  const Header header = header_of(file);
  if (!header.sqlite || header.id != kRecordId) {
    throw RecordError(
        fmt::format("{}: not a record of this program; name another file with --file. The file was left as it "
                    "is",
                    file.string()));
  }
  if (header.version > record_migrations().size()) refuse_newer(file.string(), header.version);
  return header.version;
}

bool has_content(const fs::path& file) {
  std::error_code fault;
  return fs::is_regular_file(file, fault) && fs::file_size(file, fault) > 0 && !fault;
}

void check_after_a_crash(Database& database) {
  Statement check(database, "PRAGMA quick_check(1)");
  const std::string words = check.next() ? check.text() : "no answer";
  if (words == "ok") return;
  throw RecordError(
      fmt::format("{}: damaged: {}; put a copy in its place, and keep this one to look into", database.file(), words));
}

}  // namespace

std::span<const Migration> record_migrations() {
  static constexpr std::array<Migration, 1> kMigrations = {make_version_1};
  return kMigrations;
}

void migrate(Database& database, std::span<const Migration> migrations) {
  const auto newest = static_cast<std::int64_t>(migrations.size());
  if (database.number_of("PRAGMA user_version") == newest) return;
  Transaction change(database);
  const std::int64_t version = database.number_of("PRAGMA user_version");  // another command may have been faster
  if (version > newest) refuse_newer(database.file(), version);
  if (version == 0 && database.number_of("SELECT count(*) FROM sqlite_schema") > 0) {
    throw RecordError(database.file() + ": not a record of this program; name another file with --file");
  }
  for (std::int64_t at = version; at < newest; ++at) migrations[static_cast<std::size_t>(at)](database);
  database.run(fmt::format("PRAGMA user_version = {}", newest).c_str());
  change.commit();
}

Database open_record(const fs::path& file, Access access) {
  std::error_code fault;
  if (fs::is_directory(file, fault)) throw RecordError(file.string() + ": a folder; name a file in it with --file");
  const bool is_there = has_content(file);
  const bool is_old = is_there && version_of_ours(file) < record_migrations().size();
  const bool after_a_crash = has_content(file.string() + "-journal");
  if (access == Access::read && !is_there)
    throw RecordError(file.string() + ": no record there yet; `spanloom log webbing` begins one");
  // Readers too undo what a killed writer left, and bring an old record up to date.
  if (after_a_crash || is_old) access = Access::write;
  Database database(file, access);
  // One file and no companions: it is carried on phones and sticks. EXTRA forces the folder to the disk too when the
  // journal goes, so that not even a power cut takes back an entry that was confirmed.
  database.run("PRAGMA journal_mode = DELETE; PRAGMA synchronous = EXTRA; PRAGMA foreign_keys = ON;");
  if (after_a_crash) check_after_a_crash(database);
  if (access == Access::write) migrate(database, record_migrations());
  return database;
}

}  // namespace spanloom
