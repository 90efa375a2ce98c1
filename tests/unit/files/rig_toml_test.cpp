// What a rig file means when it is right.
#include "files/rig_toml.h"

#include <gtest/gtest.h>

#include <cmath>

#include "rig_texts.h"

namespace spanloom {
namespace {

using test::rig_of;
using test::small_rig;
using test::with;

TEST(RigToml, ReadsTheSmallestRig) {
  const Rig rig = rig_of(small_rig());
  EXPECT_EQ(rig.title, "Test gap");
  EXPECT_DOUBLE_EQ(rig.site.gap, 20.0);
  EXPECT_DOUBLE_EQ(rig.site.rise, 1.0);
  ASSERT_EQ(rig.webbings.size(), 1u);
  EXPECT_EQ(rig.webbings[0].name, "reed");
  EXPECT_DOUBLE_EQ(rig.webbings[0].mass_per_length, 0.060);
  EXPECT_DOUBLE_EQ(rig.webbings[0].strength, 30000.0);
  EXPECT_DOUBLE_EQ(rig.webbings[0].curve.tension(0.02), 2000.0);
  EXPECT_EQ(rig.main.tension, 3000.0);
  ASSERT_EQ(rig.main.run.segments.size(), 1u);
  EXPECT_EQ(rig.main.run.segments[0].natural_length, std::nullopt);
  EXPECT_EQ(std::get<SlackShare>(rig.backup.amount).of_bay, std::vector<double>{0.02});
  EXPECT_EQ(rig.backup.joint, Joint::taped);
  EXPECT_DOUBLE_EQ(std::get<EvenBays>(rig.spacing.pattern).length, 2.0);
  EXPECT_DOUBLE_EQ(rig.walker.mass, 70.0);
}

TEST(RigToml, MarksWhatIsLeftOutAsOurDefault) {
  const Rig rig = rig_of(small_rig());
  EXPECT_TRUE(rig.walker.leash.assumed);
  EXPECT_TRUE(rig.limits.ratio.assumed);
  EXPECT_TRUE(rig.webbings[0].width.assumed);
  EXPECT_TRUE(rig.webbings[0].wet_keeps.assumed);
  EXPECT_TRUE(rig.main.run.near_end.kind.assumed);
  EXPECT_TRUE(rig.main.hand_tight.assumed);
  EXPECT_TRUE(rig.spacing.arm_span.assumed);
  EXPECT_FALSE(rig.wind.has_value());
  EXPECT_FALSE(rig.near_anchor.strength.has_value());
}

TEST(RigToml, MarksWhatIsStatedAsStatedEvenIfItEqualsTheDefault) {
  const Rig rig = rig_of(small_rig() + "leash = \"1.4 m\"\n[limits]\nratio = 3\nleast_drop = \"60 mm\"\n");
  EXPECT_FALSE(rig.walker.leash.assumed);
  EXPECT_FALSE(rig.limits.ratio.assumed);
  EXPECT_DOUBLE_EQ(rig.limits.ratio.value, 3.0);
  EXPECT_FALSE(rig.limits.least_drop.assumed);
  EXPECT_TRUE(rig.limits.reserve.assumed);
}

TEST(RigToml, ReadsSegmentsAndConnectors) {
  const Rig rig = rig_of(with(small_rig(), "webbing = \"reed\"\ntension", R"(segments = [
  { webbing = "reed", length = "8 m" },
  { webbing = "reed" },
]
connectors = [{ name = "soft link", mass = "60 g", length = "120 mm", strength = "50 kN" }]
near_hardware = { mass = "2 kg", length = "80 cm" }
tension)"));
  ASSERT_EQ(rig.main.run.segments.size(), 2u);
  EXPECT_EQ(rig.main.run.segments[0].natural_length, 8.0);
  EXPECT_EQ(rig.main.run.segments[1].natural_length, std::nullopt);
  ASSERT_EQ(rig.main.run.connectors.size(), 1u);
  EXPECT_EQ(rig.main.run.connectors[0].name, "soft link");
  EXPECT_DOUBLE_EQ(rig.main.run.connectors[0].mass, 0.06);
  EXPECT_EQ(rig.main.run.connectors[0].strength, 50000.0);
  EXPECT_DOUBLE_EQ(rig.main.run.near_hardware.length, 0.8);
  EXPECT_FALSE(rig.main.run.near_hardware.name.empty());
}

TEST(RigToml, ReadsALengthInPlaceOfATension) {
  const Rig one = rig_of(with(small_rig(), "tension = \"3 kN\"", "natural_length = \"19 m\""));
  EXPECT_EQ(one.main.tension, std::nullopt);
  EXPECT_EQ(one.main.run.segments[0].natural_length, 19.0);
  const Rig list = rig_of(with(small_rig(), "webbing = \"reed\"\ntension = \"3 kN\"",
                               "segments = [{ webbing = \"reed\", length = \"19 m\" }]"));
  EXPECT_EQ(list.main.run.segments[0].natural_length, 19.0);
}

TEST(RigToml, ReadsEndsAndTails) {
  const Rig rig = rig_of(with(small_rig(), "tension = \"3 kN\"", R"(tension = "3 kN"
near_end = { kind = "clamp" }
far_end = { kind = "sewn", keeps = "88 %" }
near_tail = "6 m")"));
  EXPECT_EQ(rig.main.run.near_end.kind.value, EndKind::clamp);
  EXPECT_FALSE(rig.main.run.near_end.kind.assumed);
  EXPECT_TRUE(rig.main.run.near_end.keeps.assumed);
  EXPECT_DOUBLE_EQ(rig.main.run.near_end.keeps.value, default_keeps(EndKind::clamp));
  EXPECT_FALSE(rig.main.run.far_end.keeps.assumed);
  EXPECT_DOUBLE_EQ(rig.main.run.far_end.keeps.value, 0.88);
  EXPECT_DOUBLE_EQ(rig.main.run.near_tail.value, 6.0);
}

TEST(RigToml, ReadsLoopsForAllBaysOrOneByOne) {
  const Rig drop = rig_of(with(small_rig(), "slack = \"2 %\"", "drop = \"120 mm\""));
  EXPECT_EQ(std::get<LoopDrop>(drop.backup.amount).of_bay, std::vector<double>{0.12});
  const Rig length = rig_of(with(small_rig(), "slack = \"2 %\"", "length = [\"2 m\", \"210 cm\"]"));
  EXPECT_EQ(std::get<LoopLength>(length.backup.amount).of_bay, (std::vector<double>{2.0, 2.1}));
}

TEST(RigToml, ReadsJointOffsetsAndTapes) {
  const Rig rig = rig_of(with(small_rig(), "slack = \"2 %\"", R"(slack = "2 %"
joint = "ring"
near_offset = ["0 m", "0.3 m", "-20 cm"]
tape_strength = "900 N"
ring_friction = 0.2
tape_mass = "4 g")"));
  EXPECT_EQ(rig.backup.joint, Joint::ring);
  EXPECT_DOUBLE_EQ(rig.backup.ring_friction.value, 0.2);
  EXPECT_FALSE(rig.backup.ring_friction.assumed);
  EXPECT_EQ(rig.backup.near_offset, (Vec3{0.0, 0.3, -0.2}));
  EXPECT_EQ(rig.backup.far_offset, Vec3{});
  EXPECT_EQ(rig.backup.tape_strength, 900.0);
  EXPECT_DOUBLE_EQ(rig.backup.tape_mass, 0.004);
}

TEST(RigToml, ReadsSpacingByArmSpansAndPlaces) {
  const Rig repeat = rig_of(with(small_rig(), "even = \"2 m\"", R"(arm_span = "1.75 m"
repeat = [1, 2, 1.5]
close = { centre = "10 m", length = "4 m", spacing = 0.5 })"));
  EXPECT_EQ(std::get<RepeatArmSpans>(repeat.spacing.pattern).arm_spans, (std::vector<double>{1.0, 2.0, 1.5}));
  EXPECT_DOUBLE_EQ(repeat.spacing.arm_span.value, 1.75);
  ASSERT_TRUE(repeat.spacing.close.has_value());
  EXPECT_DOUBLE_EQ(repeat.spacing.close->arm_spans, 0.5);
  const Rig at = rig_of(with(small_rig(), "even = \"2 m\"", "at = [\"1.6 m\", \"3.1 m\"]"));
  EXPECT_EQ(std::get<TapesAt>(at.spacing.pattern).positions, (std::vector<double>{1.6, 3.1}));
}

TEST(RigToml, ReadsAnchorsWindAndPlaces) {
  const Rig rig = rig_of(small_rig() +
                         "[anchor.near]\nstrength = \"45 kN\"\n[anchor.far]\nedge = \"2 m\"\n"
                         "[wind]\nspeed = \"18 km/h\"\n[places]\nwalker = [\"3 m\", \"7 m\"]\n");
  EXPECT_EQ(rig.near_anchor.strength, 45000.0);
  EXPECT_EQ(rig.near_anchor.edge, std::nullopt);
  EXPECT_EQ(rig.far_anchor.edge, 2.0);
  EXPECT_DOUBLE_EQ(rig.wind->speed, 5.0);
  EXPECT_EQ(rig.extra_places, (ExtraPlaces{3.0, 7.0}));
}

TEST(RigToml, ReadsTheLeashAndTheBodyOnIt) {
  const Rig rig = rig_of(small_rig() + R"(leash_webbing = "reed"
leash_keeps = "60 %"
leash_ring = "main"
leash_ring_mass = "180 g"
leash_ring_friction = 0.12
body = "two masses"
[limits]
body_force = "5 kN"
wall_reserve = "80 cm"
)");
  EXPECT_EQ(rig.walker.leash_webbing, 0u);
  EXPECT_DOUBLE_EQ(rig.walker.leash_keeps.value, 0.6);
  EXPECT_EQ(rig.walker.leash_ring.value, LeashRing::around_main);
  EXPECT_DOUBLE_EQ(rig.walker.leash_ring_mass.value, 0.18);
  EXPECT_DOUBLE_EQ(rig.walker.leash_ring_friction.value, 0.12);
  EXPECT_EQ(rig.walker.body.value, BodyModel::two_masses);
  EXPECT_DOUBLE_EQ(rig.limits.body_force.value, 5000.0);
  EXPECT_DOUBLE_EQ(rig.limits.wall_reserve.value, 0.8);
  EXPECT_FALSE(rig.walker.leash_ring.assumed || rig.walker.body.assumed || rig.limits.body_force.assumed);
  EXPECT_EQ(rig_of(small_rig() + "leash_ring = \"both\"\nbody = \"one mass\"\n").walker.body.value, BodyModel::one_mass);
}

TEST(RigToml, AssumesALeashARingAndABody) {
  const Rig rig = rig_of(small_rig() + "[anchor.near]\nedge = \"2 m\"\n");
  EXPECT_EQ(rig.walker.leash_webbing, std::nullopt);
  EXPECT_TRUE(rig.walker.leash_keeps.assumed && rig.walker.leash_ring.assumed && rig.walker.body.assumed);
  EXPECT_EQ(rig.walker.leash_ring.value, LeashRing::around_both);
  EXPECT_TRUE(rig.near_anchor.legs.assumed && rig.near_anchor.leg_stiffness.assumed);
  EXPECT_DOUBLE_EQ(rig.near_anchor.leg_stiffness.value, rig.far_anchor.leg_stiffness.value);
  EXPECT_GT(rig.near_anchor.leg_stiffness.value, 0.0);
}

TEST(RigToml, ReadsWallsAndThePointsOfAnAnchor) {
  const Rig rig = rig_of(small_rig() + R"([anchor.near]
wall = "0.5 m"
legs = "equalising"
leg_stiffness = "600 kN"
points = [{ name = "left bolt", at = ["-1.2 m", "40 cm", "-0.1 m"], strength = "25 kN" },
          { name = "right bolt", length = "1.3 m", angle = "-90 deg" }]
)");
  EXPECT_EQ(rig.near_anchor.wall, 0.5);
  EXPECT_EQ(rig.near_anchor.legs.value, LegKind::equalising);
  EXPECT_DOUBLE_EQ(rig.near_anchor.leg_stiffness.value, 600e3);
  ASSERT_EQ(rig.near_anchor.points.size(), 2u);
  EXPECT_EQ(rig.near_anchor.points[0].name, "left bolt");
  EXPECT_EQ(rig.near_anchor.points[0].at, (Vec3{-1.2, 0.4, -0.1}));
  EXPECT_EQ(rig.near_anchor.points[0].strength, 25e3);
  EXPECT_EQ(rig.near_anchor.points[1].strength, std::nullopt);
  EXPECT_LT(norm(rig.near_anchor.points[1].at - Vec3{0.0, -1.3, 0.0}), 1e-12);
  EXPECT_FALSE(rig.near_anchor.legs.assumed);
}

// cos 60 = sin 30 = 1/2: 2 m at 60 degrees to the left go 1 m back and sqrt(3) m left; 2 m that rise 30 go 1 m up.
TEST(RigToml, ReadsLegsBackFromEitherAnchorWithLeftTheSame) {
  const std::string points = "points = [{ name = \"a\", length = \"2 m\", angle = \"60 deg\" },\n"
                             "{ name = \"b\", length = \"2 m\", angle = \"0 deg\", rise = \"30 deg\" }]\n";
  const Rig rig = rig_of(small_rig() + "[anchor.near]\n" + points + "[anchor.far]\n" + points);
  const double root = std::sqrt(3.0);
  EXPECT_LT(norm(rig.near_anchor.points.at(0).at - Vec3{-1.0, root, 0.0}), 1e-12);
  EXPECT_LT(norm(rig.far_anchor.points.at(0).at - Vec3{1.0, root, 0.0}), 1e-12);
  EXPECT_LT(norm(rig.near_anchor.points.at(1).at - Vec3{-root, 0.0, 1.0}), 1e-12);
  EXPECT_LT(norm(rig.far_anchor.points.at(1).at - Vec3{root, 0.0, 1.0}), 1e-12);
}

TEST(RigToml, ReadsGustsAndShakes) {
  const Rig rig = rig_of(small_rig() + "[wind]\nspeed = \"5 m/s\"\ngust = \"36 km/h\"\ngust_time = \"500 ms\"\n"
                                       "[shake]\nswing = \"15 cm\"\nbounce = \"1 ft\"\n");
  EXPECT_DOUBLE_EQ(rig.wind->gust.value(), 10.0);
  EXPECT_DOUBLE_EQ(rig.wind->gust_time.value, 0.5);
  EXPECT_FALSE(rig.wind->gust_time.assumed);
  EXPECT_DOUBLE_EQ(rig.shake.swing.value, 0.15);
  EXPECT_DOUBLE_EQ(rig.shake.bounce.value, 0.3048);
  EXPECT_FALSE(rig.shake.swing.assumed);
}

TEST(RigToml, AssumesShakesAndHowLongAGustTakes) {
  const Rig rig = rig_of(small_rig() + "[wind]\nspeed = \"5 m/s\"\n");
  EXPECT_EQ(rig.wind->gust, std::nullopt);
  EXPECT_TRUE(rig.wind->gust_time.assumed);
  EXPECT_GT(rig.wind->gust_time.value, 0.0);
  EXPECT_TRUE(rig.shake.swing.assumed && rig.shake.bounce.assumed);
  EXPECT_GT(rig.shake.swing.value, 0.0);
}

TEST(RigToml, ReadsGroundAndCurveFromCsv) {
  const std::string text = with(with(small_rig(), "rise = \"1 m\"", "ground = \"g.csv\""),
                                "stretch = [[\"2 kN\", \"2 %\"], [\"10 kN\", \"7 %\"]]", "stretch_csv = \"c.csv\"");
  const Rig rig = rig_of(text, [](const std::string& name) {
    return SideFile{name == "g.csv" ? "distance [m],height [m]\n0,-1\n20,-9\n" : "tension [kN],stretch [%]\n2,2\n10,7\n",
                    ""};
  });
  ASSERT_EQ(rig.site.ground.size(), 2u);
  EXPECT_DOUBLE_EQ(rig.site.ground[1].height, -9.0);
  EXPECT_DOUBLE_EQ(rig.webbings[0].curve.tension(0.07), 10000.0);
}

TEST(RigToml, ReadsTheSameRigInUsUnits) {
  const Rig metric = rig_of(small_rig());
  std::string text = with(small_rig(), "gap = \"20 m\"", "gap = \"65 ft 7.4015748031496 in\"");
  text = with(text, "mass = \"70 kg\"", "mass = \"154.32358352941 lb\"");
  const Rig us = rig_of(text);
  EXPECT_NEAR(us.site.gap, metric.site.gap, 1e-12);
  EXPECT_NEAR(us.walker.mass, metric.walker.mass, 1e-10);
}

}  // namespace
}  // namespace spanloom
