// Rigs made ready for falls, and falls computed, for tests that ask something of the result.
#pragma once

#include <gtest/gtest.h>

#include "events/fall.h"
#include "support/short_rig.h"

namespace spanloom {

inline MovingRig moving(const Rig& rig, const MotionMesh& mesh = kSearchMesh) {
  const MovingOutcome made = moving_rig(rig, mesh);
  EXPECT_TRUE(made.rig) << made.why;
  return made.rig.value();
}

inline FallResult fall_of(const MovingRig& rig, const FallCase& what, const FallOptions& options = {}) {
  const FallOutcome outcome = run_fall(rig, what, options);
  EXPECT_TRUE(outcome.result) << outcome.why;
  return outcome.result.value();
}

/// The main fails at a bar under somebody who stands at a node.
inline FallCase failure(std::size_t walker, std::size_t cut, double tape_strength = kTapesHold) {
  FallCase what;
  what.walker = walker;
  what.cut = cut;
  what.tape_strength = tape_strength;
  return what;
}

/// Somebody steps off at a node.
inline FallCase leash_fall(std::size_t walker, StepOff step_off = StepOff::sideways) {
  FallCase what;
  what.kind = FallKind::leash_fall;
  what.walker = walker;
  what.step_off = step_off;
  if (step_off == StepOff::from_sitting) what.posture = Posture::sitting;
  return what;
}

inline std::size_t middle_of(const MovingRig& rig) { return rig.node_near(0.5 * rig.rig.site.gap); }

}  // namespace spanloom
