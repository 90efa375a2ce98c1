// The plain rig with a main of three segments, joined by a soft link and a steel ring. Invented.
#pragma once

#include "support/plain_rig.h"

namespace spanloom {

inline Rig jointed_rig() {
  Rig rig = plain_rig();
  rig.title = "jointed";
  WebbingRun& run = rig.main.run;
  run.segments = {{0, 18.5}, {0, 9.0}, {0, std::nullopt}};
  run.connectors = {{"soft link", 0.06, 0.12, 50e3}, {"steel ring", 0.15, 0.08, 50e3}};
  run.near_hardware = {"clamp and shackle", 0.8, 0.4, 30e3};
  run.far_hardware = {"shackle", 0.25, 0.1, 40e3};
  run.joint_end = {Stated<EndKind>::given(EndKind::sewn), Stated<double>::given(0.85)};
  return rig;
}

}  // namespace spanloom
