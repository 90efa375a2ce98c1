// Curve and ground tables from CSV: a strict reader that tells every bad cell with its place.
//
//   # comments and empty lines may stand anywhere
//   distance [m],height [m]
//   0,-0.4
//
// The header names each column and its unit; columns may stand in any order. Cells are bare decimal
// numbers with a point, separated by commas.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "files/file_error.h"
#include "rig/rig.h"
#include "webbing/stretch_curve.h"

namespace spanloom {

/// Rows of a CSV file and where they stand.
template <class Row>
struct CsvRows {
  std::vector<Row> rows;
  std::vector<Place> places;  ///< of each row's first cell
};

/// Columns "tension" (force) and "stretch" (share). Problems go to `findings`, under `key`.
CsvRows<CurvePoint> read_curve_csv(std::string_view text, const std::string& file,
                                   const std::string& key, Findings& findings);

/// Columns "distance" and "height" (lengths).
CsvRows<GroundPoint> read_ground_csv(std::string_view text, const std::string& file,
                                     const std::string& key, Findings& findings);

}  // namespace spanloom
