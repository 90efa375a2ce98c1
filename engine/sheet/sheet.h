// The rig sheet: what the crew takes to the edge, drawn once as SVG pages.
#pragma once

#include <string>
#include <vector>

#include "checks/verdicts.h"
#include "events/catch_report.h"
#include "motion/shake_report.h"
#include "rig/rig.h"
#include "sheet/page_stack.h"
#include "statics/plan.h"

namespace spanloom {

/// A4 pages, upright, as complete SVG documents in points; safe in black and white.
/// The front page first, then what the hands need in the order in which they need it: tape list,
/// lengths and gear, checks, cautions.
/// @param checks  those of the falls too where there is a catch
/// @param shake, falls  if there is one, its block stands behind the checks
std::vector<std::string> draw_sheet(const Rig& rig, const Plan& plan, const std::vector<Check>& checks,
                                    const SheetInfo& info, const ShakeReport* shake = nullptr,
                                    const CatchReport* falls = nullptr);

}  // namespace spanloom
