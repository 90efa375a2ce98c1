#include "spacing/layout_proof.h"

#include <algorithm>
#include <cmath>

#include "base/input_error.h"

namespace spanloom {
namespace {

constexpr double kNoWorse = 0.01;         // of the value: less is not told apart

bool is_worse(const Check& check, const Check& own) {
  if (own.verdict != Verdict::stop) return true;
  const double by = check.at_most ? check.value - own.value : own.value - check.value;
  return by > kNoWorse * std::abs(own.value);
}

}  // namespace

std::optional<ProvenLayout> prove_layout(const Rig& rig, const Layout& layout, const std::vector<Check>& own, double most_backup_tension,
                                         UnitSystem units) {
  ProvenLayout proven{with_layout(rig, layout), {}, {}, {}};
  try {
    PlanOutcome outcome = make_plan(proven.rig, {.units = units});
    if (!outcome.plan) return std::nullopt;
    proven.plan = std::move(*outcome.plan);
  } catch (const InputError&) {
    return std::nullopt;  // a layout of ours that meets a joint or the like
  }
  Rig asked = proven.rig;
  asked.limits.backup_tension.value = std::min(asked.limits.backup_tension.value, most_backup_tension);
  proven.checks = judge(asked, proven.plan, units);
  for (const Check& check : proven.checks) {
    if (check.verdict != Verdict::stop) continue;
    const auto before = std::find_if(own.begin(), own.end(), [&](const Check& other) { return other.name == check.name; });
    if (before == own.end() || is_worse(check, *before)) proven.breaks.push_back(check.title + ": " + check.words);
  }
  return proven;
}

}  // namespace spanloom
