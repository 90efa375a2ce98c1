// A rig with its plan, for tests of what stands on both.
#pragma once

#include <stdexcept>
#include <utility>

#include "statics/plan.h"

namespace spanloom {

struct Planned {
  Rig rig;
  Plan plan;
};

inline Planned planned(Rig rig) {
  PlanOutcome outcome = make_plan(rig);
  if (!outcome.plan) throw std::runtime_error(outcome.failure->words);
  return {std::move(rig), std::move(*outcome.plan)};
}

}  // namespace spanloom
