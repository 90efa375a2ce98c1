// Falls in words, the fall that an index of a catch report names, and what may be told of a report.
#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <vector>

#include "base/quantity_text.h"
#include "events/catch_report.h"
#include "rig/rig.h"

namespace spanloom {

/// "walker at 8.02 m, main fails at the near anchor, tapes hold"; "walker at 8.02 m steps off sideways, ring runs".
std::string event_words(const Rig& rig, const FallResult& fall, UnitSystem units);

/// "at the near anchor", "at 12.30 m (webbing)": where the main fails; empty in a leash fall.
std::string cut_words(const FallResult& fall, UnitSystem units);

/// "hold" or "tear", which is what the tapes did; "rings" where slider rings take their place.
const char* tapes_word(const Rig& rig, const FallResult& fall);

/// Whether the loose main tugs harder at the leash ring than the backup catches.
bool main_tugs(const FallResult& fall);

/// Null where there is no such fall.
const FallResult* fall_at(const std::vector<FallResult>& falls, std::size_t index);
/// Null also where nothing held the walker: then a fall has no numbers but the forces on the line.
const FallResult* held_fall_at(const std::vector<FallResult>& falls, std::size_t index);

/// Falls of a list in which nothing holds the walker.
std::size_t lost_in(const std::vector<FallResult>& falls);
/// Those of the whole search, told or not.
std::size_t lost_falls(const CatchReport& report);

/// Clear height needed [m]; empty where none was computed, where a walker is lost, or where a worse fall may not have been
/// computed yet.
std::optional<double> clear_height_told(const CatchReport& report);

}  // namespace spanloom
