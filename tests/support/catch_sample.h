// A catch report made by hand, so that verdicts, report, picture and files are tested on their own. The body falls free and
// is caught by a spring; lines are straight or parabolas. Loads are invented.
#pragma once

#include <algorithm>
#include <cmath>
#include <numbers>
#include <utility>
#include <vector>

#include "base/constants.h"
#include "events/catch_report.h"
#include "support/plain_rig.h"

namespace spanloom::fixture {

inline constexpr double kFreeFall = 0.9;      // until the leash is tight [s]
inline constexpr double kLowestTime = 1.5;    // [s]

/// Height of a hip that starts at `from`, falls free, and is slowed to a stop at kLowestTime [m].
inline double falling_hip(double from, double time) {
  const double free = std::min(time, kFreeFall);
  const double speed = kGravity * kFreeFall, slowing = kLowestTime - kFreeFall;
  double height = from - 0.5 * kGravity * free * free;
  if (time > kFreeFall) {
    const double phase = 0.5 * std::numbers::pi * (time - kFreeFall) / slowing;
    height -= speed * slowing * 2.0 / std::numbers::pi * std::sin(phase);
  }
  return height;
}

inline FallFrame sample_frame(double gap, double walker, double start_hip, double time, bool cut) {
  FallFrame frame;
  frame.time = time;
  frame.hip = {walker + 0.3 * time, 0.0, falling_hip(start_hip, time)};
  // The ring drops with the line and runs a little towards the middle.
  const double main_sag = 0.8, drop = std::max(0.0, start_hip - frame.hip.z - 1.5);
  frame.ring = {walker + 0.25 * time, 0.0, -main_sag - drop};
  constexpr int kNodes = 60;
  for (int i = 0; i <= kNodes; ++i) {
    const double x = gap * i / kNodes;
    const double along = x < frame.ring.x ? x / frame.ring.x : (gap - x) / (gap - frame.ring.x);
    frame.backup.push_back({x, 0.0, (frame.ring.z - 0.1) * along - 0.15 * std::abs(std::sin(std::numbers::pi * 10.0 * i / kNodes)) });
    const double standing = -main_sag * 4.0 * x * (gap - x) / (gap * gap);
    frame.main.push_back({x, 0.0, cut ? std::min(standing, frame.ring.z * along) : standing - drop * along * 0.2});
  }
  frame.cut_after = kNodes;
  if (cut) {  // near the near anchor; the short end hangs, the long one draws back
    frame.cut_after = 1;
    frame.main[1] = {0.1, 0.0, -1.0};
    for (int i = 2; i < 8; ++i) frame.main[i].x += 2.0 * time * (8 - i) / 6.0;
  }
  return frame;
}

struct SampleFall {
  FallKind kind = FallKind::main_failure;
  double walker = 12.0;           ///< [m]
  double tape_strength = kTapesHold;
  double body = 4200.0;           ///< [N]
  double fall = 7.1;              ///< [m]
  double clearance = 18.0;        ///< [m]
};

/// A fall of a line of 50 m, ground 30 m below.
inline FallResult sample_fall(const SampleFall& as) {
  const bool failure = as.kind == FallKind::main_failure;
  FallResult fall;
  fall.what.kind = as.kind;
  fall.what.tape_strength = as.tape_strength;
  fall.walker_m = as.walker;
  if (failure) {
    fall.what.cut = 0;
    fall.cut_m = 0.0;
    fall.cut_words = "at the near anchor";
  }
  fall.fall = as.fall;
  fall.body = as.body;
  fall.leash_ring_run = 0.4;
  fall.backup = failure ? 5200.0 : 900.0;
  fall.main = failure ? 4600.0 : 6100.0;
  fall.near = {failure ? 5100.0 : 6000.0, 0.0, -900.0};
  fall.far = {failure ? -5300.0 : -6100.0, 0.0, -700.0};
  fall.lowest_time = kLowestTime;
  fall.lowest_at = as.walker + 0.3 * kLowestTime;
  fall.lowest = 0.15 - as.fall - 0.95;
  fall.clear_height = as.fall + 0.5;
  fall.clearance = as.clearance;
  fall.clearance_at = fall.lowest_at;
  fall.wall = 6.5;
  fall.wall_speed = 1.2;
  fall.tight = kFreeFall;
  fall.time = 6.0;
  fall.step = 1e-4;
  fall.ledger = {.kinetic = 10.0, .stretch = 900.0, .height = -4000.0, .lost_in_webbing = 300.0, .drift = 0.5};
  fall.turned_over = 5600.0;
  for (int i = 0; i <= 60; ++i) {
    const double time = 0.05 * i;
    const FallFrame frame = sample_frame(50.0, as.walker, 0.15, time, failure);
    fall.path.push_back({time, frame.hip, frame.ring, time < kFreeFall ? 0.0 : as.body * 0.5});
  }
  return fall;
}

inline void keep_frames(FallResult& fall, double gap) {
  for (int i = 0; i <= 40; ++i) {
    fall.frames.push_back(sample_frame(gap, fall.walker_m, 0.15, 0.05 * i, fall.cut_m.has_value()));
  }
  const Vec3 lowest = falling_hip(0.15, kLowestTime) * Vec3{0.0, 0.0, 1.0};
  fall.lowest = lowest.z - 0.95;
  fall.clear_height = -0.7 - fall.lowest;
}

inline LegsUnderLoad legs_of(std::vector<double> tensions) {
  LegsUnderLoad load;
  for (const double tension : tensions) load.legs.push_back({tension, {tension, 0.0, 0.0}});
  load.shift = {0.0, 0.02, 0.0};
  return load;
}

/// Two points that share; either alone holds all of it.
inline std::vector<AnchorState> sample_states() {
  std::vector<AnchorState> states;
  for (const auto& [name, force] : {std::pair{"standing", 4100.0}, {"walker at 25.0 m", 5200.0}, {"leash fall", 6000.0},
                                    {"main failure", 5200.0}}) {
    AnchorState state;
    state.state = name;
    state.force = {force, 0.0, 0.0};
    state.legs = legs_of({0.55 * force, 0.55 * force});
    state.without = {legs_of({0.0, force}), legs_of({force, 0.0})};
    states.push_back(std::move(state));
  }
  return states;
}

/// The rig of the sample: plain, everything that a fall needs stated, an anchor of two bolts on each side.
inline Rig catch_rig() {
  Rig rig = plain_rig();
  Webbing leash = plain_webbing("leash rope", 0.070, 30e3);
  leash.strength = 30e3;
  rig.webbings.push_back(leash);
  Walker& walker = rig.walker;
  walker.leash_webbing = 2;
  walker.leash_keeps = Stated<double>::given(0.8);
  walker.leash_ring = Stated<LeashRing>::given(LeashRing::around_both);
  walker.leash_ring_mass = Stated<double>::given(0.15);
  walker.leash_ring_friction = Stated<double>::given(0.15);
  walker.body = Stated<BodyModel>::given(BodyModel::one_mass);
  rig.backup.tape_strength = 150.0;
  rig.limits.body_force = Stated<double>::given(6000.0);
  rig.limits.wall_reserve = Stated<double>::given(1.0);
  for (AnchorSpec* anchor : {&rig.near_anchor, &rig.far_anchor}) {
    const double back = anchor == &rig.near_anchor ? -0.5 : 0.5;
    anchor->wall = 1.0;
    anchor->points = {{"left bolt", {back, 0.4, 0.0}, 25e3}, {"right bolt", {back, -0.4, 0.0}, 25e3}};
    anchor->legs = Stated<LegKind>::given(LegKind::fixed);
    anchor->leg_stiffness = Stated<double>::given(500e3);
  }
  return rig;
}

/// Two main failures and two leash falls, the first of each kept for its picture.
inline CatchReport catch_sample() {
  CatchReport report;
  report.main_failure = {sample_fall({.body = 4200.0, .fall = 7.1}),
                         sample_fall({.walker = 25.0, .tape_strength = 0.0, .body = 3900.0, .fall = 8.4, .clearance = 16.5})};
  report.leash_fall = {sample_fall({FallKind::leash_fall, 12.0, kTapesHold, 3300.0, 3.2, 24.0}),
                       sample_fall({FallKind::leash_fall, 25.0, kTapesHold, 2900.0, 3.6, 23.5})};
  report.leash_fall[1].what.step_off = StepOff::from_sitting;
  report.leash_fall[1].what.ring = RingRun::caught_between_tapes;
  report.leash_fall[1].what.posture = Posture::sitting;
  keep_frames(report.main_failure[0], 50.0);
  keep_frames(report.leash_fall[0], 50.0);
  report.worst_failure = {.fall = 1, .clearance = 1};
  report.worst_leash_fall = {.fall = 1, .clearance = 1};
  report.tape_strength_known = true;
  report.search = {.events = 184, .failed = 0, .told = 4, .mesh_change_body = 0.021, .mesh_change_fall = -0.004,
                   .words = {"Walkers at every tape and bay middle, cuts at both anchors and in every bay."}};
  report.near = report.far = sample_states();
  for (const double factor : {0.5, 1.0, 1.5, 2.0}) {
    report.costs.push_back({.factor = factor, .slack = 0.012 * factor, .why_not = "", .least_drop = 0.08 * factor, .mean_drop = 0.11 * factor,
                            .ankle_margin = 0.05 * factor - 0.02, .backup_tension = 220.0 / factor, .fall = 6.0 + factor,
                            .body = 4600.0 - 300.0 * factor, .clear_height = 7.5 + factor, .returned = 0.5 - 0.05 * factor});
  }
  report.costs.back() = {.factor = 2.0, .slack = 0.024, .why_not = "the loops would not fit their bays"};
  report.cost_shakes = 3;
  report.clear_height_needed = 10.4;
  report.clear_height_at = 25.0;
  report.notes = {"The body passes the webbing without touching it."};
  return report;
}

}  // namespace spanloom::fixture
