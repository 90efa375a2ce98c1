// One SQLite file, its statements and transactions, closed whatever happens. Values are always bound, never spliced
// into the text of a statement.
#pragma once

#include <cstdint>
#include <filesystem>
#include <memory>
#include <optional>
#include <string>

#include "files/atomic_write.h"

struct sqlite3;
struct sqlite3_stmt;

namespace spanloom {

/// The record could not be opened, read or written; says which file, what happened and what to do. Nothing of the
/// change that was under way is in the file.
class RecordError : public WriteError {
 public:
  using WriteError::WriteError;
};

enum class Access { read, write };

class Database {
 public:
  /// Opens a file. For writing it is made if it is missing.
  /// @throws RecordError
  Database(const std::filesystem::path& file, Access access);

  const std::string& file() const { return file_; }
  sqlite3* handle() const { return handle_.get(); }
  /// Runs statements that take no values. @throws RecordError
  void run(const char* statements);
  /// The one whole number that a statement gives. @throws RecordError
  std::int64_t number_of(const char* statement);
  /// The number that the last insert gave.
  std::int64_t last_number() const;
  /// @throws RecordError with what SQLite has to say of the last call, in words
  [[noreturn]] void fail(const std::string& what) const;

 private:
  struct Close {
    void operator()(sqlite3* handle) const;
  };
  std::string file_;
  std::unique_ptr<sqlite3, Close> handle_;
};

/// One prepared statement. Values are bound in order, columns are read in order.
class Statement {
 public:
  /// @throws RecordError
  Statement(Database& database, const std::string& text);

  Statement& operator<<(std::int64_t value);
  Statement& operator<<(int value) { return *this << std::int64_t{value}; }
  Statement& operator<<(double value);
  Statement& operator<<(const std::string& value);
  Statement& operator<<(const char* value) { return *this << std::string(value); }
  template <class T>
  Statement& operator<<(const std::optional<T>& value) {
    return value ? *this << *value : null();
  }

  /// Steps to the next row. @return false when there is none @throws RecordError
  bool next();
  /// Runs a statement that gives no rows. @throws RecordError
  void run() {
    while (next()) {
    }
  }

  std::int64_t whole();  ///< of the next column
  double number();
  std::string text();
  std::optional<std::int64_t> maybe_whole();
  std::optional<double> maybe_number();
  std::optional<std::string> maybe_text();
  int columns() const;
  sqlite3_stmt* handle() const { return handle_.get(); }

 private:
  struct Finalize {
    void operator()(sqlite3_stmt* handle) const;
  };
  Statement& null();
  void check(int code);
  bool next_is_null();
  Database& database_;
  std::unique_ptr<sqlite3_stmt, Finalize> handle_;
  int bound_ = 0, column_ = 0;
};

/// A change that is in the file whole or not at all. Undone unless commit() returned.
class Transaction {
 public:
  /// Takes the write lock at once, so that what is read in it still holds when it is written. @throws RecordError
  explicit Transaction(Database& database);
  Transaction(const Transaction&) = delete;
  Transaction& operator=(const Transaction&) = delete;
  ~Transaction();
  /// On the disk when it returns. @throws RecordError: then nothing of it is
  void commit();

 private:
  Database& database_;
  bool open_ = true;
};

}  // namespace spanloom
