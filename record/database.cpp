#include "record/database.h"

#include <sqlite3.h>

#include <cstring>

#include <fmt/format.h>

namespace spanloom {
namespace {

constexpr int kPatienceMs = 10'000;  // another command may be writing: its transaction takes milliseconds

// What to do about it, by what SQLite calls the fault (sqlite.org/rescode.html).
const char* cure_of(int code) {
  switch (code & 0xff) {
    case SQLITE_FULL:
      return "no room is left where it lies: make room, then say it again";
    case SQLITE_READONLY:
      return "the file or its folder may not be written: change its rights or name another file";
    case SQLITE_CANTOPEN:
      return "name another file with --file, or make its folder";
    case SQLITE_BUSY:
      return "another program is writing in it: wait and say it again";
    case SQLITE_CORRUPT:
    case SQLITE_NOTADB:
      return "the file is damaged: put a copy in its place, and keep this one to look into";
    case SQLITE_IOERR:
      return "the disk did not take or give it: make room or try another disk, then say it again";
    default:
      return "see whether the file is the one that was meant";
  }
}

std::string words_of(sqlite3* handle) {
  if (handle == nullptr) return "out of memory";
  std::string words = sqlite3_errmsg(handle);
  if (const int error = sqlite3_system_errno(handle); error != 0) words += fmt::format(" ({})", std::strerror(error));
  return words;
}

}  // namespace

void Database::Close::operator()(sqlite3* handle) const { sqlite3_close(handle); }
void Statement::Finalize::operator()(sqlite3_stmt* handle) const { sqlite3_finalize(handle); }

Database::Database(const std::filesystem::path& file, Access access) : file_(file.string()) {
  const int flags = access == Access::read ? SQLITE_OPEN_READONLY : SQLITE_OPEN_READWRITE | SQLITE_OPEN_CREATE;
  sqlite3* handle = nullptr;
  // An absolute path is a plain name to SQLite: never ":memory:", never an URI, never a temporary file.
  const int code = sqlite3_open_v2(std::filesystem::absolute(file).c_str(), &handle, flags, nullptr);
  handle_.reset(handle);
  if (code != SQLITE_OK) fail("cannot be opened");
  sqlite3_busy_timeout(handle, kPatienceMs);
  sqlite3_extended_result_codes(handle, 1);
  // A record may come from someone else: its schema must not be able to call functions that do more than compute.
  sqlite3_db_config(handle, SQLITE_DBCONFIG_DEFENSIVE, 1, nullptr);
  sqlite3_db_config(handle, SQLITE_DBCONFIG_TRUSTED_SCHEMA, 0, nullptr);
}

void Database::run(const char* statements) {
  if (sqlite3_exec(handle(), statements, nullptr, nullptr, nullptr) != SQLITE_OK) fail("could not be used");
}

std::int64_t Database::number_of(const char* statement) {
  Statement one(*this, statement);
  if (!one.next()) fail("gave no answer");
  return one.whole();
}

std::int64_t Database::last_number() const { return sqlite3_last_insert_rowid(handle()); }

void Database::fail(const std::string& what) const {
  const int code = handle() != nullptr ? sqlite3_errcode(handle()) : SQLITE_NOMEM;
  throw RecordError(fmt::format("{}: {}: {}; {}", file_, what, words_of(handle()), cure_of(code)));
}

Statement::Statement(Database& database, const std::string& text) : database_(database) {
  sqlite3_stmt* handle = nullptr;
  check(sqlite3_prepare_v2(database.handle(), text.c_str(), -1, &handle, nullptr));
  handle_.reset(handle);
}

void Statement::check(int code) {
  if (code != SQLITE_OK) database_.fail("could not be used");
}

Statement& Statement::operator<<(std::int64_t value) {
  check(sqlite3_bind_int64(handle(), ++bound_, value));
  return *this;
}

Statement& Statement::operator<<(double value) {
  check(sqlite3_bind_double(handle(), ++bound_, value));
  return *this;
}

Statement& Statement::operator<<(const std::string& value) {
  check(sqlite3_bind_text64(handle(), ++bound_, value.data(), value.size(), SQLITE_TRANSIENT, SQLITE_UTF8));
  return *this;
}

Statement& Statement::null() {
  check(sqlite3_bind_null(handle(), ++bound_));
  return *this;
}

bool Statement::next() {
  column_ = 0;
  const int code = sqlite3_step(handle());
  if (code == SQLITE_ROW) return true;
  if (code != SQLITE_DONE) database_.fail(sqlite3_stmt_readonly(handle()) ? "cannot be read" : "nothing was recorded");
  return false;
}

std::int64_t Statement::whole() { return sqlite3_column_int64(handle(), column_++); }
double Statement::number() { return sqlite3_column_double(handle(), column_++); }

std::string Statement::text() {
  const int column = column_++;
  const auto* bytes = reinterpret_cast<const char*>(sqlite3_column_text(handle(), column));
  if (bytes == nullptr) return {};
  return {bytes, static_cast<std::size_t>(sqlite3_column_bytes(handle(), column))};
}

bool Statement::next_is_null() { return sqlite3_column_type(handle(), column_) == SQLITE_NULL; }

std::optional<std::int64_t> Statement::maybe_whole() {
  return next_is_null() ? (++column_, std::nullopt) : std::optional(whole());
}

std::optional<double> Statement::maybe_number() {
  return next_is_null() ? (++column_, std::nullopt) : std::optional(number());
}

std::optional<std::string> Statement::maybe_text() {
  return next_is_null() ? (++column_, std::nullopt) : std::optional(text());
}

int Statement::columns() const { return sqlite3_column_count(handle()); }

Transaction::Transaction(Database& database) : database_(database) { database.run("BEGIN IMMEDIATE"); }

Transaction::~Transaction() {
  // SQLite has rolled back by itself after some faults; then there is nothing to undo.
  if (open_ && !sqlite3_get_autocommit(database_.handle())) {
    sqlite3_exec(database_.handle(), "ROLLBACK", nullptr, nullptr, nullptr);
  }
}

void Transaction::commit() {
  if (sqlite3_exec(database_.handle(), "COMMIT", nullptr, nullptr, nullptr) != SQLITE_OK) {
    database_.fail("nothing was recorded");
  }
  open_ = false;
}

}  // namespace spanloom
