#include "files/rig_text_edit.h"

#include <algorithm>
#include <utility>

#include "base/utf8.h"
#include "files/rig_toml.h"
#include "files/toml_bytes.h"

namespace spanloom {
namespace {

constexpr std::size_t kWidestLine = 100;       // of a list [characters]
constexpr const char* kNotOpened = "side files are not opened here";

/// A value as it stands in the file.
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

std::string joined(const TablePath& path) {
  std::string text;
  for (const std::string& part : path) text += (text.empty() ? "" : ".") + part;
  return text;
}

std::string path_of(const TablePath& table, const std::string& key) { return table.empty() ? key : joined(table) + '.' + key; }

std::size_t next_line(std::string_view text, std::size_t at) { return std::min(text.find('\n', at), text.size() - 1) + 1; }

bool is_line_end(char c) { return c == '\n' || c == '\r'; }

/// Behind the line on which an entry ends.
std::size_t past_entry(std::string_view text, std::size_t at) {
  while (at < text.size() && text[at] != '=') at = past_token(text, at);
  at = past_value(text, past_blanks(text, std::min(at + 1, text.size())));
  return at < text.size() ? next_line(text, at) : at;
}

struct SectionEnd {
  std::size_t at;           ///< behind its last entry and the comments that follow closely
  std::size_t last_entry;   ///< where the line of its last entry starts; its own start if it has none
};

/// @param start  where the entries of a table start: behind the line of its head
SectionEnd end_of_section(std::string_view text, std::size_t start) {
  SectionEnd end{start, start};
  std::size_t comments = start;  // behind those that follow the last entry closely
  bool close = true;
  for (std::size_t at = start; at < text.size();) {
    const std::size_t first = past_blanks(text, at);
    const char c = first < text.size() ? text[first] : '\n';
    if (c == '[') {
      if (close) comments = end.at;  // they belong to this head
      break;
    }
    if (c == '#' || is_line_end(c)) {
      close = close && c == '#';
      at = next_line(text, at);
      if (close) comments = at;
      continue;
    }
    const std::size_t past = past_entry(text, first);
    end = {past, at};
    comments = at = past;
    close = true;
  }
  end.at = comments;
  return end;
}

void take_out(Value& table, std::size_t part, const TablePath& path, const std::vector<std::string>& keys) {
  if (part == path.size()) {
    std::erase_if(table.children, [&](const Value& v) { return std::find(keys.begin(), keys.end(), v.key) != keys.end(); });
    return;
  }
  for (Value& child : table.children) {
    if (child.key == path[part] && child.kind == Value::Kind::table) take_out(child, part + 1, path, keys);
  }
  std::erase_if(table.children, [&](const Value& v) {
    return v.key == path[part] && v.kind == Value::Kind::table && v.children.empty();
  });
}

}  // namespace

// --- The text ---

RigText::RigText(std::string_view text, std::string file)
    : text_(without_byte_order_mark(text)), mark_(text.substr(0, text.size() - text_.size())), file_(std::move(file)),
      line_end_(text_.find("\r\n") == text_.npos ? "\n" : "\r\n"), document_(parse_document(text_, file_)) {}

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

const Value* RigText::find(const TablePath& table, const std::vector<std::string>& keys) const {
  const Value* at = &document_;
  for (const std::string& part : table) {
    at = at->find(part);
    if (at == nullptr || at->kind != Value::Kind::table) return nullptr;
  }
  for (const std::string& key : keys) {
    if (const Value* value = at->find(key)) return value;
  }
  return nullptr;
}

void RigText::replace(const TablePath& path, const std::vector<std::string>& keys, const NewValue& value) {
  const Value* old = find(path, keys);
  if (old == nullptr) refuse(document_.place, path_of(path, value.key), "something to write it in place of");
  const Entry entry = entry_of(*old, path_of(path, old->key));
  std::size_t first = entry.key;
  for (std::size_t parts = path.size(); parts > 0; --parts) {
    const Value& table = *find({path.begin(), path.begin() + std::ptrdiff_t(parts) - 1}, {path[parts - 1]});
    first = braces_around(table).value_or(first);
  }
  const std::size_t line = line_start(text_, first);
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

void RigText::add(const DottedKey& key, const std::string& source) {
  const Value* table = &document_;
  std::size_t depth = 0, outside = 0;
  std::optional<std::size_t> braces;
  for (; depth + 1 < key.parts().size(); ++depth) {
    const Value* next = table->find(key.parts()[depth]);
    if (next == nullptr) break;
    if (next->kind != Value::Kind::table) {
      throw FileError({{file_, next->place, {joined({key.parts().begin(), key.parts().begin() + std::ptrdiff_t(depth) + 1}),
                                             next->as_read(), "a table, to write " + key.written() + " in", ""}}});
    }
    table = next;
    if (const auto open = braces_around(*table)) braces = open, outside = depth + 1;
  }
  const std::string entry = key.from_part(depth) + " = " + source;
  const bool whole = depth + 1 == key.parts().size();
  if (braces) {
    add_in_braces(*braces, key.from_part(outside) + " = " + source);
  } else if (depth == 0 && whole) {
    add_line(0, entry);
  } else if (depth == 0) {
    add_table(key, source);
  } else if (text_[byte_at(text_, table->place)] != '[') {
    add_beside_dotted(*table, joined(key.table()), entry);
  } else if (whole && has_head(*table, depth)) {
    add_line(next_line(text_, byte_at(text_, table->place)), entry);
  } else {
    add_table(key, source);
  }
  read_anew();
}

/// A table may be there only because [it.another] has a head.
bool RigText::has_head(const Value& table, std::size_t depth) const {
  const std::size_t at = byte_at(text_, table.place);
  const Value head = parse_document(std::string_view(text_).substr(at, past_value(text_, at) - at), file_);
  std::size_t parts = 0;
  for (const Value* part = &head; !part->children.empty(); part = &part->children[0]) ++parts;
  return parts == depth;
}

void RigText::add_in_braces(std::size_t open, const std::string& entry) {
  const std::size_t close = past_value(text_, open) - 1, last = text_.find_last_not_of(" \t", close - 1);
  if (last == open) {
    text_.replace(open + 1, close - open - 1, ' ' + entry + ' ');
  } else {
    text_.insert(last + 1, ", " + entry);
  }
}

/// @param at  where the entries of its table start
void RigText::add_line(std::size_t at, const std::string& line) {
  const SectionEnd end = end_of_section(text_, at);
  std::string added = indent_at(text_, end.last_entry);
  if (end.last_entry == end.at) added.clear();
  added += line;
  const bool open = end.at > 0 && text_[end.at - 1] != '\n';
  text_.insert(end.at, open ? line_end_ + added : added + line_end_);
}

void RigText::add_beside_dotted(const Value& table, const std::string& path, const std::string& entry) {
  for (auto child = table.children.rbegin(); child != table.children.rend(); ++child) {
    if (child->kind == Value::Kind::table && !braces_around(*child)) continue;
    const Entry last = entry_of(*child, path + '.' + child->key);
    const std::size_t line = line_start(text_, last.key);
    const std::string added = text_.substr(line, last.key - line) + entry;
    if (text_.find('\n', last.value_end) == text_.npos) {
      text_ += line_end_ + added;
    } else {
      text_.insert(next_line(text_, last.value_end), added + line_end_);
    }
    return;
  }
  refuse(table.key_place, path, "an entry to write it beside");
}

void RigText::add_table(const DottedKey& key, const std::string& source) {
  if (!text_.empty() && text_.back() != '\n') text_ += line_end_;
  if (!text_.empty()) text_ += line_end_;
  text_ += '[' + key.table_written() + ']' + line_end_ + key.from_part(key.parts().size() - 1) + " = " + source + line_end_;
}

// --- The certificate ---

Value without(Value document, const TablePath& table, const std::vector<std::string>& keys) {
  take_out(document, 0, table, keys);
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

void demand_rig(const std::string& text, const std::string& file) {
  try {
    read_rig(text, file, [](const std::string&) { return SideFile{std::nullopt, kNotOpened}; });
  } catch (const FileError& error) {
    std::vector<FileProblem> problems = error.problems();
    std::erase_if(problems, [](const FileProblem& p) { return p.problem.cure == kNotOpened; });
    if (!problems.empty()) throw FileError(std::move(problems));
  }
}

}  // namespace spanloom
