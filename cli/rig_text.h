// A rig as a crew reads it on a terminal.
#pragma once

#include <string>

#include "rig/rig.h"
#include "base/quantity_text.h"

namespace spanloom {

/// What a rig file was understood to say: every value with its unit, our defaults marked, and what
/// was not stated. At most 80 columns as long as names are of ordinary length.
std::string rig_text(const Rig& rig, UnitSystem units);

}  // namespace spanloom
