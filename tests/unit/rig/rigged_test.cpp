#include "rig/rigged.h"

#include <gtest/gtest.h>

#include "support/plain_rig.h"

namespace spanloom {
namespace {

TEST(Rigged, PutsHardwareSegmentsAndConnectorsInOrder) {
  Rig rig = plain_rig();
  rig.main.run.segments = {{0, 12.0}, {1, 8.0}, {0, std::nullopt}};
  rig.main.run.connectors = {{"long", 0.5, 0.2, {}}, {"point", 0.3, 0.0, {}}};
  rig.main.run.near_hardware = {"near", 2.0, 0.8, {}};
  Rigged rigged;
  rigged.main_segment_length = {12.0, 8.0, 7.0};
  const std::vector<Piece> pieces = main_pieces(rig, rigged);
  ASSERT_EQ(pieces.size(), 5u);  // the connector of no length and the far hardware of none are not there
  EXPECT_TRUE(pieces[0].kind == Piece::Kind::link && pieces[0].index == 0);
  EXPECT_TRUE(pieces[1].kind == Piece::Kind::webbing && pieces[1].index == 0);
  EXPECT_TRUE(pieces[2].kind == Piece::Kind::link && pieces[2].index == 1);
  EXPECT_TRUE(pieces[3].kind == Piece::Kind::webbing && pieces[3].index == 1);
  EXPECT_DOUBLE_EQ(pieces[4].natural_length, 7.0);
  EXPECT_DOUBLE_EQ(main_webbing_length(rig, rigged), 12.0 + 0.2 + 8.0 + 7.0);
}

TEST(LinkOf, CountsFromTheNearHardwareToTheFarOne) {
  WebbingRun run;
  run.connectors = {{"first", 0.5, 0.2, {}}, {"second", 0.3, 0.0, {}}};
  run.near_hardware.name = "near";
  run.far_hardware.name = "far";
  const char* names[] = {"near", "first", "second", "far"};
  for (std::size_t i = 0; i < 4; ++i) EXPECT_EQ(link_of(run, i).name, names[i]);
  run.connectors.clear();
  EXPECT_EQ(link_of(run, 1).name, "far");
}

TEST(Rigged, CountsTheBackupWithoutItsHardware) {
  Rig rig = plain_rig();
  rig.backup.run.far_hardware = {"far", 0.2, 0.3, {}};
  Rigged rigged;
  rigged.backup_segment_length = {51.0};
  EXPECT_DOUBLE_EQ(backup_webbing_length(rig, rigged), 51.0);
  const std::vector<Piece> pieces = backup_pieces(rig, rigged);
  ASSERT_EQ(pieces.size(), 2u);
  EXPECT_TRUE(pieces[1].kind == Piece::Kind::link && pieces[1].index == 1);
}

TEST(RigDefaults, AreAllMarkedAsAssumed) {
  const Rig rig = rig_with_defaults();
  for (bool assumed : {rig.limits.ratio.assumed, rig.limits.anchor_ratio.assumed, rig.limits.least_drop.assumed,
                       rig.limits.reserve.assumed, rig.limits.anchor_zone.assumed, rig.limits.edge_distance.assumed,
                       rig.limits.backup_tension.assumed, rig.limits.least_ankle_margin.assumed,
                       rig.walker.leash.assumed, rig.walker.foot_to_hip.assumed, rig.walker.rescuer_mass.assumed,
                       rig.walker.drag_area.assumed, rig.walker.leash_keeps.assumed, rig.walker.leash_ring.assumed,
                       rig.walker.leash_ring_mass.assumed, rig.walker.leash_ring_friction.assumed,
                       rig.walker.body.assumed, rig.backup.ring_friction.assumed, rig.limits.body_force.assumed,
                       rig.limits.wall_reserve.assumed, rig.near_anchor.legs.assumed,
                       rig.far_anchor.leg_stiffness.assumed, rig.spacing.arm_span.assumed, rig.main.hand_tight.assumed,
                       rig.main.run.near_end.keeps.assumed, rig.backup.run.far_end.kind.assumed}) {
    EXPECT_TRUE(assumed);
  }
  EXPECT_DOUBLE_EQ(rig.limits.least_drop.value, 0.060);
  EXPECT_DOUBLE_EQ(rig.limits.reserve.value, 2.0);
}

}  // namespace
}  // namespace spanloom
