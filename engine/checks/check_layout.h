// Checks of the loops and of where the tapes are.
#pragma once

#include <string>
#include <vector>

#include "checks/verdicts.h"

namespace spanloom {

/// How long bays commonly are. Common practice, no published source: 1 to 3 arm spans under 100 m, 2 to 4 above, about 1.5 to
/// 1.8 m on a line of 15 m (taken for lines up to 20 m); half to one arm span where tricks are done.
struct CommonPractice {
  double least = 0.0, most = 0.0;   ///< [m]
  std::string words;                ///< "1 to 3 arm spans under 100.00 m"
};
CommonPractice common_practice(double gap, double arm_span, UnitSystem units);
/// Numbers of the bays outside it, close ones judged as such.
std::vector<int> bays_outside(const CommonPractice& practice, const Plan& plan);

/// Least drop, ankle margin, backup tension, and rings free against locked.
std::vector<Check> check_loops(const Rig& rig, const Plan& plan, UnitSystem units);
/// Spacing against common practice (no published source) and tension against the measured curve.
std::vector<Check> check_practice(const Rig& rig, const Plan& plan, UnitSystem units);

}  // namespace spanloom
