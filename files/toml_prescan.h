// What the TOML library must not be shown: input on which it would break its own assumptions.
#pragma once

#include <optional>
#include <string_view>

#include "base/input_error.h"
#include "files/file_error.h"

namespace spanloom {

struct PrescanFault {
  Place place;
  Problem problem;
};

/// The first byte of any text that is not UTF-8.
std::optional<PrescanFault> find_broken_utf8(std::string_view text);

/// Looks through a TOML text for bytes that are not UTF-8 and then, past strings and comments, for
/// - keys of so many dotted parts that the tree they make would be too deep to walk, and
/// - a closing brace where a value should stand, on which toml++ 3.3 asserts.
std::optional<PrescanFault> prescan_toml(std::string_view text);

}  // namespace spanloom
