// Handbook webbings: whatever is computed with one is never ok.
#pragma once

#include "checks/verdicts.h"
#include "rig/rig.h"

namespace spanloom {

/// Which webbings pull on what a check judges.
enum class Pulling { line, line_and_leash };

/// Enters every generic webbing (`generic = true`) that is rigged among what the check assumes.
void add_generic_webbings(const Rig& rig, Pulling pulling, Check& check);

}  // namespace spanloom
