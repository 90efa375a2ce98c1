// The text of a rig file that is changed one entry at a time, all else byte for byte.
#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "files/document.h"
#include "files/dotted_key.h"

namespace spanloom {

struct NewValue {
  std::string key;
  std::vector<std::string> entries;
  bool list = true;  ///< in [ ], over several lines if it is too long for one; else the one entry alone
};

class RigText {
 public:
  /// @throws FileError where it is no TOML; so does every change that would leave none
  RigText(std::string_view text, std::string file);

  const Value& document() const { return document_; }
  std::string text() const { return mark_ + text_; }

  /// What a table holds under the first of some keys that it has, or null.
  const Value* find(const TablePath& table, const std::vector<std::string>& keys) const;

  /// Writes a value in place of the one that a table holds under the first of some keys that it has. Comments inside a list
  /// that goes move to lines of their own above.
  /// @throws FileError where it has none of them, or not as key = value
  void replace(const TablePath& table, const std::vector<std::string>& keys, const NewValue& value);

  /// Writes a value under a key that the file does not hold: in the braces of its table, or on a line behind the last entry
  /// of its table and the comments that follow that closely, or in a new table at the end of the file.
  /// @param source  of the value, on one line
  void add(const DottedKey& key, const std::string& source);

  [[noreturn]] void refuse(Place place, const std::string& key, const std::string& expected) const;

 private:
  struct Entry {
    std::size_t key, key_end, value, value_end;  // bytes
  };

  Entry entry_of(const Value& value, const std::string& path) const;
  /// Where the braces of a table open, if it is written in braces.
  std::optional<std::size_t> braces_around(const Value& table) const;
  bool has_head(const Value& table, std::size_t depth) const;
  void add_in_braces(std::size_t open, const std::string& entry);
  void add_line(std::size_t at, const std::string& line);
  void add_beside_dotted(const Value& table, const std::string& path, const std::string& entry);
  void add_table(const DottedKey& key, const std::string& source);
  void read_anew() { document_ = parse_document(text_, file_); }

  std::string text_;
  std::string mark_;  // byte order mark
  std::string file_;
  std::string line_end_;
  Value document_;
};

/// The document without some keys of a table, and without the tables that are then empty.
Value without(Value document, const TablePath& table, const std::vector<std::string>& keys);

bool reads_the_same(const Value& a, const Value& b);

/// @throws FileError with what is wrong with a rig file, side files not opened and left aside
void demand_rig(const std::string& text, const std::string& file);

}  // namespace spanloom
