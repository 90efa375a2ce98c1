// A plain valid rig with every input stated, for tests to change one thing of. Invented, fits no real webbing.
#pragma once

#include <utility>

#include "rig/rig.h"

namespace spanloom {

inline Webbing plain_webbing(std::string name, double mass, double stiffness) {
  Webbing w;
  w.name = std::move(name);
  w.mass_per_length = mass;
  w.width = Stated<double>::given(0.025);
  w.thickness = Stated<double>::given(0.0025);
  w.wet_keeps = Stated<double>::given(0.9);
  w.strength = 40e3;
  w.curve = StretchCurve::from_points({{40e3, 40e3 / stiffness}});
  return w;
}

/// 50 m level, ten even bays, one segment each, no hardware; all of it stated.
inline Rig plain_rig() {
  Rig rig = rig_with_defaults();
  rig.title = "plain";
  rig.site.gap = 50.0;
  rig.site.ground = {{0.0, -1.5}, {2.0, -1.5}, {2.0, -30.0}, {48.0, -30.0}, {48.0, -1.5}, {50.0, -1.5}};
  rig.webbings = {plain_webbing("river", 0.060, 120e3), plain_webbing("brook", 0.050, 80e3)};
  rig.main.run.segments = {{0, std::nullopt}};
  rig.backup.run.segments = {{1, std::nullopt}};
  for (WebbingRun* run : {&rig.main.run, &rig.backup.run}) {
    run->near_end = run->far_end = {Stated<EndKind>::given(EndKind::sewn), Stated<double>::given(0.85)};
    run->near_tail = run->far_tail = Stated<double>::given(1.0);
  }
  rig.main.tension = 4000.0;
  rig.main.hand_tight = Stated<double>::given(500.0);
  rig.backup.amount = SlackShare{{0.012}};
  rig.spacing.arm_span = Stated<double>::given(1.75);
  rig.spacing.pattern = EvenBays{4.85};
  rig.walker.mass = 80.0;
  rig.walker.leash = Stated<double>::given(1.4);
  rig.walker.foot_to_hip = Stated<double>::given(0.95);
  rig.walker.rescuer_mass = Stated<double>::given(80.0);
  rig.walker.drag_area = Stated<double>::given(0.7);
  rig.near_anchor.strength = rig.far_anchor.strength = 45e3;
  rig.near_anchor.edge = rig.far_anchor.edge = 2.0;
  Limits& l = rig.limits;
  for (Stated<double>* limit : {&l.ratio, &l.anchor_ratio, &l.least_drop, &l.least_ankle_margin, &l.reserve,
                                &l.anchor_zone, &l.edge_distance, &l.backup_tension}) {
    limit->assumed = false;
  }
  return rig;
}

/// The plain rig over another gap, no ground given.
inline Rig plain_rig_of(double gap) {
  Rig rig = plain_rig();
  rig.site.gap = gap;
  rig.site.ground.clear();
  return rig;
}

}  // namespace spanloom
