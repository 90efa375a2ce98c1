// The record in words, for terminals of 80 columns.
#pragma once

#include <string>
#include <vector>

#include "base/quantity_text.h"
#include "record/webbing_report.h"

namespace spanloom {

/// One line of what an entry says: "hung 2026-05-01 to 2026-05-03: 3 days, 18.0 h of sun; Reed 1; on rig 3".
std::string entry_words(const Entry& entry, const Record& record, UnitSystem units);

/// A webbing, its history, sums, rules and verdict.
std::string webbing_text(const WebbingReport& report, const Record& record, UnitSystem units);

/// Webbings with their verdicts, rigs and rules in one table each. @param reports  one for each webbing
std::string list_text(const std::vector<WebbingReport>& reports, const Record& record, UnitSystem units);

/// Every entry, struck ones with the reason.
std::string entries_text(const Record& record, UnitSystem units);

/// The cautions of every report, as its end.
std::string cautions_text();

}  // namespace spanloom
