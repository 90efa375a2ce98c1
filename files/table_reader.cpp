#include "files/table_reader.h"

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <variant>

#include "files/limits.h"
#include "files/suggest.h"

namespace spanloom {
namespace {

std::string at_index(const std::string& path, std::size_t index) {
  return path + '[' + std::to_string(index) + ']';
}

std::string listed(std::span<const std::string> words) {
  std::string text;
  for (std::size_t i = 0; i < words.size(); ++i) {
    if (i > 0) text += i + 1 == words.size() ? " or " : ", ";
    text += '"' + words[i] + '"';
  }
  return text;
}

std::string did_you_mean(std::string_view word, std::span<const std::string> known) {
  const std::string nearest = nearest_word(word, known);
  return nearest.empty() ? "" : "did you mean \"" + nearest + "\"?";
}

}  // namespace

TableReader::TableReader(const Value& table, std::string path, std::string file, Findings& findings)
    : table_(&table), path_(std::move(path)), file_(std::move(file)), findings_(&findings) {}

std::string TableReader::path_of(std::string_view key) const {
  return path_.empty() ? std::string(key) : path_ + '.' + std::string(key);
}

const Value* TableReader::take(std::string_view key) {
  if (std::find(known_.begin(), known_.end(), key) == known_.end()) known_.emplace_back(key);
  return table_->find(key);
}

void TableReader::refuse(const Value& value, const std::string& path, std::string expected,
                         std::string cure) {
  findings_->add(file_, value.place, {path, value.as_read(), std::move(expected), std::move(cure)});
}

void TableReader::refuse_word(const Value& value, const std::string& path,
                              std::span<const std::string> words) {
  refuse(value, path, listed(words), did_you_mean(value.text, words));
}

void TableReader::miss(std::string_view key, std::string expected, std::string cure) {
  findings_->add(file_, table_->place, {path_of(key), "nothing", std::move(expected), std::move(cure)});
}

void TableReader::require(std::string_view key, std::string expected) {
  if (!has(key)) miss(key, std::move(expected), "add the key");
}

void TableReader::complain(std::string_view key, std::string expected, std::string cure) {
  const Value* value = take(key);
  if (value == nullptr) return miss(key, std::move(expected), std::move(cure));
  refuse(*value, path_of(key), std::move(expected), std::move(cure));
}

std::optional<double> TableReader::quantity_of(const Value& value, const std::string& path,
                                               const Wanted& wanted) {
  if (value.kind != Value::Kind::text) {
    const bool number = value.kind == Value::Kind::number;
    refuse(value, path, expectation(wanted, number ? value.text : ""),
           number ? "a value with a unit stands in quotes" : "");
    return std::nullopt;
  }
  const std::variant<double, QuantityFault> parsed = parse_quantity(value.text, wanted);
  if (const double* si = std::get_if<double>(&parsed)) return *si;
  const auto& fault = std::get<QuantityFault>(parsed);
  refuse(value, path, fault.expected, fault.cure);
  return std::nullopt;
}

std::optional<double> TableReader::quantity(std::string_view key, const Wanted& wanted) {
  const Value* value = take(key);
  return value ? quantity_of(*value, path_of(key), wanted) : std::nullopt;
}

std::optional<std::string> TableReader::text(std::string_view key) {
  const Value* value = take(key);
  if (value == nullptr) return std::nullopt;
  if (value->kind == Value::Kind::text) return value->text;
  refuse(*value, path_of(key), "a text in quotes");
  return std::nullopt;
}

std::optional<double> TableReader::number_of(const Value& value, const std::string& path,
                                             std::string_view what) {
  if (value.kind == Value::Kind::number && std::isfinite(value.number)) return value.number;
  const bool quoted_number = value.kind == Value::Kind::text && parse_number(value.text);
  refuse(value, path, std::string(what), quoted_number ? "take the quotes away" : "");
  return std::nullopt;
}

std::optional<double> TableReader::number(std::string_view key, std::string_view what) {
  const Value* value = take(key);
  return value ? number_of(*value, path_of(key), what) : std::nullopt;
}

const Value* TableReader::list_at(std::string_view key, std::string_view what, std::size_t most) {
  const Value* value = take(key);
  if (value == nullptr) return nullptr;
  if (value->kind != Value::Kind::list) {
    refuse(*value, path_of(key), "a list of " + std::string(what), "put it into [ ]");
    return nullptr;
  }
  const std::size_t count = value->children.size();
  if (count > 0 && count <= most) return value;
  findings_->add(file_, value->place,
                 {path_of(key), "a list of " + std::to_string(count) + " entries",
                  "1 to " + std::to_string(most) + " entries", ""});
  return nullptr;
}

std::optional<std::vector<double>> TableReader::quantities(std::string_view key, const Wanted& wanted) {
  const Value* value = take(key);
  if (value == nullptr) return std::nullopt;
  const std::string path = path_of(key);
  std::vector<double> all;
  if (value->kind != Value::Kind::list) {
    if (const auto one = quantity_of(*value, path, wanted)) all.push_back(*one);
    return all.empty() ? std::nullopt : std::optional(std::move(all));
  }
  const Value* list = list_at(key, "quantities", kMostEntries);
  if (list == nullptr) return std::nullopt;
  for (std::size_t i = 0; i < list->children.size(); ++i) {
    if (const auto one = quantity_of(list->children[i], at_index(path, i), wanted)) all.push_back(*one);
  }
  return all.size() == list->children.size() ? std::optional(std::move(all)) : std::nullopt;
}

std::optional<std::vector<double>> TableReader::numbers(std::string_view key, std::string_view what) {
  const Value* list = list_at(key, "numbers", kMostEntries);
  if (list == nullptr) return std::nullopt;
  std::vector<double> all;
  for (std::size_t i = 0; i < list->children.size(); ++i) {
    if (const auto one = number_of(list->children[i], at_index(path_of(key), i), what)) {
      all.push_back(*one);
    }
  }
  return all.size() == list->children.size() ? std::optional(std::move(all)) : std::nullopt;
}

std::optional<std::vector<std::pair<double, double>>> TableReader::pairs(std::string_view key,
                                                                         const Wanted& first,
                                                                         const Wanted& second) {
  const Value* list = list_at(key, "rows", kMostEntries);
  if (list == nullptr) return std::nullopt;
  std::vector<std::pair<double, double>> rows;
  for (std::size_t i = 0; i < list->children.size(); ++i) {
    const Value& row = list->children[i];
    const std::string path = at_index(path_of(key), i);
    if (row.kind != Value::Kind::list || row.children.size() != 2) {
      refuse(row, path, "a row of two values in [ ]: " + expectation(first) + ", and " + expectation(second));
      continue;
    }
    const auto a = quantity_of(row.children[0], at_index(path, 0), first);
    const auto b = quantity_of(row.children[1], at_index(path, 1), second);
    if (a && b) rows.emplace_back(*a, *b);
  }
  return rows.size() == list->children.size() ? std::optional(std::move(rows)) : std::nullopt;
}

std::optional<TableReader> TableReader::table(std::string_view key) {
  const Value* value = take(key);
  if (value == nullptr) return std::nullopt;
  if (value->kind == Value::Kind::table) return TableReader(*value, path_of(key), file_, *findings_);
  refuse(*value, path_of(key), "a table, { key = value, ... } or [" + path_of(key) + "]");
  return std::nullopt;
}

std::vector<TableReader> TableReader::tables(std::string_view key) {
  std::vector<TableReader> readers;
  const Value* list = list_at(key, "tables", kMostTables);
  if (list == nullptr) return readers;
  for (std::size_t i = 0; i < list->children.size(); ++i) {
    const Value& child = list->children[i];
    const std::string path = at_index(path_of(key), i);
    if (child.kind == Value::Kind::table) {
      readers.emplace_back(child, path, file_, *findings_);
    } else {
      refuse(child, path, "a table, { key = value, ... }");
    }
  }
  return readers;
}

std::string TableReader::only_one_of(std::initializer_list<std::string_view> keys) {
  std::string first;
  for (const std::string_view key : keys) {
    if (!has(key)) continue;
    if (first.empty()) {
      first = key;
    } else {
      complain(key, '"' + first + "\" or \"" + std::string(key) + "\", not both", "take one of the two out");
    }
  }
  return first;
}

void TableReader::refuse_unknown_keys() {
  for (const Value& child : table_->children) {
    if (std::find(known_.begin(), known_.end(), child.key) != known_.end()) continue;
    std::string cure = did_you_mean(child.key, known_);
    if (cure.empty()) {
      cure = "the keys here are ";
      for (std::size_t i = 0; i < known_.size(); ++i) cure += (i > 0 ? ", " : "") + known_[i];
    }
    findings_->add(file_, child.key_place,
                   {path_of(child.key), in_quotes(child.key), "a known key", std::move(cure)});
  }
}

}  // namespace spanloom
