// The short line pulled up, for tests of what is told about it.
#pragma once

#include <stdexcept>
#include <utility>

#include "hauling/hauling_report.h"
#include "support/short_rig.h"

namespace spanloom::fixture {

inline HaulingReport hauled(const Rig& rig, const HaulingOptions& options = {}) {
  HaulingOutcome outcome = make_hauling_report(rig, options);
  if (!outcome.report) throw std::runtime_error(outcome.why);
  return std::move(*outcome.report);
}

/// Everything asked for and stated.
inline HaulingOptions full_hauling_options() {
  return {.sets = {{.parts = {5}}},
          .efficiency = Stated<double>::given(0.92),
          .person_force = Stated<double>::given(250.0),
          .reach = 0.1,
          .bend = Bend{.angle = 1.0, .friction = Stated<double>::given(0.2)},
          .creep = 0.002};
}

}  // namespace spanloom::fixture
