// Bytes of TOML that is known to be valid: where things start and end.
#pragma once

#include <cstddef>
#include <string>
#include <string_view>
#include <vector>

#include "files/document.h"

namespace spanloom {

/// Behind the string or comment that starts here; behind one byte of anything else.
std::size_t past_token(std::string_view text, std::size_t at);
/// Behind the value, or the head of a table, that starts here.
std::size_t past_value(std::string_view text, std::size_t at);
/// Where the line of a byte starts.
std::size_t line_start(std::string_view text, std::size_t at);
/// Behind blanks and tabs.
std::size_t past_blanks(std::string_view text, std::size_t at);
/// The blanks that a line starts with.
std::string indent_at(std::string_view text, std::size_t line);
/// The byte of a line and a column, both counted from 1 in characters.
std::size_t byte_at(std::string_view text, Place place);
/// Comments in [from, to), without their line ends.
std::vector<std::string> comments_in(std::string_view text, std::size_t from, std::size_t to);

}  // namespace spanloom
