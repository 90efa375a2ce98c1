// Reads what `spanloom gauge --json` printed.
#pragma once

#include <string>

#include "record/entries.h"

namespace spanloom {

/// Tension with its uncertainty, by all readings and by each method.
/// @param file  its name, for errors
/// @throws FileError where it is no such result, or says a tension that none can be
Measured read_gauge_result(const std::string& text, const std::string& file);

}  // namespace spanloom
