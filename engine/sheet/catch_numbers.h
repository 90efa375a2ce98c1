// What a catch report comes to, in sentences and numbers that report and sheet both carry.
#pragma once

#include <string>
#include <vector>

#include "base/quantity_text.h"
#include "checks/verdicts.h"
#include "events/catch_report.h"
#include "rig/rig.h"

namespace spanloom {

/// The warnings first, then how far the walker drops, what body, backup and anchors feel, the clear height needed, where the
/// worst is. Only the warnings from a report that was stopped: a worse case may be among what was not done.
/// @param checks  those of judge_catch()
std::vector<std::string> catch_sentences(const Rig& rig, const CatchReport& report, const std::vector<Check>& checks,
                                         UnitSystem units);

/// One quantity of both kinds of fall; "-" where there is no number.
struct FallNumber {
  std::string label;     ///< "Force on the body"
  std::string failure;   ///< "5.32 kN"
  std::string failure_at;  ///< "walker at 8.02 m, main fails at the near anchor, tapes hold"
  std::string leash;
  std::string leash_at;
};
/// The greatest or least of each over all falls of a kind.
std::vector<FallNumber> fall_numbers(const Rig& rig, const CatchReport& report, UnitSystem units);

/// "9.41 m below the standing main, reserve of 1.00 m included"; why there is none where there is none.
std::string clear_height_words(const Rig& rig, const CatchReport& report, UnitSystem units);

/// Clear height and the greatest load of an anchor in any fall, in one short line for page 1.
/// @param checks  of the falls, others may stand among them
std::string falls_in_a_line(const CatchReport& report, const std::vector<Check>& checks, UnitSystem units);

/// What a quick look leaves out, for the head of report and sheet.
const char* quick_catch_words();

/// How the worst was looked for: places and cuts, how many, what a finer mesh changed.
std::vector<std::string> search_sentences(const CatchReport& report);

}  // namespace spanloom
