// What every JSON result has in common: its head, and numbers that are numbers.
#pragma once

#include <nlohmann/json.hpp>
#include <optional>
#include <string>
#include <vector>

#include "base/vec3.h"
#include "checks/verdicts.h"

namespace spanloom {

using Json = nlohmann::ordered_json;

/// JSON has no NaN and would turn it into null silently; here it is a bug.
double finite(double value);

/// Null where there is no number.
Json optional(const std::optional<double>& value);

/// A list of numbers.
Json numbers_of(const std::vector<double>& values);

/// x, y, z.
Json vector_of(const Vec3& v);

/// Name, title, value (null where it is not known), limit, verdict and words of each check.
Json checks_json(const std::vector<Check>& checks);

/// Format, version, title and cautions, which every document starts with.
/// @param number  of the format; grows when a key changes its meaning
/// @param falls  whether the document tells of falls, which the cautions name
Json document_head(const char* format, int number, const std::string& title,
                   Falls falls = Falls::left_out);

/// Indented, ending with a line end.
std::string text_of(const Json& document);

}  // namespace spanloom
