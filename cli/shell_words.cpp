#include "shell_words.h"

namespace spanloom {

std::string posix_quoted(std::string_view word) {
  std::string out = "'";
  for (const char letter : word) {
    if (letter == '\'') {
      out += "'\\''";
    } else {
      out += letter;
    }
  }
  return out + "'";
}

std::string backslashed(std::string_view word, std::string_view letters) {
  std::string out;
  for (const char letter : word) {
    if (letter == '\\' || letters.find(letter) != std::string_view::npos) out += '\\';
    out += letter;
  }
  return out;
}

std::string with_name(std::string_view script, std::string_view name) {
  std::string out;
  for (const char letter : script) {
    const bool own = letter == '@' && !out.ends_with('$') && !out.ends_with('[');
    own ? out += name : out += letter;
  }
  return out;
}

}  // namespace spanloom
