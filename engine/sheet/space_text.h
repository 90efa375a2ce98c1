// Where to tape so that a shake does not come back, as a plain report for a terminal: 80 columns, no colour.
#pragma once

#include <string>

#include "rig/rig.h"
#include "sheet/page_stack.h"
#include "spacing/space_report.h"

namespace spanloom {

/// @param rig  as it is, not as the chosen layout tapes it
/// @return lines joined with '\n', the last one included; none wider than 80 columns
std::string space_text(const Rig& rig, const SpaceReport& report, const SheetInfo& info);

}  // namespace spanloom
