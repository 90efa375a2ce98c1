// One fall in words, and the fall that an index of a catch report names.
#pragma once

#include <cstddef>
#include <string>
#include <vector>

#include "base/quantity_text.h"
#include "events/catch_report.h"

namespace spanloom {

/// "walker at 8.02 m, main fails at the near anchor, tapes hold"; "walker at 8.02 m, standing, steps off sideways, ring
/// runs".
std::string event_words(const FallResult& fall, UnitSystem units);

/// "at the near anchor", "at 12.30 m (webbing)": where the main fails; empty in a leash fall.
std::string cut_words(const FallResult& fall, UnitSystem units);

/// "hold" or "tear", which is what the tapes did.
const char* tapes_word(const FallResult& fall);

/// Null where there is no such fall.
const FallResult* fall_at(const std::vector<FallResult>& falls, std::size_t index);
/// Null also where nothing held the walker: then a fall has no numbers but the forces on the line.
const FallResult* held_fall_at(const std::vector<FallResult>& falls, std::size_t index);

}  // namespace spanloom
