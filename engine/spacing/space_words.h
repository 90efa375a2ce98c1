// What a search for layouts means, in sentences.
#pragma once

#include <cstddef>
#include <string>

#include "base/quantity_text.h"
#include "rig/rig.h"

namespace spanloom {

struct SpaceReport;

/// Adds the sentences and notes of a report that is else complete.
void say(SpaceReport& report, const Rig& rig, UnitSystem units);

/// Layouts that the rules let pass and the plan did not. @param why  a sentence of one of them, may be empty
std::string left_out_words(std::size_t layouts, const std::string& why);
std::string swung_over_words(std::size_t layouts);

}  // namespace spanloom
