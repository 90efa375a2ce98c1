// Where the keys of a rig stand in its files.
#pragma once

#include <map>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "base/input_error.h"
#include "files/document.h"
#include "files/file_error.h"

namespace spanloom {

/// Turns the keys that the engine complains about into file, line and column.
class KeyPlaces {
 public:
  KeyPlaces(Value document, std::string file);

  const Value& document() const { return document_; }
  const std::string& file() const { return file_; }

  /// Says that the entries of a list, "site.ground", are rows of a CSV file.
  void set_rows(const std::string& key, std::string file, std::vector<Place> rows);

  /// Says that what the engine calls `key` is written under another one.
  void set_written_key(const std::string& key, std::string written) { written_[key] = std::move(written); }

  /// True if the file holds a value under this very key.
  bool holds(std::string_view key) const;

  /// The place of a problem's key, or of the innermost thing around it that the file has. Where the
  /// file holds a plain value under the key, "read" becomes what is written there.
  FileProblem locate(Problem problem) const;

 private:
  struct Rows {
    std::string file;
    std::vector<Place> places;
  };

  struct Reached {
    const Value* value;     // the innermost that the file has on the way to a key
    std::string_view rest;  // of the key, "" if it was reached
  };
  Reached reach(std::string_view key) const;

  Value document_;
  std::string file_;
  std::map<std::string, Rows> rows_;
  std::map<std::string, std::string> written_;
};

}  // namespace spanloom
