// One table of a rig file, read key by key; what is wrong with it goes to the findings.
#pragma once

#include <cstddef>
#include <initializer_list>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "base/stated.h"
#include "files/document.h"
#include "files/file_error.h"
#include "files/units.h"

namespace spanloom {

/// A word of the file and what it stands for.
template <class Meaning>
using Choices = std::initializer_list<std::pair<const char*, Meaning>>;

/// Reads the keys of one table. Every reader below returns nothing, and records why, if the key
/// holds something else than was asked for; nothing without a record if it is absent. Keys that
/// nobody asked for are unknown: call refuse_unknown_keys() last.
class TableReader {
 public:
  /// @param path  of the table in the file, "main.near_end"; "" for the file itself
  TableReader(const Value& table, std::string path, std::string file, Findings& findings);

  /// The value of a key, or null.
  const Value* take(std::string_view key);
  bool has(std::string_view key) { return take(key) != nullptr; }

  std::optional<double> quantity(std::string_view key, const Wanted& wanted);
  std::optional<std::string> text(std::string_view key);
  /// A bare number, for what has no unit. @param what  "a ratio such as 3"
  std::optional<double> number(std::string_view key, std::string_view what);
  /// One quantity or a list of them, one per bay. @return at least one, or nothing
  std::optional<std::vector<double>> quantities(std::string_view key, const Wanted& wanted);
  /// A list of bare numbers.
  std::optional<std::vector<double>> numbers(std::string_view key, std::string_view what);
  /// Rows of two quantities, [["0 kN", "0 %"], ...].
  std::optional<std::vector<std::pair<double, double>>> pairs(std::string_view key, const Wanted& first,
                                                              const Wanted& second);

  template <class Meaning>
  std::optional<Meaning> choice(std::string_view key, Choices<Meaning> choices);

  /// A table inside this one, or nothing if it is absent or no table.
  std::optional<TableReader> table(std::string_view key);
  /// Every table of a list of tables, in order.
  std::vector<TableReader> tables(std::string_view key);

  /// Records that one of some keys must be there.
  void miss(std::string_view key, std::string expected, std::string cure);
  /// Records that this table has no such key, unless it has one (right or wrong).
  void require(std::string_view key, std::string expected);
  /// Records a complaint about the value of a key, or about the table if it is absent.
  void complain(std::string_view key, std::string expected, std::string cure);
  /// Of keys that exclude each other, complains about all but the first that is there.
  /// @return the first that is there, "" if none
  std::string only_one_of(std::initializer_list<std::string_view> keys);
  void refuse_unknown_keys();

  std::string path_of(std::string_view key) const;
  const std::string& path() const { return path_; }
  const Value& value() const { return *table_; }
  const std::string& file() const { return file_; }
  Findings& findings() { return *findings_; }

 private:
  std::optional<double> quantity_of(const Value& value, const std::string& path, const Wanted& wanted);
  std::optional<double> number_of(const Value& value, const std::string& path, std::string_view what);
  const Value* list_at(std::string_view key, std::string_view what, std::size_t most);
  void refuse(const Value& value, const std::string& path, std::string expected, std::string cure = "");
  void refuse_word(const Value& value, const std::string& path, std::span<const std::string> words);

  const Value* table_;
  std::string path_;
  std::string file_;
  Findings* findings_;
  std::vector<std::string> known_;
};

/// Overwrites a field, or our default in it, with what the file states, if it does.
template <class T>
void set_if_stated(T& field, const std::optional<T>& stated) {
  if (stated) field = *stated;
}
template <class T>
void set_if_stated(std::optional<T>& field, const std::optional<T>& stated) {
  if (stated) field = stated;
}
template <class T>
void set_if_stated(Stated<T>& field, const std::optional<T>& stated) {
  if (stated) field = Stated<T>::given(*stated);
}

template <class Meaning>
std::optional<Meaning> TableReader::choice(std::string_view key, Choices<Meaning> choices) {
  const Value* value = take(key);
  if (value == nullptr) return std::nullopt;
  std::vector<std::string> words;
  for (const auto& [word, meaning] : choices) {
    if (value->kind == Value::Kind::text && value->text == word) return meaning;
    words.emplace_back(word);
  }
  refuse_word(*value, path_of(key), words);
  return std::nullopt;
}

}  // namespace spanloom
