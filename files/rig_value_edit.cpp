#include "files/rig_value_edit.h"

#include <cstddef>
#include <string_view>
#include <vector>

#include "files/rig_text_edit.h"
#include "files/toml_bytes.h"

namespace spanloom {
namespace {

std::string_view trimmed(std::string_view text) {
  const std::size_t first = past_blanks(text, 0);
  return text.substr(first, text.find_last_not_of(" \t") + 1 - first);
}

/// @param at  where it is to be written
/// @throws FileError unless the source is that of one value and nothing else
Value value_of(std::string_view source, const std::string& key, const std::string& file, Place at) {
  const std::string line = "value = " + std::string(source);
  if (source.find_first_of("\r\n") == source.npos) {
    try {
      const Value document = parse_document(line, file);
      if (document.children.size() == 1 && past_value(line, line.find('=') + 2) == line.size()) return document.children[0];
    } catch (const FileError&) {
      // Said below, with the place that the rig file has for it.
    }
  }
  throw FileError({{file, at, {key, in_quotes(source), "one value: a text in quotes, such as \"4.5 kN\", or a plain number",
                               "a value with a unit stands in quotes"}}});
}

}  // namespace

std::string with_value_written(const std::string& text, const std::string& file_name, const std::string& key,
                               const std::string& value) {
  RigText rig(text, file_name);
  const DottedKey where(key, file_name);
  const TablePath table = where.table();
  const std::vector<std::string> keys = keys_like(table, where.name());
  const Value* old = rig.find(table, keys);
  const std::string source(trimmed(value));
  const Value asked = value_of(source, key, file_name, old != nullptr ? old->place : Place{});
  const Value rest = without(rig.document(), table, keys);

  if (old != nullptr) {
    rig.replace(table, keys, {where.name(), {source}, false});
  } else {
    rig.add(where, source);
  }

  demand_rig(rig.text(), file_name);
  const Value* written = rig.find(table, {where.name()});
  const bool as_asked = written != nullptr && reads_the_same(*written, asked);
  if (!as_asked) rig.refuse(written != nullptr ? written->place : Place{}, key, "the value asked for");
  if (!reads_the_same(without(rig.document(), table, keys), rest)) rig.refuse(written->place, key, "all else as it was");
  return rig.text();
}

}  // namespace spanloom
