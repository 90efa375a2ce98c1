// A TOML file as a plain tree in which everything knows its place. Keeps the TOML library, which
// compiles slowly, in one source file.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "files/file_error.h"

namespace spanloom {

struct Value {
  enum class Kind { text, number, other, list, table };

  Kind kind = Kind::table;
  Place place;                  ///< of the value
  std::string key;              ///< its name in the table that holds it, "" in a list
  Place key_place;              ///< of that name
  std::string text;             ///< text: what it says; number, other: as written in the file
  double number = 0.0;          ///< of a number; may be infinite or NaN, which TOML can write
  std::vector<Value> children;  ///< of a list or a table, in the order of the file

  /// The member of a table with this name, or null.
  const Value* find(std::string_view name) const;
  /// How to tell a reader what stands here: a quoted text, a number as written, "a list", "a table".
  std::string as_read() const;
};

/// Parses TOML. @param file  its name, for errors
/// @throws FileError at the first place where it is not TOML, names a key twice, is larger than 1 MB
/// or nests too deeply
Value parse_document(std::string_view text, const std::string& file);

}  // namespace spanloom
