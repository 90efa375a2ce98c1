#include "files/rig_edit.h"

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <initializer_list>
#include <optional>
#include <string_view>
#include <utility>
#include <variant>

#include <fmt/format.h>

#include "base/input_error.h"
#include "base/utf8.h"
#include "files/document.h"
#include "files/rig_sections.h"
#include "files/rig_toml.h"
#include "files/table_reader.h"
#include "files/toml_bytes.h"
#include "rig/find_problems.h"
#include "rig/tape_layout.h"

namespace spanloom {
namespace {

constexpr std::size_t kWidestLine = 100;       // of a list [characters]
constexpr double kSamePlace = 1e-6;            // [m]
constexpr double kSameSlack = 1e-9;            // [-]
constexpr const char* kNotOpened = "side files are not opened here";

// --- What is written ---

/// A number with as many decimals as it needs. @param least, most  decimals
std::string decimal(double value, int least, int most) {
  std::string text = fmt::format("{:.{}f}", value, most);
  const std::size_t shortest = text.find('.') + 1 + static_cast<std::size_t>(least);
  while (text.size() > shortest && text.back() == '0') text.pop_back();
  if (text.starts_with('-') && text.find_first_not_of("-0.") == text.npos) text.erase(0, 1);
  return text;
}

struct NewValue {
  std::string key;
  std::vector<std::string> entries;
  bool list = true;  ///< in [ ], else the one entry alone
};

NewValue tapes_of(const std::vector<double>& positions) {
  NewValue value{"at", {}};
  for (double at : positions) value.entries.push_back('"' + decimal(at, 2, 6) + " m\"");
  return value;
}

NewValue phrase_of(const std::vector<double>& arm_spans) {
  NewValue value{"repeat", {}};
  for (double spans : arm_spans) value.entries.push_back(fmt::format("{}", spans));
  return value;
}

NewValue slack_of(const std::vector<double>& slack) {
  NewValue value{"slack", {}};
  for (double share : slack) value.entries.push_back('"' + decimal(100.0 * share, 2, 7) + " %\"");
  if (std::all_of(value.entries.begin(), value.entries.end(), [&](const auto& e) { return e == value.entries[0]; })) {
    return {"slack", {'"' + decimal(100.0 * slack[0], 1, 7) + " %\""}, false};
  }
  return value;
}

/// A value as it stands in the file, over several lines if it is too long for one.
/// @param column  where it starts, counted from 0
std::string written(const NewValue& value, std::size_t column, const std::string& indent, const std::string& line_end) {
  std::string one_line;
  for (const std::string& entry : value.entries) one_line += (one_line.empty() ? "" : ", ") + entry;
  if (!value.list) return one_line;
  if (column + one_line.size() + 2 <= kWidestLine) return '[' + one_line + ']';
  std::string text = "[", line;
  for (const std::string& entry : value.entries) {
    if (line.empty() || line.size() + entry.size() + 2 > kWidestLine) {
      text += line + line_end;
      line = indent + "  " + entry + ',';
    } else {
      line += ' ' + entry + ',';
    }
  }
  return text + line + line_end + indent + ']';
}

// --- The file ---

/// A rig file that is changed one entry at a time and read anew after each.
class RigText {
 public:
  RigText(std::string_view text, std::string file)
      : text_(without_byte_order_mark(text)), mark_(text.substr(0, text.size() - text_.size())), file_(std::move(file)),
        line_end_(text_.find("\r\n") == text_.npos ? "\n" : "\r\n"), document_(parse_document(text_, file_)) {}

  const Value& document() const { return document_; }
  std::string text() const { return mark_ + text_; }
  [[noreturn]] void refuse(Place place, const std::string& key, const std::string& expected) const;

  /// Writes a value in place of the one that a table holds under one of some keys.
  void replace(std::string_view table, std::initializer_list<std::string_view> keys, const NewValue& value);

 private:
  struct Entry {
    std::size_t key, key_end, value, value_end;  // bytes
  };

  Entry entry_of(const Value& value, const std::string& path) const;
  /// Where the braces of a table open, if it is written in braces.
  std::optional<std::size_t> braces_around(const Value& table) const;
  void read_anew() { document_ = parse_document(text_, file_); }

  std::string text_;
  std::string mark_;  // byte order mark
  std::string file_;
  std::string line_end_;
  Value document_;
};

void RigText::refuse(Place place, const std::string& key, const std::string& expected) const {
  throw FileError({{file_, place, {key, "an entry that cannot be rewritten", expected,
                                   "write it plainly, key = value on a line of its own in the table"}}});
}

RigText::Entry RigText::entry_of(const Value& value, const std::string& path) const {
  const std::size_t key = byte_at(text_, value.key_place), start = byte_at(text_, value.place);
  const bool quoted = key < text_.size() && (text_[key] == '"' || text_[key] == '\'');
  const std::size_t key_end = quoted ? past_token(text_, key) : key + value.key.size();
  const bool plain = (quoted || text_.compare(key, value.key.size(), value.key) == 0) && key_end < start &&
                     start < text_.size() && past_blanks(text_, key_end) == text_.find('=', key_end) &&
                     past_blanks(text_, text_.find('=', key_end) + 1) == start;
  if (!plain) refuse(value.key_place, path, "a key, \"=\" and a value");
  return {key, key_end, start, past_value(text_, start)};
}

std::optional<std::size_t> RigText::braces_around(const Value& table) const {
  const std::size_t at = byte_at(text_, table.place);
  return at < text_.size() && text_[at] == '{' ? std::optional(at) : std::nullopt;
}

void RigText::replace(std::string_view table_name, std::initializer_list<std::string_view> keys, const NewValue& value) {
  const Value* table = document_.find(table_name);
  const Value* old = nullptr;
  for (std::string_view key : keys) {
    if (table != nullptr && old == nullptr) old = table->find(key);
  }
  const std::string path = std::string(table_name) + '.' + value.key;
  if (old == nullptr) refuse(document_.place, path, "something to write it in place of");
  const Entry entry = entry_of(*old, std::string(table_name) + '.' + old->key);
  const std::size_t line = line_start(text_, braces_around(*table).value_or(entry.key));
  const std::string indent = indent_at(text_, line);
  std::string above;
  for (const std::string& comment : comments_in(text_, entry.value, entry.value_end)) above += indent + comment + line_end_;
  const bool renamed = old->key != value.key;
  std::string start = text_.substr(line_start(text_, entry.key), entry.value - line_start(text_, entry.key));
  if (renamed) start.replace(entry.key - line_start(text_, entry.key), entry.key_end - entry.key, value.key);

  text_.replace(entry.value, entry.value_end - entry.value, written(value, utf8_length(start), indent, line_end_));
  if (renamed) text_.replace(entry.key, entry.key_end - entry.key, value.key);
  text_.insert(line, above);
  read_anew();
}

// --- The certificate ---

/// @throws FileError with what is wrong with a rig file, side files left aside
void demand_rig(const std::string& text, const std::string& file) {
  try {
    read_rig(text, file, [](const std::string&) { return SideFile{std::nullopt, kNotOpened}; });
  } catch (const FileError& error) {
    std::vector<FileProblem> problems = error.problems();
    std::erase_if(problems, [](const FileProblem& p) { return p.problem.cure == kNotOpened; });
    if (!problems.empty()) throw FileError(std::move(problems));
  }
}

/// The document without the keys that an edit may write or rename.
Value rest_of(Value document, const std::vector<std::string>& of_spacing) {
  const std::vector<std::string> of_backup = {"slack", "drop", "length"};
  for (Value& table : document.children) {
    if (table.key != "spacing" && table.key != "backup") continue;
    const std::vector<std::string>& keys = table.key == "spacing" ? of_spacing : of_backup;
    std::erase_if(table.children, [&](const Value& v) { return std::find(keys.begin(), keys.end(), v.key) != keys.end(); });
  }
  return document;
}

bool reads_the_same(const Value& a, const Value& b) {
  if (a.kind != b.kind || a.text != b.text || a.children.size() != b.children.size()) return false;
  for (std::size_t i = 0; i < a.children.size(); ++i) {
    const Value* twin = a.kind == Value::Kind::table ? b.find(a.children[i].key) : &b.children[i];
    if (twin == nullptr || !reads_the_same(a.children[i], *twin)) return false;
  }
  return true;
}

bool near(const std::vector<double>& a, const std::vector<double>& b, double most) {
  const auto close = [most](double x, double y) { return std::abs(x - y) <= most; };
  return std::equal(a.begin(), a.end(), b.begin(), b.end(), close);
}

Spacing spacing_of(const Value& document, const std::string& file) {
  Findings findings;  // of a text that is known to be a rig: stays empty
  return read_spacing(TableReader(*document.find("spacing"), "spacing", file, findings), rig_with_defaults().spacing);
}

std::vector<double> slack_in(const Value& document, const std::string& file, std::size_t bays) {
  Findings findings;
  TableReader backup(*document.find("backup"), "backup", file, findings);
  std::vector<double> slack = backup.quantities("slack", kShare).value_or(std::vector<double>{});
  return slack.size() == 1 ? std::vector<double>(bays, slack[0]) : slack;
}

/// The rig that a layout asks for, by our defaults. @throws InputError where the layout cannot be written
Rig asked_of(const Layout& layout) {
  Rig asked = with_layout(rig_with_defaults(), layout);
  if (layout.bays.size() < 2) throw InputError("layout", "1 bay", "two bays or more, with a tape between them");
  std::vector<Problem> problems = find_problems(asked);
  // A rig of defaults lacks much; only its layout matters here.
  std::erase_if(problems, [](const Problem& p) {
    return !p.key.starts_with("spacing.at") && !p.key.starts_with("backup.slack");
  });
  if (!problems.empty()) throw InputError(std::move(problems));
  return asked;
}

/// @throws InputError unless a spacing with this phrase puts the tapes where they are asked
void demand_phrase(Spacing spacing, const std::vector<double>& phrase, const Layout& layout,
                   const std::vector<double>& positions) {
  for (double spans : phrase) {
    const bool is_bay = spans >= 0.1 && std::isfinite(spans);
    if (!is_bay) throw InputError("phrase", fmt::format("{:g} arm spans", spans), "at least 0.1 arm spans");
  }
  double length = 0.0;
  for (double bay : layout.bays) length += bay;
  spacing.pattern = RepeatArmSpans{phrase};
  if (!near(lay_out_tapes(spacing, length).at, positions, kSamePlace)) {
    throw InputError("phrase", "a phrase that puts the tapes elsewhere", "the layout repeated from the near anchor",
                     "write the places of the tapes instead");
  }
}

/// @throws FileError unless the text reads as a rig with this layout
void demand_layout(const RigText& rig, const std::string& file, const std::vector<double>& positions,
                   const std::vector<double>& slack, const std::vector<double>& phrase) {
  demand_rig(rig.text(), file);
  const Spacing spacing = spacing_of(rig.document(), file);
  const auto* tapes = std::get_if<TapesAt>(&spacing.pattern);
  const auto* repeat = std::get_if<RepeatArmSpans>(&spacing.pattern);
  const bool placed = phrase.empty() ? tapes != nullptr && near(tapes->positions, positions, kSamePlace)
                                     : repeat != nullptr && repeat->arm_spans == phrase;
  if (!placed) rig.refuse(rig.document().find("spacing")->place, "spacing", "the layout asked for");
  if (!near(slack_in(rig.document(), file, slack.size()), slack, kSameSlack)) {
    rig.refuse(rig.document().find("backup")->place, "backup", "the slack asked for");
  }
}

}  // namespace

std::string with_layout_written(const std::string& text, const std::string& file_name, const Layout& layout,
                                const std::vector<double>& phrase) {
  const Rig asked = asked_of(layout);
  const std::vector<double>& positions = std::get<TapesAt>(asked.spacing.pattern).positions;
  demand_rig(text, file_name);
  RigText rig(text, file_name);
  const std::vector<std::string> edited = {"repeat", "at", "even"};
  const Value rest = rest_of(rig.document(), edited);
  if (!phrase.empty()) demand_phrase(spacing_of(rig.document(), file_name), phrase, layout, positions);

  rig.replace("spacing", {"repeat", "at", "even"}, phrase.empty() ? tapes_of(positions) : phrase_of(phrase));
  rig.replace("backup", {"slack", "drop", "length"}, slack_of(layout.slack));

  demand_layout(rig, file_name, positions, layout.slack, phrase);
  if (!reads_the_same(rest_of(rig.document(), edited), rest)) rig.refuse({}, "", "all else as it was");
  return rig.text();
}

}  // namespace spanloom
