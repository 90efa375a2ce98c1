// The shake on the sheet: one small figure, what it means, loops that may wrap the main, what was assumed.
#pragma once

#include "motion/shake_report.h"
#include "sheet/page_stack.h"

namespace spanloom {

/// Return of a sideways shake against frequency, mean over the places, for the lines that were compared, told apart
/// by dashes and marks.
void add_shake(PageStack& pages, const ShakeReport& report);

}  // namespace spanloom
