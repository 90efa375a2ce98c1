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
  rig.walker.leash_keeps = Stated<double>::by_default(default_keeps(EndKind::knot));
  rig.walker.leash_ring = Stated<LeashRing>::by_default(LeashRing::around_both);
  rig.walker.leash_ring_mass = Stated<double>::by_default(0.15);
  // Synthetic rope on metal: about 0.1 to 0.2, from memory.
  rig.walker.leash_ring_friction = Stated<double>::by_default(0.15);
  rig.backup.ring_friction = Stated<double>::by_default(0.15);
  rig.walker.body = Stated<BodyModel>::by_default(BodyModel::one_mass);
  for (AnchorSpec* anchor : {&rig.near_anchor, &rig.far_anchor}) {
    anchor->legs = Stated<LegKind>::by_default(LegKind::fixed);
    anchor->leg_stiffness = Stated<double>::by_default(500e3);
  }
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
  // 6 kN: the braking force that EN 355 allows an energy absorber, as quoted by catalogues. It is a figure of work at
  // height, borrowed: none is published for highlines.
  rig.limits.body_force = Stated<double>::by_default(6000.0);
  rig.limits.wall_reserve = Stated<double>::by_default(1.0);
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

Webbing generic_leash() {
  Webbing leash = webbing_with_defaults();
  leash.name = "generic leash";
  leash.mass_per_length = 0.070;
  // 30 kN: single ropes of 9 and 12 kN impact force (EN 892: 80 kg, fall factor 1.77) come to 24 and 45 kN by
  // F = W + sqrt(W^2 + 2 W EA f).
  leash.curve = StretchCurve::linear(30e3);
  leash.strength = 22e3;  // EN 1891 type A, as quoted by a training manual
  return leash;
}

}  // namespace spanloom
