// A CSV text as rows of cells; no quotes.
#pragma once

#include <sstream>
#include <string>
#include <vector>

namespace spanloom {

inline std::vector<std::vector<std::string>> cells_of(const std::string& csv) {
  std::vector<std::vector<std::string>> rows;
  std::istringstream lines(csv);
  for (std::string line; std::getline(lines, line);) {
    rows.emplace_back();
    std::istringstream cells(line);
    for (std::string cell; std::getline(cells, cell, ',');) rows.back().push_back(cell);
  }
  return rows;
}

}  // namespace spanloom
