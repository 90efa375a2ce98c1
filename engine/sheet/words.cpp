#include "sheet/words.h"

#include <cstddef>

namespace spanloom {
namespace {

constexpr char32_t kReplacement = 0xfffd;

// Length of the sequence that a lead byte announces and the bits it carries; 0 for a broken one.
struct Lead {
  int length;
  char32_t bits;
  char32_t least;  // smallest code that needs this length: a shorter one would be overlong
};

Lead lead_of(unsigned char byte) {
  if (byte < 0x80) return {1, byte, 0};
  if (byte >= 0xc2 && byte < 0xe0) return {2, byte & 0x1fu, 0x80};
  if (byte >= 0xe0 && byte < 0xf0) return {3, byte & 0x0fu, 0x800};
  if (byte >= 0xf0 && byte < 0xf5) return {4, byte & 0x07u, 0x10000};
  return {0, 0, 0};
}

char32_t printable(char32_t code) {
  if (code == '\t' || code == '\n' || code == '\r') return ' ';
  const bool control = code < 0x20 || (code >= 0x7f && code < 0xa0);
  const bool surrogate = code >= 0xd800 && code < 0xe000;
  const bool not_a_letter = code > 0x10ffff || (code & 0xfffe) == 0xfffe;
  return control || surrogate || not_a_letter ? kReplacement : code;
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
  std::size_t i = 0;
  while (i < text.size()) {
    const Lead lead = lead_of(static_cast<unsigned char>(text[i]));
    char32_t code = lead.bits;
    int read = 1;
    while (read < lead.length && i + read < text.size()) {
      const auto next = static_cast<unsigned char>(text[i + read]);
      if ((next & 0xc0) != 0x80) break;
      code = (code << 6) | (next & 0x3fu);
      ++read;
    }
    const bool whole = lead.length == read && code >= lead.least;
    out += whole ? printable(code) : kReplacement;
    i += static_cast<std::size_t>(read);
  }
  return out;
}

std::string utf8(const std::u32string& letters) {
  std::string out;
  out.reserve(letters.size());
  for (const char32_t c : letters) {
    const auto tail = [&](int shift) { out += static_cast<char>(0x80 | ((c >> shift) & 0x3f)); };
    if (c < 0x80) {
      out += static_cast<char>(c);
    } else if (c < 0x800) {
      out += static_cast<char>(0xc0 | (c >> 6));
      tail(0);
    } else if (c < 0x10000) {
      out += static_cast<char>(0xe0 | (c >> 12));
      tail(6);
      tail(0);
    } else {
      out += static_cast<char>(0xf0 | (c >> 18));
      tail(12);
      tail(6);
      tail(0);
    }
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
