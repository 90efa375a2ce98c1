// What no reading of any line can be.
#pragma once

#include <vector>

#include "base/input_error.h"
#include "gauge/readings.h"

namespace spanloom {

/// @return every problem with its key, "pulse[0].times[1]", as gauge() names it; empty if there is none
std::vector<Problem> problems_of(const Readings& readings);

}  // namespace spanloom
