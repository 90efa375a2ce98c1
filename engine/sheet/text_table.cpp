#include "sheet/text_table.h"

#include <algorithm>

#include "sheet/words.h"

namespace spanloom {
namespace {

// Start of the scripts whose letters may take two columns (Hangul Jamo); everything after is counted
// so, signs of punctuation excepted, which errs on the narrow side of the line.
constexpr char32_t kFirstWide = 0x1100;

int columns_of(char32_t letter) {
  const bool punctuation = letter >= 0x2000 && letter < 0x2e80;
  return letter >= kFirstWide && !punctuation ? 2 : 1;
}

std::string padded(const std::string& text, int width, bool right) {
  const std::string spaces(static_cast<std::size_t>(std::max(0, width - column_count(text))), ' ');
  return right ? spaces + text : text + spaces;
}

}  // namespace

int column_count(std::string_view text) {
  int columns = 0;
  for (const char32_t letter : code_points(text)) columns += columns_of(letter);
  return columns;
}

std::string fit_columns(std::string_view text, int columns) {
  if (column_count(text) <= columns) return utf8(code_points(text));
  std::u32string kept;
  int used = 3;  // the dots
  for (const char32_t letter : code_points(text)) {
    used += columns_of(letter);
    if (used > columns) break;
    kept += letter;
  }
  return utf8(kept) + "...";
}

std::vector<std::string> wrap_columns(std::string_view text, int indent) {
  std::vector<std::string> lines = wrap_words(
      text, [&](std::string_view line) { return column_count(line) + indent <= kTextColumns; });
  for (std::string& line : lines) line.insert(0, static_cast<std::size_t>(indent), ' ');
  return lines;
}

std::vector<std::string> TextTable::lines() const {
  const std::size_t columns = rows_.front().size();
  std::vector<int> widths(columns, 0);
  for (const auto& row : rows_) {
    for (std::size_t i = 0; i < columns; ++i) widths[i] = std::max(widths[i], column_count(row[i]));
  }
  int numbers = 0, remark = 0;
  for (std::size_t i = 1; i < columns; ++i) numbers += widths[i];
  for (const auto& row : rows_) {
    if (row.size() > columns) remark = std::max(remark, 2 + column_count(row.back()));
  }
  // A number is never shortened: the gaps are first, then the first column.
  const int columns_after_first = static_cast<int>(columns) - 1;
  const int full = widths[0] + numbers + 2 * columns_after_first + std::min(remark, 6);
  const int gap = full <= kTextColumns ? 2 : 1;
  widths[0] = std::clamp(kTextColumns - numbers - gap * columns_after_first, 4, widths[0]);
  std::vector<std::string> out;
  for (const auto& row : rows_) {
    std::string line = padded(fit_columns(row[0], widths[0]), widths[0], false);
    for (std::size_t i = 1; i < columns; ++i) {
      line += std::string(static_cast<std::size_t>(gap), ' ') + padded(row[i], widths[i], true);
    }
    if (row.size() > columns) line += "  " + row.back();
    line = fit_columns(line, kTextColumns);
    line.erase(line.find_last_not_of(' ') + 1);
    out.push_back(line);
  }
  return out;
}

void PlainText::add_line(std::string_view line) {
  out_ += line;
  out_ += '\n';
}

void PlainText::add_words(std::string_view words, int indent) {
  for (const std::string& line : wrap_columns(words, indent)) add_line(line);
}

void PlainText::add_labelled(std::string_view head, std::string_view words, int indent) {
  const std::size_t start = out_.size();
  add_words(words, std::max(indent, static_cast<int>(head.size())));
  out_.replace(start, head.size(), head);  // into the indent
}

void PlainText::add_heading(std::string_view heading) {
  add_line("");
  add_line(heading);
  add_line(std::string(heading.size(), '-'));
}

void PlainText::add_table(const TextTable& table) {
  for (const std::string& line : table.lines()) add_line(line);
}

void PlainText::add_list(std::string_view heading, const std::vector<std::string>& entries) {
  if (entries.empty()) return;
  add_heading(heading);
  for (const std::string& words : entries) add_labelled("-", words, 2);
}

}  // namespace spanloom
