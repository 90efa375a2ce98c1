// A least distance held against what is to be kept free.
#pragma once

#include <cmath>
#include <optional>
#include <string>

#include "checks/verdicts.h"

namespace spanloom {

/// The least of several distances and where it was met.
struct LeastDistance {
  double value = INFINITY;           ///< [m]
  std::string state;

  void meet(const std::optional<double>& distance, const std::string& name) {
    if (distance && *distance < value) value = *distance, state = name;
  }
  bool found() const { return std::isfinite(value); }
};

/// What a distance is called and held against.
struct DistanceLimit {
  const char* name;                  ///< of the check
  const char* title;
  Stated<double> limit;              ///< [m]
  const char* key;                   ///< of the limit in the rig file
  const char* missing;               ///< said where no distance is known
  const char* cure;                  ///< said behind a stop
};

Check distance_check(const LeastDistance& least, const DistanceLimit& against, UnitSystem units);

/// "walker.leash = 1.40 m".
std::string assumed_length(const char* key, const Stated<double>& length, UnitSystem units);
/// Enters leash and foot to hip among the assumed inputs where they are.
void add_body_lengths(const Rig& rig, Check& check, UnitSystem units);

}  // namespace spanloom
