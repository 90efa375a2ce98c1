// How much the readers take in before they say that a file cannot be meant as a rig.
#pragma once

#include <cstddef>

namespace spanloom {

/// Largest rig or CSV file [bytes].
inline constexpr std::size_t kLargestFile = 1'000'000;

/// Most entries of a list, rows of a CSV file, bays. A 3 km line in half arm spans has about 3400.
inline constexpr std::size_t kMostEntries = 20'000;

/// Most webbings, segments of a run or connectors.
inline constexpr std::size_t kMostTables = 100;

}  // namespace spanloom
