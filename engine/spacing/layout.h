// A layout: where the tapes go and how much backup hangs in every bay.
#pragma once

#include <vector>

#include "rig/rig.h"
#include "statics/plan.h"

namespace spanloom {

struct Layout {
  std::vector<double> bays;    ///< natural length of main in each, end hardware not counted [m], > 0
  std::vector<double> slack;   ///< of each bay [-]

  bool operator==(const Layout&) const = default;
};

/// Natural length of the main between its end hardware [m].
double main_length_of(const Plan& plan);

/// The layout of a planned rig.
Layout layout_of(const Plan& plan);

/// The rig taped so: its spacing at given places, its backup with a share of slack for every bay, all else as it was; its
/// close bays say where tricks are done.
/// @throws InputError "layout" where the numbers of bays and slacks differ or a bay is not above 0
Rig with_layout(const Rig& rig, const Layout& layout);

}  // namespace spanloom
