// The checks of a plan, each with a verdict a rigger can act on.
#pragma once

#include <string>
#include <vector>

#include "rig/rig.h"
#include "statics/plan.h"

namespace spanloom {

enum class Verdict { ok, caution, stop };

struct Check {
  std::string name;                  ///< stable, for JSON: "main_strength", "ground_clearance", ...
  std::string title;                 ///< for people: "Main: strength over greatest tension"
  double value = 0.0;                ///< NaN never; 0 when nothing could be computed (see words)
  double limit = 0.0;
  std::string unit;                  ///< "m", "N", "-"
  bool computed = true;              ///< false: an input is missing, value means nothing
  Verdict verdict = Verdict::ok;
  std::string words{};               ///< one sentence: where, why, what to do
  std::vector<std::string> assumed{};  ///< inputs it needs that are our defaults ("limits.ratio = 3")
  bool at_most = false;              ///< true: the value must not pass the limit; false: not fall below it
};

/// All checks in a fixed order. A verdict is never ok when an input it needs is a default.
/// @param units  of the sentences; values and limits are SI
std::vector<Check> judge(const Rig& rig, const Plan& plan, UnitSystem units = UnitSystem::metric);

/// The worst verdict of a list.
Verdict worst(const std::vector<Check>& checks);

/// Caution instead of ok where a check rests on our assumption or where an input is missing.
void hold_back(Check& check);

/// Whether a report tells of main failures and leash falls.
enum class Falls { left_out, computed };
/// Safety words that every report, sheet and page carries (a planning aid, not a certificate).
const std::vector<std::string>& cautions(Falls falls = Falls::left_out);

}  // namespace spanloom
