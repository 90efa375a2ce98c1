// Curve and ground tables from CSV (files/csv_table.h).
#pragma once

#include <string>
#include <string_view>

#include "files/csv_table.h"
#include "rig/rig.h"
#include "webbing/stretch_curve.h"

namespace spanloom {

/// Columns "tension" (force) and "stretch" (share). Problems go to `findings`, under `key`.
CsvRows<CurvePoint> read_curve_csv(std::string_view text, const std::string& file,
                                   const std::string& key, Findings& findings);

/// Columns "distance" and "height" (lengths).
CsvRows<GroundPoint> read_ground_csv(std::string_view text, const std::string& file,
                                     const std::string& key, Findings& findings);

}  // namespace spanloom
