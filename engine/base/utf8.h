// UTF-8 in and out: letters, columns counted in characters, broken bytes found.
#pragma once

#include <cstddef>
#include <string>
#include <string_view>

namespace spanloom {

/// What the bytes at one place of a text hold.
struct Utf8Character {
  char32_t code = 0;       ///< means nothing where `whole` is false
  std::size_t bytes = 1;   ///< read, the broken start of a character included; 1 to 4
  bool whole = false;      ///< false: the bytes there are not UTF-8
};

/// Reads the character that starts at `at`, a place inside the text.
/// Source: RFC 3629, table of section 4.
Utf8Character read_utf8(std::string_view text, std::size_t at);

/// Bytes of the character that starts at `at` (1 to 4); 0 if the bytes there are not UTF-8.
std::size_t utf8_character_size(std::string_view text, std::size_t at);

/// Characters in a text; each byte that is not UTF-8 counts as one.
std::size_t utf8_length(std::string_view text);

/// The text without the byte order mark that some editors put in front.
std::string_view without_byte_order_mark(std::string_view text);

/// Letters as UTF-8. @param letters  code points that Unicode has
std::string utf8(const std::u32string& letters);

}  // namespace spanloom
