// A plan on a coarse mesh, and one check among many.
#pragma once

#include <algorithm>
#include <stdexcept>
#include <string>
#include <utility>
#include <vector>

#include "checks/verdicts.h"
#include "statics/plan.h"

namespace spanloom {

inline Plan plan_of(const Rig& rig) {
  PlanOutcome out = make_plan(rig, {8, 8});
  if (!out.plan) throw std::runtime_error(out.failure->words);
  return std::move(*out.plan);
}

inline const Check& named(const std::vector<Check>& checks, const std::string& name) {
  const auto it = std::find_if(checks.begin(), checks.end(), [&](const Check& c) { return c.name == name; });
  if (it == checks.end()) throw std::runtime_error("no check " + name);
  return *it;
}

}  // namespace spanloom
