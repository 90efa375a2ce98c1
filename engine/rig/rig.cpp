#include "rig/rig.h"

namespace spanloom {

double default_keeps(EndKind kind) {
  switch (kind) {
    case EndKind::knot: return 0.5;
    case EndKind::clamp: return 0.7;
    case EndKind::sewn: return 0.8;
  }
  return 0.5;
}

Rig rig_with_defaults() {
  Rig rig;
  for (WebbingRun* run : {&rig.main.run, &rig.backup.run}) {
    for (WebbingEnd* end : {&run->near_end, &run->far_end, &run->joint_end}) {
      end->kind = Stated<EndKind>::by_default(EndKind::knot);
      end->keeps = Stated<double>::by_default(default_keeps(EndKind::knot));
    }
    run->near_hardware.name = "near hardware";
    run->far_hardware.name = "far hardware";
    run->near_tail = Stated<double>::by_default(2.0);
    run->far_tail = Stated<double>::by_default(2.0);
  }
  rig.main.hand_tight = Stated<double>::by_default(300.0);
  rig.spacing.arm_span = Stated<double>::by_default(1.70);
  rig.walker.leash = Stated<double>::by_default(1.4);
  rig.walker.foot_to_hip = Stated<double>::by_default(0.95);
  rig.walker.rescuer_mass = Stated<double>::by_default(90.0);
  rig.walker.drag_area = Stated<double>::by_default(0.8);
  rig.shake.swing = Stated<double>::by_default(0.1);
  rig.shake.bounce = Stated<double>::by_default(0.3);
  rig.limits.ratio = Stated<double>::by_default(3.0);
  // 2.5: rope access, 15 kN on each of two lines for 6 kN, as quoted for BS 7985.
  rig.limits.anchor_ratio = Stated<double>::by_default(2.5);
  rig.limits.least_drop = Stated<double>::by_default(0.060);
  rig.limits.least_ankle_margin = Stated<double>::by_default(0.0);
  rig.limits.reserve = Stated<double>::by_default(2.0);
  rig.limits.anchor_zone = Stated<double>::by_default(4.0);
  rig.limits.edge_distance = Stated<double>::by_default(0.2);
  rig.limits.backup_tension = Stated<double>::by_default(300.0);
  return rig;
}

Wind wind_with_defaults() {
  Wind wind;
  // Up and down again around the 3 s over which a gust is averaged: WMO-No. 8, from memory.
  wind.gust_time = Stated<double>::by_default(6.0);
  return wind;
}

Webbing webbing_with_defaults() {
  Webbing webbing;
  webbing.width = Stated<double>::by_default(0.025);
  webbing.thickness = Stated<double>::by_default(0.0025);
  // Wet nylon loses 10 to 15 %: Tension Technology International, "Synthetic fibre yarn properties".
  webbing.wet_keeps = Stated<double>::by_default(0.85);
  return webbing;
}

}  // namespace spanloom
