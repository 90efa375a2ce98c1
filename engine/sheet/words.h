// Text as letters and words fit to be shown, and the breaking of lines.
#pragma once

#include <functional>
#include <string>
#include <string_view>
#include <vector>

#include "base/utf8.h"

namespace spanloom {

/// The letters of a UTF-8 text. Broken bytes and control characters become U+FFFD, since neither SVG
/// nor a terminal may be given them; tabs and line ends become spaces.
std::u32string code_points(std::string_view utf8_text);

/// Breaks a text at its spaces into lines that `fits` accepts; a word that fits on no line is cut.
/// @return at least one line
std::vector<std::string> wrap_words(std::string_view text,
                                    const std::function<bool(std::string_view)>& fits);

/// "1 tape", "2 tapes".
std::string count_text(long long count, std::string_view one, std::string_view many);

}  // namespace spanloom
