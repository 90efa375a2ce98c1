// The line as it hangs as JSON: SI throughout.
#pragma once

#include <string>

#include "gauge/gauge.h"
#include "rig/rig.h"

namespace spanloom {

/// One document, indented, ending with a line end.
/// @param rig  as planned
std::string gauge_json(const Rig& rig, const Readings& readings, const GaugeReport& report);

}  // namespace spanloom
