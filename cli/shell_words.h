// Words as shells read them back letter by letter.
#pragma once

#include <string>
#include <string_view>

namespace spanloom {

/// In single quotes, for bash and zsh.
std::string posix_quoted(std::string_view word);
/// With a backslash before each of `letters` and before each backslash.
std::string backslashed(std::string_view word, std::string_view letters);
/// The script with the program's name in place of each @ that is no part of "$@" or [@].
std::string with_name(std::string_view script, std::string_view name);

}  // namespace spanloom
