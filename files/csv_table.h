// Numbers from CSV: a strict reader that tells every bad cell with its place.
//
//   # comments and empty lines may stand anywhere
//   distance [m],height [m]
//   0,-0.4
//
// The header names each column and its unit; columns may stand in any order. Cells are bare decimal
// numbers with a point, separated by commas.
#pragma once

#include <cstddef>
#include <string>
#include <string_view>
#include <vector>

#include "files/file_error.h"
#include "files/limits.h"
#include "files/units.h"

namespace spanloom {

/// Rows of a CSV file and where they stand.
template <class Row>
struct CsvRows {
  std::vector<Row> rows;
  std::vector<Place> places;  ///< of each row's first cell
};

struct CsvColumn {
  std::string name;
  Quantity quantity;
  bool may_be_absent = false;  ///< its cells are then 0
};

struct CsvLimits {
  std::size_t bytes = kLargestFile;
  std::size_t rows = kMostEntries;
};

/// Cells in SI, in the order of `wanted`. Problems go to `findings`, under `key`; a bad cell is 0.
CsvRows<std::vector<double>> read_csv_table(std::string_view text, const std::vector<CsvColumn>& wanted,
                                            const CsvLimits& limits, const std::string& file, const std::string& key,
                                            Findings& findings);

}  // namespace spanloom
