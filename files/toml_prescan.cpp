#include "files/toml_prescan.h"

#include <algorithm>
#include <cctype>
#include <cstddef>

#include "base/utf8.h"

namespace spanloom {
namespace {

/// A dotted key or table head may have so many parts; the rig file needs three.
constexpr int kMostKeyParts = 8;

/// Walks over a text and knows the place it is at.
class Cursor {
 public:
  explicit Cursor(std::string_view text) : text_(text) {}

  bool at_end() const { return at_ >= text_.size(); }
  char now() const { return text_[at_]; }
  bool sees(std::string_view word) const { return text_.substr(at_, word.size()) == word; }
  Place place() const { return place_; }

  bool sees_broken_utf8() const { return utf8_character_size(text_, at_) == 0; }

  void step() {
    if (now() == '\n') {
      ++place_.line;
      place_.column = 1;
    } else {
      ++place_.column;
    }
    at_ += std::max<std::size_t>(utf8_character_size(text_, at_), 1);
  }

 private:
  std::string_view text_;
  std::size_t at_ = 0;
  Place place_;
};

/// Steps past a string that starts here, or to the end of its line if it is not closed.
void skip_string(Cursor& cursor) {
  const char quote = cursor.now();
  const std::string thrice(3, quote);
  const std::string fence = cursor.sees(thrice) ? thrice : std::string(1, quote);
  for (std::size_t i = 0; i < fence.size(); ++i) cursor.step();
  while (!cursor.at_end() && !cursor.sees(fence)) {
    if (fence.size() == 1 && cursor.now() == '\n') return;  // not closed: the parser will say so
    const bool escape = quote == '"' && cursor.now() == '\\';
    cursor.step();
    if (escape && !cursor.at_end()) cursor.step();
  }
  for (std::size_t i = 0; i < fence.size() && !cursor.at_end(); ++i) cursor.step();
}

void skip_comment(Cursor& cursor) {
  while (!cursor.at_end() && cursor.now() != '\n') cursor.step();
}

bool is_key_character(char c) {
  return std::isalnum(static_cast<unsigned char>(c)) || c == '_' || c == '-' || c == ' ' || c == '\t' ||
         c == '.';
}

}  // namespace

std::optional<PrescanFault> find_broken_utf8(std::string_view text) {
  for (Cursor cursor(text); !cursor.at_end(); cursor.step()) {
    if (!cursor.sees_broken_utf8()) continue;
    return PrescanFault{cursor.place(),
                        {"", "a byte that is not UTF-8", "a text file in UTF-8", "save it as UTF-8"}};
  }
  return std::nullopt;
}

std::optional<PrescanFault> prescan_toml(std::string_view text) {
  if (auto broken = find_broken_utf8(text)) return broken;
  Cursor cursor(text);
  int dots = 0;             // in the key that is being read; quoted parts do not end it
  char last_mark = '\0';    // last character that is neither blank nor in a comment
  while (!cursor.at_end()) {
    const char c = cursor.now();
    if (c == '#') {
      skip_comment(cursor);
      continue;
    }
    if (c == '"' || c == '\'') {
      skip_string(cursor);
      last_mark = c;
      continue;
    }
    dots = is_key_character(c) ? dots + (c == '.' ? 1 : 0) : 0;
    if (dots >= kMostKeyParts) {
      return PrescanFault{cursor.place(), {"", "a key of many parts", "keys of at most three parts", ""}};
    }
    if (c == '}' && (last_mark == ',' || last_mark == '[')) {
      return PrescanFault{cursor.place(), {"", "\"}\"", "a value", "take the comma or the brace out"}};
    }
    if (!std::isspace(static_cast<unsigned char>(c))) last_mark = c;
    cursor.step();
  }
  return std::nullopt;
}

}  // namespace spanloom
