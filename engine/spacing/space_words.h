// What a search for layouts means, in sentences.
#pragma once

#include <cstddef>
#include <string>

#include "base/quantity_text.h"
#include "rig/rig.h"

namespace spanloom {

struct ReturnAsTaped;
struct SpaceReport;

/// "25 %". @param share  [-]
std::string percent(double share);

/// Adds the sentences and notes of a report that is else complete.
void say(SpaceReport& report, const Rig& rig, UnitSystem units);

/// Layouts that the rules let pass and the plan did not. @param why  a sentence of one of them, may be empty
std::string left_out_words(std::size_t layouts, const std::string& why);
/// Where no layout keeps the limits by rule.
std::string none_kept_words();
/// Where fewer tapes were asked for than any layout shown has.
std::string not_so_few_words(std::size_t asked, std::size_t fewest);
/// "at most 46 %", "more than 46 % with one crew in twenty".
std::string worst_crew(const ReturnAsTaped& taped);
std::string swung_over_words(std::size_t layouts);

}  // namespace spanloom
