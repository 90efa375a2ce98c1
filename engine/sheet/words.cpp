#include "sheet/words.h"

#include <cstddef>

namespace spanloom {
namespace {

constexpr char32_t kReplacement = 0xfffd;

char32_t printable(char32_t code) {
  if (code == '\t' || code == '\n' || code == '\r') return ' ';
  const bool control = code < 0x20 || (code >= 0x7f && code < 0xa0);
  const bool not_a_letter = (code & 0xfffe) == 0xfffe;
  return control || not_a_letter ? kReplacement : code;
}

std::vector<std::string> split_at_spaces(std::string_view text) {
  std::vector<std::string> words;
  std::string word;
  for (const char c : text) {
    if (c != ' ') {
      word += c;
    } else if (!word.empty()) {
      words.push_back(std::move(word));
      word.clear();
    }
  }
  if (!word.empty()) words.push_back(std::move(word));
  return words;
}

}  // namespace

std::u32string code_points(std::string_view text) {
  std::u32string out;
  out.reserve(text.size());
  for (std::size_t at = 0; at < text.size();) {
    const Utf8Character letter = read_utf8(text, at);
    out += letter.whole ? printable(letter.code) : kReplacement;
    at += letter.bytes;
  }
  return out;
}

std::vector<std::string> wrap_words(std::string_view text,
                                    const std::function<bool(std::string_view)>& fits) {
  std::vector<std::string> lines(1);
  for (const std::string& word : split_at_spaces(utf8(code_points(text)))) {
    std::string& line = lines.back();
    const std::string longer = line.empty() ? word : line + " " + word;
    if (fits(longer)) {
      line = longer;
      continue;
    }
    if (!line.empty()) lines.emplace_back();
    for (const char32_t letter : code_points(word)) {
      const std::string one = utf8(std::u32string(1, letter));
      if (!lines.back().empty() && !fits(lines.back() + one)) lines.emplace_back();
      lines.back() += one;
    }
  }
  return lines;
}

std::string count_text(long long count, std::string_view one, std::string_view many) {
  return std::to_string(count) + " " + std::string(count == 1 ? one : many);
}

}  // namespace spanloom
