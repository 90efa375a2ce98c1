// The shake on the sheet: one small figure and the worst case in a sentence.
#pragma once

#include "motion/shake_report.h"
#include "sheet/page_stack.h"

namespace spanloom {

/// Return of a sideways shake against frequency, mean over the places, for the lines that were compared, told apart
/// by dashes and marks.
void add_shake(PageStack& pages, const ShakeReport& report);

}  // namespace spanloom
