#include "rig/find_problems.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <functional>
#include <utility>
#include <vector>

#include "support/plain_rig.h"

namespace spanloom {
namespace {

const double kNan = std::nan("");
using Spoil = std::function<void(Rig&)>;

bool has_key(const std::vector<Problem>& problems, const std::string& key) {
  return std::any_of(problems.begin(), problems.end(), [&](const Problem& p) { return p.key == key; });
}

void expect_each(const std::vector<std::pair<std::string, Spoil>>& cases) {
  for (const auto& [key, spoil] : cases) {
    Rig rig = plain_rig();
    spoil(rig);
    const auto problems = find_problems(rig);
    EXPECT_TRUE(has_key(problems, key)) << key;
    for (const Problem& p : problems) EXPECT_FALSE(p.expected.empty()) << p.key;
  }
}

TEST(FindProblems, FindsNothingWrongWithAPlainRig) { EXPECT_TRUE(find_problems(plain_rig()).empty()); }

TEST(FindProblems, ChecksTheSite) {
  expect_each({{"site.gap", [](Rig& r) { r.site.gap = 0.0; }},
               {"site.gap", [](Rig& r) { r.site.gap = 5001.0; }},
               {"site.gap", [](Rig& r) { r.site.gap = kNan; }},
               {"site.rise", [](Rig& r) { r.site.rise = -101.0; }},
               {"site.rise", [](Rig& r) { r.site.rise = kNan; }},
               {"site.ground[2]", [](Rig& r) { r.site.ground[2].distance = 1.0; }},
               {"site.ground[1]", [](Rig& r) { r.site.ground[1].height = kNan; }},
               {"site.ground", [](Rig& r) { r.site.ground.resize(1); }},
               {"site.ground", [](Rig& r) { r.site.ground.pop_back(); }}});
}

TEST(FindProblems, ChecksTheWebbings) {
  expect_each({{"webbing", [](Rig& r) { r.webbings.clear(); }},
               {"webbing.river.mass", [](Rig& r) { r.webbings[0].mass_per_length = 0.0; }},
               {"webbing.river.width", [](Rig& r) { r.webbings[0].width.value = -1.0; }},
               {"webbing.brook.thickness", [](Rig& r) { r.webbings[1].thickness.value = kNan; }},
               {"webbing.brook.strength", [](Rig& r) { r.webbings[1].strength = 0.0; }},
               {"webbing.brook.wet_keeps", [](Rig& r) { r.webbings[1].wet_keeps.value = 1.01; }},
               {"webbing.brook.loss", [](Rig& r) { r.webbings[1].loss = 0.51; }},
               {"webbing.brook.loss", [](Rig& r) { r.webbings[1].loss = -0.01; }},
               {"webbing.river.loss", [](Rig& r) { r.webbings[0].loss = kNan; }}});
}

TEST(FindProblems, ChecksMainAndBackupRuns) {
  expect_each({{"main.segments", [](Rig& r) { r.main.run.segments.clear(); }},
               {"main.segments[0].webbing", [](Rig& r) { r.main.run.segments[0].webbing = 2; }},
               {"main.segments[0].length", [](Rig& r) { r.main.run.segments[0].natural_length = 40.0; }},
               {"main.segments[0].length", [](Rig& r) { r.main.tension.reset(); }},
               {"backup.segments[0].length", [](Rig& r) { r.backup.run.segments[0].natural_length = 40.0; }},
               {"main.segments[0].length",
                [](Rig& r) { r.main.run.segments = {{0, -1.0}, {0, std::nullopt}}, r.main.run.connectors = {{}}; }},
               {"main.connectors", [](Rig& r) { r.main.run.connectors = {{}}; }},
               {"main.near_hardware.mass", [](Rig& r) { r.main.run.near_hardware.mass = -1.0; }},
               {"main.far_hardware.length", [](Rig& r) { r.main.run.far_hardware.length = kNan; }},
               {"backup.far_hardware.strength", [](Rig& r) { r.backup.run.far_hardware.strength = 0.0; }},
               {"main.near_end.keeps", [](Rig& r) { r.main.run.near_end.keeps.value = 0.0; }},
               {"backup.far_end.keeps", [](Rig& r) { r.backup.run.far_end.keeps.value = 1.2; }},
               {"main.far_tail", [](Rig& r) { r.main.run.far_tail.value = -0.1; }},
               {"main.tension", [](Rig& r) { r.main.tension = 0.0; }},
               {"main.hand_tight", [](Rig& r) { r.main.hand_tight.value = 0.0; }},
               {"main.near_hardware", [](Rig& r) { r.main.run.near_hardware.length = 50.0; }}});
}

TEST(FindProblems, ChecksTheBackup) {
  expect_each({{"backup.slack", [](Rig& r) { r.backup.amount = SlackShare{{}}; }},
               {"backup.slack", [](Rig& r) { r.backup.amount = SlackShare{{2.1}}; }},
               {"backup.slack", [](Rig& r) { r.backup.amount = SlackShare{{-0.5}}; }},
               {"backup.drop[1]", [](Rig& r) { r.backup.amount = LoopDrop{{0.1, 0.0}}; }},
               {"backup.length", [](Rig& r) { r.backup.amount = LoopLength{{kNan}}; }},
               {"backup.segments",
                [](Rig& r) {
                  r.backup.joint = Joint::ring;
                  r.backup.run.segments = {{1, 20.0}, {1, std::nullopt}};
                  r.backup.run.connectors = {{}};
                }},
               {"backup.tape_strength", [](Rig& r) { r.backup.tape_strength = -1.0; }},
               {"backup.ring_friction", [](Rig& r) { r.backup.ring_friction.value = -0.01; }},
               {"backup.ring_friction", [](Rig& r) { r.backup.ring_friction.value = kNan; }},
               {"backup.tape_mass", [](Rig& r) { r.backup.tape_mass = -1.0; }},
               {"backup.near_offset", [](Rig& r) { r.backup.near_offset.z = kNan; }},
               {"backup.far_offset", [](Rig& r) { r.backup.far_offset.x = INFINITY; }}});
}

TEST(FindProblems, ChecksTheSpacing) {
  expect_each({{"spacing.arm_span", [](Rig& r) { r.spacing.arm_span.value = 0.4; }},
               {"spacing.arm_span", [](Rig& r) { r.spacing.arm_span.value = 3.1; }},
               {"spacing.repeat", [](Rig& r) { r.spacing.pattern = RepeatArmSpans{}; }},
               {"spacing.repeat[1]", [](Rig& r) { r.spacing.pattern = RepeatArmSpans{{1.0, 0.05}}; }},
               {"spacing.at[0]", [](Rig& r) { r.spacing.pattern = TapesAt{{0.0}}; }},
               {"spacing.at[2]", [](Rig& r) { r.spacing.pattern = TapesAt{{3.0, 6.0, 6.005}}; }},
               {"spacing.even", [](Rig& r) { r.spacing.pattern = EvenBays{0.05}; }},
               {"spacing.close.centre", [](Rig& r) { r.spacing.close = CloseBays{0, 4, 1}; }},
               {"spacing.close.length", [](Rig& r) { r.spacing.close = CloseBays{20, 0, 1}; }},
               {"spacing.close.spacing", [](Rig& r) { r.spacing.close = CloseBays{20, 4, 0.05}; }}});
}

TEST(FindProblems, ChecksPeopleWindAnchorsAndLimits) {
  expect_each({{"walker.mass", [](Rig& r) { r.walker.mass = 0.0; }},
               {"walker.mass", [](Rig& r) { r.walker.mass = 501.0; }},
               {"walker.leash", [](Rig& r) { r.walker.leash.value = -1.0; }},
               {"walker.foot_to_hip", [](Rig& r) { r.walker.foot_to_hip.value = kNan; }},
               {"walker.rescuer_mass", [](Rig& r) { r.walker.rescuer_mass.value = -1.0; }},
               {"walker.drag_area", [](Rig& r) { r.walker.drag_area.value = -1.0; }},
               {"wind.speed", [](Rig& r) { r.wind = Wind{61.0}; }},
               {"wind.speed", [](Rig& r) { r.wind = Wind{kNan}; }},
               {"anchor.near.strength", [](Rig& r) { r.near_anchor.strength = 0.0; }},
               {"anchor.far.edge", [](Rig& r) { r.far_anchor.edge = 50.0; }},
               {"limits.ratio", [](Rig& r) { r.limits.ratio.value = 0.9; }},
               {"limits.anchor_ratio", [](Rig& r) { r.limits.anchor_ratio.value = kNan; }},
               {"limits.least_drop", [](Rig& r) { r.limits.least_drop.value = -0.1; }},
               {"limits.least_ankle_margin", [](Rig& r) { r.limits.least_ankle_margin.value = kNan; }},
               {"limits.reserve", [](Rig& r) { r.limits.reserve.value = -1.0; }},
               {"limits.anchor_zone", [](Rig& r) { r.limits.anchor_zone.value = -1.0; }},
               {"limits.edge_distance", [](Rig& r) { r.limits.edge_distance.value = -1.0; }},
               {"limits.backup_tension", [](Rig& r) { r.limits.backup_tension.value = 0.0; }}});
}

TEST(FindProblems, ChecksTheLeashAndWhatACatchMayDo) {
  expect_each({{"walker.leash_webbing", [](Rig& r) { r.walker.leash_webbing = 2; }},
               {"walker.leash_keeps", [](Rig& r) { r.walker.leash_keeps.value = 0.0; }},
               {"walker.leash_keeps", [](Rig& r) { r.walker.leash_keeps.value = 1.01; }},
               {"walker.leash_ring_mass", [](Rig& r) { r.walker.leash_ring_mass.value = 0.0; }},
               {"walker.leash_ring_friction", [](Rig& r) { r.walker.leash_ring_friction.value = 1.01; }},
               {"walker.leash_ring_friction", [](Rig& r) { r.walker.leash_ring_friction.value = kNan; }},
               {"limits.body_force", [](Rig& r) { r.limits.body_force.value = 0.0; }},
               {"limits.wall_reserve", [](Rig& r) { r.limits.wall_reserve.value = -0.1; }}});
}

std::vector<AnchorPoint> points_at(std::vector<Vec3> places) {
  std::vector<AnchorPoint> points;
  for (const Vec3& at : places) points.push_back({"bolt", at, 25e3});
  return points;
}

TEST(FindProblems, ChecksWallsLegsAndPoints) {
  expect_each({{"anchor.near.wall", [](Rig& r) { r.near_anchor.wall = -0.1; }},
               {"anchor.far.wall", [](Rig& r) { r.far_anchor.wall = 50.0; }},
               {"anchor.far.wall", [](Rig& r) { r.far_anchor.wall = kNan; }},
               {"anchor.near.leg_stiffness", [](Rig& r) { r.near_anchor.leg_stiffness = Stated<double>::given(0.0); }},
               {"anchor.near.leg_stiffness", [](Rig& r) { r.near_anchor.leg_stiffness = Stated<double>::given(1.1e9); }},
               {"anchor.far.points[1].strength",
                [](Rig& r) {
                  r.far_anchor.points = points_at({{1, 0, 0}, {1, 1, 0}});
                  r.far_anchor.points[1].strength = 0.0;
                }},
               {"anchor.far.points", [](Rig& r) { r.far_anchor.points = points_at(std::vector<Vec3>(9, {1, 0, 0})); }},
               {"anchor.far.points[0]", [](Rig& r) { r.far_anchor.points = points_at({{0, 0, 0}, {1, 0, 0}}); }},
               {"anchor.far.points[0]", [](Rig& r) { r.far_anchor.points = points_at({{kNan, 0, 0}, {1, 0, 0}}); }},
               {"anchor.far.points[0]", [](Rig& r) { r.far_anchor.points = points_at({{201, 0, 0}, {1, 0, 0}}); }},
               {"anchor.far.points[1]", [](Rig& r) { r.far_anchor.points = points_at({{1, 0, 0}, {-0.1, 1, 0}}); }},
               {"anchor.near.points[0]", [](Rig& r) { r.near_anchor.points = points_at({{0.1, 0, 0}, {-1, 0, 0}}); }},
               {"anchor.near.points", [](Rig& r) { r.near_anchor.points = points_at({{0, 1, 0}, {0, 0, -1}}); }}});
}

TEST(FindProblems, TakesPointsBehindTheirAnchorAndOneStraightDown) {
  Rig rig = plain_rig();
  rig.near_anchor.points = points_at({{-1, 0.4, 0}, {-1, -0.4, 0}, {0, 0, -1}});
  rig.far_anchor.points = points_at(std::vector<Vec3>(8, {1, 0, -0.2}));
  for (AnchorSpec* anchor : {&rig.near_anchor, &rig.far_anchor}) {
    anchor->leg_stiffness = Stated<double>::given(500e3);
    anchor->wall = 0.0;
  }
  rig.walker.leash_webbing = 1;
  rig.walker.leash_ring_friction.value = 0.0;
  for (const Problem& problem : find_problems(rig)) ADD_FAILURE() << problem.key << ' ' << problem.read;
}

Wind gusty(double speed, double gust, double time) {
  Wind wind = wind_with_defaults();
  wind.speed = speed;
  wind.gust = gust;
  wind.gust_time = Stated<double>::given(time);
  return wind;
}

TEST(FindProblems, ChecksGustsAndShakes) {
  expect_each({{"wind.gust", [](Rig& r) { r.wind = gusty(8.0, 7.9, 6.0); }},
               {"wind.gust", [](Rig& r) { r.wind = gusty(8.0, 61.0, 6.0); }},
               {"wind.gust", [](Rig& r) { r.wind = gusty(8.0, kNan, 6.0); }},
               {"wind.gust_time", [](Rig& r) { r.wind = gusty(8.0, 9.0, 0.0); }},
               {"wind.gust_time", [](Rig& r) { r.wind = gusty(8.0, 9.0, kNan); }},
               {"shake.swing", [](Rig& r) { r.shake.swing = Stated<double>::given(0.0); }},
               {"shake.swing", [](Rig& r) { r.shake.swing = Stated<double>::given(5.0); }},
               {"shake.bounce", [](Rig& r) { r.shake.bounce = Stated<double>::given(kNan); }},
               {"shake.bounce", [](Rig& r) { r.shake.bounce = Stated<double>::given(5.1); }}});
}

TEST(FindProblems, TakesAGustAsStrongAsTheSteadyWindAndTheGreatestLoss) {
  Rig rig = plain_rig();
  rig.wind = gusty(8.0, 8.0, 6.0);
  rig.webbings[0].loss = 0.5;
  rig.webbings[1].loss = 0.0;
  rig.shake.swing = Stated<double>::given(4.99);
  EXPECT_TRUE(find_problems(rig).empty());
}

TEST(FindProblems, DoesNotBlameTheFileForOurDefaultsOnAVeryShortLine) {
  Rig rig = plain_rig();
  rig.site.gap = 2.0;
  rig.near_anchor.edge = rig.far_anchor.edge = std::nullopt;
  for (const Problem& problem : find_problems(rig)) EXPECT_NE(problem.key.substr(0, 5), "shake") << problem.key;
}

TEST(FindProblems, TellsAllOfThemAtOnce) {
  Rig rig = plain_rig();
  rig.site.gap = -1.0;
  rig.walker.mass = 0.0;
  rig.webbings[0].strength = 0.0;
  const auto problems = find_problems(rig);
  for (const char* key : {"site.gap", "walker.mass", "webbing.river.strength"}) EXPECT_TRUE(has_key(problems, key)) << key;
}

}  // namespace
}  // namespace spanloom
