// What a webbing has been through, and what is used up of each rule that the user set for it.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "base/quantity_text.h"
#include "checks/verdicts.h"
#include "record/entries.h"

namespace spanloom {

/// Sums over the entries that were not struck out.
struct WebbingUse {
  int days = 0;      ///< hung; days that two entries share count once
  double sun = 0.0;  ///< [s]
  int wet_days = 0;
  int falls = 0;                ///< leash falls and main failures
  std::optional<double> force;  ///< greatest on record [N]
  EntryNumber force_entry = 0;
  int without_force = 0;  ///< entries of hanging and of falls that say no force
};

struct RuleUse {
  EntryNumber rule = 0;
  RuleMeasure measure = RuleMeasure::days_hung;
  double share = 0.0;  ///< used up of the limit [-]; 0 where it could not be computed
  Check check;
};

struct WebbingReport {
  const Entry* webbing = nullptr;
  const Entry* retired = nullptr;
  std::vector<const Entry*> history;  ///< its own entry, then by day and number; struck ones too
  WebbingUse use;
  std::vector<RuleUse> rules;
  std::vector<std::string> remarks;  ///< hanging times that overlap, mains that failed
  Verdict verdict = Verdict::ok;     ///< worst of the rules; caution without any; stop when retired or above its strength
  std::string words;                 ///< the verdict as a sentence
};

WebbingUse use_of(EntryNumber webbing, const Record& record);

/// @param webbing  entry of a webbing in `record`, which must live as long as the report
/// @param as_of  the day that ages are counted to
WebbingReport report_on(const Entry& webbing, const Record& record, Day as_of);

/// The number with its unit, as rules of this measure are said.
std::string measure_text(double value, RuleMeasure measure, UnitSystem units);
/// "days hung", "age since new".
const char* title_of(RuleMeasure measure);

/// Words that every report on webbing carries beside the verdicts: whose rules these are.
const std::vector<std::string>& record_cautions();

}  // namespace spanloom
