// Checks with their verdicts, cautions, notes and what was assumed.
#pragma once

#include <string>
#include <vector>

#include "checks/verdicts.h"
#include "sheet/page_stack.h"
#include "statics/plan.h"

namespace spanloom {

void add_checks(PageStack& pages, const std::vector<Check>& checks);
void add_cautions(PageStack& pages, Falls falls = Falls::left_out);
/// Notes of the plan and the defaults that verdicts rest on.
void add_notes(PageStack& pages, const Plan& plan, const std::vector<Check>& checks);

/// Every assumed input of the checks, each once, in order.
std::vector<std::string> assumed_inputs(const std::vector<Check>& checks);

/// The words of a check and the defaults that its verdict rests on; of many only how many, since every report lists all.
std::string check_words(const Check& check);

/// Value and limit of a check with units; "not known" and "" where nothing could be computed.
struct CheckNumbers {
  std::string value, limit, margin;  ///< margin: what is left to the limit, negative when it is passed; "" of a count
                                     ///< that has to be 0
};
CheckNumbers check_numbers(const Check& check, UnitSystem units);

}  // namespace spanloom
