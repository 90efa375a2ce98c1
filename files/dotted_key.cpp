#include "files/dotted_key.h"

#include <algorithm>
#include <iterator>
#include <utility>

#include "files/document.h"
#include "files/toml_bytes.h"

namespace spanloom {

DottedKey::DottedKey(const std::string& written, const std::string& file) : written_(written) {
  const auto blank = [](char c) { return c == ' ' || c == '\t'; };
  while (!written_.empty() && blank(written_.back())) written_.pop_back();
  const std::string line = written_ + " = 0";
  Value document;
  try {
    document = parse_document(line, file);
  } catch (const FileError&) {
    document.children.clear();  // no key, said below
  }
  const Value* at = &document;
  for (; at->kind == Value::Kind::table && at->children.size() == 1; at = &at->children[0]) {
    parts_.push_back(at->children[0].key);
    starts_.push_back(byte_at(written_, at->children[0].key_place));
  }
  // Text of another kind may read as well: a value of its own, a comment, a second line.
  const bool key_alone = at->kind == Value::Kind::number && at->place.line == 1 && byte_at(line, at->place) + 1 == line.size();
  if (!key_alone) {
    throw FileError({{file, {}, {"", in_quotes(written), "a key, such as main.tension", "names with blanks or dots stand in quotes"}}});
  }
}

std::string DottedKey::table_written() const {
  if (parts_.size() < 2) return "";
  const std::size_t dot = written_.rfind('.', starts_.back() - 1);
  return written_.substr(0, written_.find_last_not_of(" \t", dot - 1) + 1);
}

namespace {
const TablePath kAnyWebbing = {"webbing", "*"};
}  // namespace

std::vector<std::string> keys_like(const TablePath& table, const std::string& key) {
  using Group = std::pair<TablePath, std::vector<std::string>>;
  const Group groups[] = {{{"main"}, {"tension", "natural_length"}}, {{"backup"}, {"slack", "drop", "length"}},
                          {{"spacing"}, {"repeat", "at", "even"}}, {kAnyWebbing, {"stretch", "stretch_csv"}}};
  std::vector<std::string> keys{key};
  const auto stands_in = [&](const TablePath& of) {
    return of == table || (of == kAnyWebbing && table.size() == 2 && table[0] == "webbing");
  };
  for (const auto& [of, members] : groups) {
    if (!stands_in(of) || std::find(members.begin(), members.end(), key) == members.end()) continue;
    std::copy_if(members.begin(), members.end(), std::back_inserter(keys), [&](const std::string& k) { return k != key; });
  }
  return keys;
}

}  // namespace spanloom
