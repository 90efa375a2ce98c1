// The line as it hangs, as a plain report for a terminal: 80 columns, no colour, the answer first.
#pragma once

#include <string>

#include "gauge/gauge.h"
#include "rig/rig.h"
#include "sheet/page_stack.h"

namespace spanloom {

/// What a crew needs to know about a gauged line.
/// @param rig       as planned
/// @param readings  what was read, for its title
/// @return lines joined with '\n', the last one included; none wider than 80 columns
std::string gauge_text(const Rig& rig, const Readings& readings, const GaugeReport& report, const SheetInfo& info);

}  // namespace spanloom
