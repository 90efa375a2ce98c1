// The numbers a crew asks for first, in words, for the front page and the head of the report.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "checks/verdicts.h"
#include "rig/rig.h"
#include "base/quantity_text.h"
#include "statics/plan.h"

namespace spanloom {

struct KeyNumber {
  std::string label;   ///< "Standing tension"
  std::string value;   ///< "4.50 kN"
  std::string note;    ///< what it is measured at or depends on, may be ""
};

/// In the order in which the work needs them.
std::vector<KeyNumber> key_numbers(const Rig& rig, const Plan& plan, UnitSystem units);

/// The greatest of something over states of the plan, and in which state it is met.
struct Peak {
  double value = 0.0;
  std::string state;   ///< "walker at 31.00 m", "standing"
};

/// Greatest main tension with one walker anywhere, rings free or locked, without wind [N].
Peak greatest_walker_tension(const Plan& plan, UnitSystem units);

/// Greatest load of main and backup together on one anchor, one walker, no wind [N].
Peak greatest_anchor_load(const Plan& plan, AnchorEnd side, UnitSystem units);
/// The same with two people at one place [N].
Peak greatest_rescue_load(const Plan& plan, AnchorEnd side, UnitSystem units);

/// Least distance to the ground of anything outside the anchor zones, wind included; empty without
/// a ground [m].
std::optional<Peak> least_ground_clearance(const Rig& rig, const Plan& plan, UnitSystem units);

/// "1 stop, 2 caution, 9 ok".
std::string verdict_counts(const std::vector<Check>& checks);
const char* verdict_word(Verdict verdict);

}  // namespace spanloom
