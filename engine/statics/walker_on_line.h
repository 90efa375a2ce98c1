// One walker at any one place of a line: what a hand that moves the walker wants to know.
#pragma once

#include <optional>
#include <string>

#include "rig/rig.h"
#include "statics/equilibrium.h"
#include "statics/plan.h"

namespace spanloom {

struct WalkerOnLine {
  WalkerPlace place;
  double ankle_margin = 0.0;    ///< of the bay of the foot, taken at the foot [m]; with rings: free ones
  Shape shape;                  ///< of the line under the walker [m]
};

struct WalkerOnLineOutcome {
  std::optional<WalkerOnLine> walker;
  std::string why;              ///< in words, when `walker` is empty
};

/// Stands the walker of the rig on the line where it stands at a place of the gap axis, still air.
/// @param at  from the near anchor [m]; places on the end hardware are taken to the end of the webbing
/// @throws InputError if find_problems(rig) is not empty, or `at` is not within the gap
[[nodiscard]] WalkerOnLineOutcome walker_on_line(const Rig& rig, double at);

}  // namespace spanloom
