// Just enough UTF-8 to count columns in characters and to keep broken bytes off the terminal.
#pragma once

#include <cstddef>
#include <string_view>

namespace spanloom {

/// Bytes of the character that starts at `at` (1 to 4); 0 if the bytes there are not UTF-8.
/// Source: RFC 3629, table of section 4.
std::size_t utf8_character_size(std::string_view text, std::size_t at);

/// Characters in a text; each byte that is not UTF-8 counts as one.
std::size_t utf8_length(std::string_view text);

/// The text without the byte order mark that some editors put in front.
std::string_view without_byte_order_mark(std::string_view text);

}  // namespace spanloom
