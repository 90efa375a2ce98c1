// Checks with their verdicts as part of a plain report.
#pragma once

#include <vector>

#include "base/quantity_text.h"
#include "checks/verdicts.h"
#include "sheet/text_table.h"

namespace spanloom {

/// One entry a check: verdict, title, value with limit and margin, its sentence.
void add_checks(PlainText& text, const std::vector<Check>& checks, UnitSystem units);

}  // namespace spanloom
