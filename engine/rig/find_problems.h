// What is inconsistent about a rig.
#pragma once

#include <vector>

#include "base/input_error.h"
#include "rig/rig.h"

namespace spanloom {

/// Every inconsistency of a rig, all at once; empty if it may be planned. Keys are dotted paths of the
/// rig file: "main.segments[1].length", "webbing.river.mass", "spacing.at[3]", "anchor.near.edge".
std::vector<Problem> find_problems(const Rig& rig);

}  // namespace spanloom
