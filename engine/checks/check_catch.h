// The checks of a catch report: main failures and leash falls, each with a verdict a rigger can act on.
#pragma once

#include <vector>

#include "checks/verdicts.h"
#include "events/catch_report.h"
#include "rig/rig.h"

namespace spanloom {

/// All checks in a fixed order. A verdict is never ok when an input it needs is a default, when a fall gave no number,
/// or when the report is a quick look or was stopped.
/// @param units  of the sentences; values and limits are SI
std::vector<Check> judge_catch(const Rig& rig, const CatchReport& report, UnitSystem units = UnitSystem::metric);

/// Verdicts of a report that tells of falls.
struct CatchVerdicts {
  std::vector<Check> plan;           ///< judge()
  std::vector<Check> falls;          ///< judge_catch()

  /// Both, for the sheet. What the plan leaves open of the backup is left out where the falls answer it.
  std::vector<Check> all() const;
};

}  // namespace spanloom
