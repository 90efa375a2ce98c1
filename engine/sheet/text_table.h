// Plain text for terminals: words and tables that never run wider than 80 columns.
#pragma once

#include <string>
#include <string_view>
#include <vector>

namespace spanloom {

inline constexpr int kTextColumns = 80;

/// Columns a text takes on a terminal; letters of the full-width scripts take two.
int column_count(std::string_view text);

/// The text, or as much of it as fits with "..." behind.
std::string fit_columns(std::string_view text, int columns);

/// The text in lines of at most `kTextColumns`, each with `indent` spaces before it.
std::vector<std::string> wrap_columns(std::string_view text, int indent = 0);

/// A table whose columns are as wide as they need to be: the first, words, is set left and shortened
/// when the table would grow too wide; the others, numbers, are set right and never shortened.
class TextTable {
 public:
  explicit TextTable(std::vector<std::string> heads) : rows_{std::move(heads)} {}
  /// @param cells  as many as heads, or one more: a remark behind the row
  void add(std::vector<std::string> cells) { rows_.push_back(std::move(cells)); }
  std::vector<std::string> lines() const;

 private:
  std::vector<std::vector<std::string>> rows_;
};

/// A report as it grows, line by line.
class PlainText {
 public:
  void add_line(std::string_view line);
  void add_words(std::string_view words, int indent = 0);
  /// Words behind a head of their own, further lines under the words.
  /// @param indent  columns left to the head; a longer head takes what it needs
  void add_labelled(std::string_view head, std::string_view words, int indent);
  void add_heading(std::string_view heading);
  void add_table(const TextTable& table);
  /// A heading and its entries, each with a dash; nothing if there are none.
  void add_list(std::string_view heading, const std::vector<std::string>& entries);
  const std::string& text() const { return out_; }

 private:
  std::string out_;
};

}  // namespace spanloom
