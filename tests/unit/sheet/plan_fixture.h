// A plan made by hand, with parabolas instead of a solver, so that the sheet is tested on its own.
// Its numbers are invented and only roughly what a line of that size would do.
#pragma once

#include <string>
#include <vector>

#include "checks/verdicts.h"
#include "rig/rig.h"
#include "statics/plan.h"

namespace spanloom::fixture {

struct Shape {
  std::string title = "Heron gorge, west window (invented)";
  double gap = 62.0;             ///< [m]
  double rise = -1.5;            ///< [m]
  int bays = 18;
  double ground_depth = 24.0;    ///< deepest ground below the near anchor [m]; 0: no ground given
  double tension = 4500.0;       ///< [N]
  Joint joint = Joint::taped;
  int main_segments = 1;
};

struct Sample {
  Rig rig;
  Plan plan;
  std::vector<Check> checks;
};

Sample sample(const Shape& shape = {});

}  // namespace spanloom::fixture
