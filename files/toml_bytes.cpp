#include "files/toml_bytes.h"

#include <algorithm>

#include "base/utf8.h"

namespace spanloom {

std::size_t past_token(std::string_view text, std::size_t at) {
  const char c = text[at];
  if (c == '#') return std::min(text.find('\n', at), text.size());
  if (c != '"' && c != '\'') return at + 1;
  const std::string_view fence = text.substr(at, text.substr(at, 3) == std::string(3, c) ? 3 : 1);
  for (at += fence.size(); at < text.size() && text.substr(at, fence.size()) != fence; ++at) {
    if (c == '"' && text[at] == '\\') ++at;
  }
  at += fence.size();
  // A long string may end in one or two more quotes of its own.
  for (int i = 0; fence.size() == 3 && i < 2 && at < text.size() && text[at] == c; ++i) ++at;
  return std::min(at, text.size());
}

std::size_t past_value(std::string_view text, std::size_t at) {
  constexpr std::string_view kEnds = " \t\r\n,]}#";
  std::size_t depth = 0;
  while (at < text.size()) {
    const char c = text[at];
    if (depth == 0 && kEnds.find(c) != kEnds.npos) return at;
    if (c == '[' || c == '{') ++depth;
    if (c == ']' || c == '}') --depth;
    const bool ends = depth == 0 && (c == ']' || c == '}' || c == '"' || c == '\'');
    at = past_token(text, at);
    if (ends) return at;
  }
  return at;
}

std::size_t line_start(std::string_view text, std::size_t at) {
  return at == 0 ? 0 : text.rfind('\n', at - 1) + 1;  // npos + 1: the first line
}

std::size_t past_blanks(std::string_view text, std::size_t at) {
  return std::min(text.find_first_not_of(" \t", at), text.size());
}

std::string indent_at(std::string_view text, std::size_t line) {
  return std::string(text.substr(line, past_blanks(text, line) - line));
}

std::size_t byte_at(std::string_view text, Place place) {
  std::size_t at = 0;
  for (int line = 1; line < place.line && at < text.size(); ++line) at = std::min(text.find('\n', at), text.size() - 1) + 1;
  for (int column = 1; column < place.column && at < text.size(); ++column) {
    at += std::max<std::size_t>(utf8_character_size(text, at), 1);
  }
  return at;
}

std::vector<std::string> comments_in(std::string_view text, std::size_t from, std::size_t to) {
  std::vector<std::string> comments;
  for (std::size_t at = from; at < to;) {
    const std::size_t next = past_token(text, at);
    if (text[at] == '#') comments.emplace_back(text.substr(at, next - at - (text[next - 1] == '\r' ? 1 : 0)));
    at = next;
  }
  return comments;
}

}  // namespace spanloom
