// "Did you mean": the known word nearest to a mistyped one.
#pragma once

#include <span>
#include <string>
#include <string_view>

namespace spanloom {

/// The known word nearest to `word`, ignoring case and '-' for '_', if it is near enough to be a slip
/// (edits and swaps of neighbours: at most a third of the longer word, rounded up); "" if none is.
/// Distance: optimal string alignment (Damerau 1964, CACM 7(3), counts these four slips).
std::string nearest_word(std::string_view word, std::span<const std::string> known);

}  // namespace spanloom
