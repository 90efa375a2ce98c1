// What every JSON result has in common: its head, and numbers that are numbers.
#pragma once

#include <nlohmann/json.hpp>
#include <optional>
#include <string>

namespace spanloom {

using Json = nlohmann::ordered_json;

/// JSON has no NaN and would turn it into null silently; here it is a bug.
double finite(double value);

/// Null where there is no number.
Json optional(const std::optional<double>& value);

/// Format, version, title and cautions, which every document starts with.
/// @param number  of the format; grows when a key changes its meaning
Json document_head(const char* format, int number, const std::string& title);

/// Indented, ending with a line end.
std::string text_of(const Json& document);

}  // namespace spanloom
