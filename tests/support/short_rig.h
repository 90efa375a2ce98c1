// A short line with straight curves, for tests of motion: 16 m, 2.5 kN, nine bays of drop 0.12 m. Invented.
#pragma once

#include <vector>

#include "support/plain_rig.h"

namespace spanloom {

inline constexpr double kShortSlack = 0.01187;  // what a drop of 0.12 m is on nine even bays [-]

inline Rig short_rig() {
  Rig rig = plain_rig();
  rig.title = "short";
  rig.site.gap = 16.0;
  rig.site.ground = {{0.0, -1.5}, {1.0, -1.5}, {1.0, -8.0}, {15.0, -8.0}, {15.0, -1.5}, {16.0, -1.5}};
  rig.webbings = {plain_webbing("river", 0.060, 120e3), plain_webbing("brook", 0.055, 120e3)};
  for (Webbing& webbing : rig.webbings) {
    webbing.curve = StretchCurve::linear(120e3);
    webbing.loss = 0.05;
  }
  rig.main.tension = 2500.0;
  rig.backup.amount = LoopDrop{{0.12}};
  rig.spacing.pattern = TapesAt{{1.741, 3.483, 5.224, 6.966, 8.707, 10.449, 12.19, 13.932}};
  rig.shake.swing = Stated<double>::given(0.1);
  rig.shake.bounce = Stated<double>::given(0.2);
  return rig;
}

}  // namespace spanloom
