// The manual as a page for `man`: troff with the macros of man(7).
#pragma once

#include <string>
#include <string_view>

#include "command_tree.h"

namespace spanloom {

/// @param version  of the program, for the foot of the page
std::string man_page(const CommandEntry& top, const std::string& version);

/// Words as troff prints them letter by letter: backslash, hyphen, quotes, other than ASCII, and a dot or quote that would
/// start a request.
std::string troff(std::string_view words);

}  // namespace spanloom
