#include "files/document.h"

#include <toml++/toml.h>

#include <algorithm>
#include <cctype>
#include <cstddef>
#include <optional>
#include <utility>

#include "files/limits.h"
#include "files/utf8.h"

namespace spanloom {
namespace {

/// A dotted key or table head may have so many parts; the rig file needs three.
constexpr int kMostKeyParts = 8;

/// The lines of a file, to show what is written at a place.
class Lines {
 public:
  explicit Lines(std::string_view text) {
    for (std::size_t start = 0; start <= text.size();) {
      const std::size_t end = std::min(text.find('\n', start), text.size());
      lines_.push_back(text.substr(start, end - start));
      start = end + 1;
    }
  }

  std::string_view line(int number) const {
    const bool exists = number >= 1 && static_cast<std::size_t>(number) <= lines_.size();
    std::string_view text = exists ? lines_[static_cast<std::size_t>(number) - 1] : "";
    if (text.ends_with('\r')) text.remove_suffix(1);
    return text;
  }

  /// What stands between two places of one line; up to the line's end if they are on two.
  std::string between(Place from, Place to) const {
    const std::string_view text = line(from.line);
    const std::size_t start = byte_of(text, from.column);
    const std::size_t end = to.line == from.line ? byte_of(text, to.column) : text.size();
    return std::string(text.substr(start, std::max(start, end) - start));
  }

 private:
  static std::size_t byte_of(std::string_view text, int column) {
    std::size_t at = 0;
    for (int i = 1; i < column && at < text.size(); ++i) {
      at += std::max<std::size_t>(utf8_character_size(text, at), 1);
    }
    return at;
  }

  std::vector<std::string_view> lines_;
};

Place place_of(const toml::source_position& position) {
  return {std::max(static_cast<int>(position.line), 1), std::max(static_cast<int>(position.column), 1)};
}

[[noreturn]] void refuse(const std::string& file, Place place, Problem problem) {
  throw FileError({{file, place, std::move(problem)}});
}

/// Finds dotted keys with so many parts that the tree they make would be too deep to walk. Strings
/// and comments are skipped; a quoted part of a key does not end the key.
std::optional<Place> too_many_key_parts(std::string_view text) {
  int dots = 0;
  Place place;
  const auto step = [&place](char c) {
    if (c == '\n') {
      ++place.line;
      place.column = 0;
    }
    ++place.column;
  };
  for (std::size_t at = 0; at < text.size(); ++at) {
    const char c = text[at];
    if (c == '"' || c == '\'') {
      const std::string fence(text.substr(at, 3) == std::string(3, c) ? 3 : 1, c);
      step(c);
      for (++at; at < text.size() && text.substr(at, fence.size()) != fence; ++at) {
        if (fence.size() == 1 && text[at] == '\n') break;  // not closed: the parser will say so
        step(text[at]);
        if (c == '"' && text[at] == '\\' && at + 1 < text.size()) step(text[++at]);
      }
      if (at < text.size()) step(text[at]);
      at += fence.size() - 1;
      continue;
    }
    if (c == '#') {
      at = std::min(text.find('\n', at), text.size()) - 1;
      dots = 0;
      continue;
    }
    const bool in_key = std::isalnum(static_cast<unsigned char>(c)) || c == '_' || c == '-' || c == ' ' ||
                        c == '\t' || c == '.';
    dots = !in_key ? 0 : dots + (c == '.' ? 1 : 0);
    if (dots >= kMostKeyParts) return place;
    step(c);
  }
  return std::nullopt;
}

void convert(const toml::node& node, const Lines& lines, Value& value);

void convert_table(const toml::table& table, const Lines& lines, Value& value) {
  value.kind = Value::Kind::table;
  value.children.reserve(table.size());
  for (const auto& [key, child] : table) {
    Value& member = value.children.emplace_back();
    member.key = std::string(key.str());
    member.key_place = place_of(key.source().begin);
    convert(child, lines, member);
  }
  std::stable_sort(value.children.begin(), value.children.end(),
                   [](const Value& a, const Value& b) { return a.key_place < b.key_place; });
}

void convert_list(const toml::array& array, const Lines& lines, Value& value) {
  value.kind = Value::Kind::list;
  value.children.reserve(array.size());
  for (const toml::node& child : array) convert(child, lines, value.children.emplace_back());
}

void convert(const toml::node& node, const Lines& lines, Value& value) {
  value.place = place_of(node.source().begin);
  if (const toml::table* table = node.as_table()) return convert_table(*table, lines, value);
  if (const toml::array* array = node.as_array()) return convert_list(*array, lines, value);
  if (const auto* text = node.as_string()) {
    value.kind = Value::Kind::text;
    value.text = text->get();
    return;
  }
  value.text = lines.between(value.place, place_of(node.source().end));
  value.kind = Value::Kind::number;
  if (const auto* whole = node.as_integer()) {
    value.number = static_cast<double>(whole->get());
  } else if (const auto* floating = node.as_floating_point()) {
    value.number = floating->get();
  } else {
    value.kind = Value::Kind::other;
  }
}

/// The key that a message of the parser names in single quotes, "" if it names none.
std::string key_named_in(std::string_view why) {
  const auto last = why.rfind('\'');
  const auto first = last == 0 || last == why.npos ? why.npos : why.rfind('\'', last - 1);
  return first == why.npos ? "" : std::string(why.substr(first + 1, last - first - 1));
}

[[noreturn]] void refuse_syntax(const toml::parse_error& error, const Lines& lines,
                                const std::string& file) {
  const Place place = place_of(error.source().begin);
  std::string why(error.description());
  const std::string read = quoted(lines.line(place.line));
  if (why.find("redefine") != std::string::npos) {
    refuse(file, place, {key_named_in(why), read, "each key once", "keep one of the two"});
  }
  constexpr std::string_view kPrefix = "Error while ";
  if (why.starts_with(kPrefix)) why.erase(0, kPrefix.size());
  const bool value = why.find("key-value pair") != std::string::npos;
  refuse(file, place,
         {"", read, "valid TOML", value ? why + "; a value with a unit stands in quotes" : why});
}

}  // namespace

const Value* Value::find(std::string_view name) const {
  for (const Value& child : children) {
    if (child.key == name) return &child;
  }
  return nullptr;
}

std::string Value::as_read() const {
  switch (kind) {
    case Kind::text: return quoted(text);
    case Kind::list: return "a list";
    case Kind::table: return "a table";
    default: break;
  }
  const std::string shown = quoted(text);
  return shown.substr(1, shown.size() - 2);
}

Value parse_document(std::string_view text, const std::string& file) {
  text = without_byte_order_mark(text);
  if (text.size() > kLargestFile) {
    refuse(file, {}, {"", std::to_string(text.size()) + " bytes", "a rig file of at most 1 MB",
                      "put long tables into CSV files"});
  }
  if (text.starts_with("\xFF\xFE") || text.starts_with("\xFE\xFF")) {
    refuse(file, {}, {"", "UTF-16", "a text file in UTF-8", "save it as UTF-8"});
  }
  if (const std::optional<Place> place = too_many_key_parts(text)) {
    refuse(file, *place, {"", "a key of many parts", "keys of at most three parts", ""});
  }
  const Lines lines(text);
  Value document;
  try {
    convert_table(toml::parse(text, file), lines, document);
  } catch (const toml::parse_error& error) {
    refuse_syntax(error, lines, file);
  }
  return document;
}

}  // namespace spanloom
