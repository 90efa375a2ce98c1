#include "files/key_places.h"

#include <charconv>
#include <cstddef>
#include <optional>
#include <utility>

namespace spanloom {
namespace {

/// Takes "[12]" off the front of a path.
std::optional<std::size_t> take_index(std::string_view& path) {
  const std::size_t close = path.find(']');
  if (!path.starts_with('[') || close == path.npos) return std::nullopt;
  std::size_t index = 0;
  const auto [end, fault] = std::from_chars(path.data() + 1, path.data() + close, index);
  if (fault != std::errc{} || end != path.data() + close) return std::nullopt;
  path.remove_prefix(close + 1);
  return index;
}

/// Takes the longest name that the table has off the front of a path; names may hold dots.
const Value* take_member(const Value& table, std::string_view& path) {
  std::string_view rest = path.starts_with('.') ? path.substr(1) : path;
  const Value* longest = nullptr;
  for (const Value& child : table.children) {
    if (!rest.starts_with(child.key)) continue;
    const std::string_view after = rest.substr(child.key.size());
    const bool ends = after.empty() || after[0] == '.' || after[0] == '[';
    if (ends && (longest == nullptr || child.key.size() > longest->key.size())) longest = &child;
  }
  if (longest != nullptr) path = rest.substr(longest->key.size());
  return longest;
}

const Value* take_step(const Value& value, std::string_view& path) {
  if (value.kind == Value::Kind::table) return take_member(value, path);
  if (value.kind != Value::Kind::list) return nullptr;
  std::string_view rest = path;
  const std::optional<std::size_t> index = take_index(rest);
  if (!index || *index >= value.children.size()) return nullptr;
  path = rest;
  return &value.children[*index];
}

}  // namespace

KeyPlaces::KeyPlaces(Value document, std::string file)
    : document_(std::move(document)), file_(std::move(file)) {}

void KeyPlaces::set_rows(const std::string& key, std::string file, std::vector<Place> rows) {
  rows_[key] = {std::move(file), std::move(rows)};
}

KeyPlaces::Reached KeyPlaces::reach(std::string_view key) const {
  const Value* value = &document_;
  while (!key.empty()) {
    const Value* next = take_step(*value, key);
    if (next == nullptr) break;
    value = next;
  }
  return {value, key};
}

bool KeyPlaces::holds(std::string_view key) const { return reach(key).rest.empty(); }

FileProblem KeyPlaces::locate(Problem problem) const {
  const auto written = written_.find(problem.key);
  if (written != written_.end()) problem.key = written->second;

  const std::string_view key = problem.key;
  const std::string list(key.substr(0, key.find('[')));
  const auto rows = rows_.find(list);
  if (rows != rows_.end() && key.size() > list.size()) {
    std::string_view rest = key.substr(list.size());
    const std::optional<std::size_t> row = take_index(rest);
    if (row && *row < rows->second.places.size()) {
      return {rows->second.file, rows->second.places[*row], std::move(problem)};
    }
  }
  const auto [value, rest] = reach(key);
  const bool plain = value->kind != Value::Kind::list && value->kind != Value::Kind::table;
  if (rest.empty() && plain) problem.read = value->as_read();
  return {file_, value->place, std::move(problem)};
}

}  // namespace spanloom
