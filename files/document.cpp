#include "files/document.h"

// In a release build toml++ tells the compiler that its assertions hold, but some bad input breaks
// them (prescan_toml() knows one). Here a broken one is an error like any other.
namespace {
struct BrokenAssumption {
  const char* assumption;
};
}  // namespace
#undef NDEBUG
#define TOML_ASSERT(condition) ((condition) ? void() : throw BrokenAssumption{#condition})
#if defined(__GNUC__) && !defined(__clang__)
#pragma GCC diagnostic push
#pragma GCC diagnostic ignored "-Wterminate"  // some assertions stand in noexcept functions
#endif
#include <toml++/toml.h>
#if defined(__GNUC__) && !defined(__clang__)
#pragma GCC diagnostic pop
#endif

#include <algorithm>
#include <cstddef>
#include <optional>
#include <utility>

#include "base/utf8.h"
#include "files/limits.h"
#include "files/toml_prescan.h"

namespace spanloom {
namespace {

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

  /// The place behind the last character.
  Place end() const {
    const int last = static_cast<int>(lines_.size());
    return {last, static_cast<int>(utf8_length(line(last))) + 1};
  }

  /// What stands between two places of one line; up to the line's end if they are on two. Asked in
  /// the order of the file, so that a long line is measured once.
  std::string between(Place from, Place to) {
    const std::string_view text = line(from.line);
    if (measured_ != from.line) measure(from.line);
    const std::size_t start = byte_of(from.column);
    const std::size_t end = to.line == from.line ? byte_of(to.column) : text.size();
    return std::string(text.substr(start, std::max(start, end) - start));
  }

 private:
  void measure(int number) {
    const std::string_view text = line(number);
    starts_.clear();
    for (std::size_t at = 0; at < text.size(); at += std::max<std::size_t>(utf8_character_size(text, at), 1)) {
      starts_.push_back(at);
    }
    starts_.push_back(text.size());
    measured_ = number;
  }

  std::size_t byte_of(int column) const {
    return starts_[std::min(static_cast<std::size_t>(column) - 1, starts_.size() - 1)];
  }

  int measured_ = 0;                 // number of the line that starts_ belongs to
  std::vector<std::size_t> starts_;  // byte of each character, and of the line's end
  std::vector<std::string_view> lines_;
};

Place place_of(const toml::source_position& position) {
  return {std::max(static_cast<int>(position.line), 1), std::max(static_cast<int>(position.column), 1)};
}

[[noreturn]] void refuse(const std::string& file, Place place, Problem problem) {
  throw FileError({{file, place, std::move(problem)}});
}

void convert(const toml::node& node, Lines& lines, Value& value);

void convert_table(const toml::table& table, Lines& lines, Value& value) {
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

void convert_list(const toml::array& array, Lines& lines, Value& value) {
  value.kind = Value::Kind::list;
  value.children.reserve(array.size());
  for (const toml::node& child : array) convert(child, lines, value.children.emplace_back());
}

void convert(const toml::node& node, Lines& lines, Value& value) {
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
  std::string why(error.description());
  // At the end of a file the parser knows no place.
  const bool ended = why.find("end-of-file") != std::string::npos;
  const Place place = ended ? lines.end() : place_of(error.source().begin);
  const std::string read = ended ? "the end of the file" : in_quotes(lines.line(place.line));
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
    case Kind::text: return in_quotes(text);
    case Kind::list: return "a list";
    case Kind::table: return "a table";
    default: break;
  }
  const std::string shown = in_quotes(text);
  return shown.substr(1, shown.size() - 2);
}

Value parse_document(std::string_view text, const std::string& file) {
  text = without_byte_order_mark(text);
  if (text.size() > kLargestFile) {
    refuse(file, {}, {"", std::to_string(text.size()) + " bytes", "a rig file of at most 1 MB",
                      "put long tables into CSV files"});
  }
  if (const std::optional<PrescanFault> fault = prescan_toml(text)) refuse(file, fault->place, fault->problem);
  Lines lines(text);
  Value document;
  try {
    convert_table(toml::parse(text, file), lines, document);
  } catch (const toml::parse_error& error) {
    refuse_syntax(error, lines, file);
  } catch (const BrokenAssumption& broken) {
    refuse(file, {}, {"", "text that the TOML reader gave up on", "valid TOML", broken.assumption});
  }
  return document;
}

}  // namespace spanloom
