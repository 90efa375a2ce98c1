// Pulling a main up and letting it down, as JSON and CSV: SI throughout.
#pragma once

#include <string>
#include <vector>

#include "checks/verdicts.h"
#include "hauling/hauling_report.h"
#include "rig/rig.h"

namespace spanloom {

/// One document, indented, ending with a line end. @param options  that the report was made with
std::string hauling_json(const Rig& rig, const HaulingReport& report, const HaulingOptions& options,
                         const std::vector<Check>& checks);

/// A row a step, hand-tight first; a column of hand force for each pulley set.
std::string pull_steps_csv(const HaulingReport& report);

}  // namespace spanloom
