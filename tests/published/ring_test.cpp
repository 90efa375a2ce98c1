// A frictionless ring on a cord between two fixed points, worked by hand from the statics of a smooth ring
// (a standard textbook problem; from memory, derived here, no page claimed). The cord of length 2a passes
// through the ring, so it lies on an ellipse with the anchors as foci, 2c apart. Where it rests the tension is
// the same on both sides, so a load W bisects the angle: both parts make the same angle t with the vertical,
//   sin t = 2c_x / 2a, T = W / (2 cos t).
// For anchors at (0, 0) and (8, -1), cord 10: sin t = 0.8, cos t = 0.6, T = W / 1.2. The parts p and q obey
// p + q = 10 and (q - p) 0.6 = -1 (the far end is lower), so q = 25/6 = 4.1667, p = 35/6 = 5.8333; the ring is at
// x = 0.8 p = 4.6667, z = -0.6 p = -3.5.
#include <gtest/gtest.h>

#include <cmath>

#include "line/mesh.h"
#include "statics/rings.h"
#include "support/plain_rig.h"

namespace spanloom {
namespace {

// Main: so slack that it bears its own milligrams only. Backup: two bays of one bar each, locked at first as
// 5 m + 5 m, then let go. All webbing 1 mg/m and stiff: 1e-6 of the load of 600 N.
struct Freed { SlidRings slid; double load; };

Freed free_ring(double stiffness) {
  Rig rig = plain_rig();
  rig.site = {8.0, -1.0, {}};
  rig.webbings = {plain_webbing("thread", 1e-6, stiffness), plain_webbing("cord", 1e-6, stiffness)};
  rig.spacing.pattern = TapesAt{{8.0}};
  Rigged rigged;
  rigged.main_segment_length = {16.0};
  rigged.tape_s = {8.0};
  rigged.loop_length = {5.0, 5.0};
  rigged.backup_segment_length = {10.0};
  const Mesh mesh = cut_line(rig, rigged, {8, 1});
  Line line = mesh.line;
  const double load = 600.0;
  add_main_load(line, {0, line.main_chain(0).count}, {0.0, 0.0, -load});
  EquilibriumSolver solver(line);
  const Equilibrium locked = solver.solve();
  EXPECT_TRUE(locked.certified());
  return {slide_rings(mesh, line, locked), load};
}

TEST(SmoothRing, RestsWhereTheEllipseIsLowest) {
  const Freed f = free_ring(1e9);  // stretch T / EA = 5e-7: 5 micrometres on 10 m
  ASSERT_TRUE(f.slid.rest.certified());
  EXPECT_NEAR(f.slid.rest.tapes[1].x, 0.8 * 35.0 / 6.0, 2e-5);
  EXPECT_NEAR(f.slid.rest.tapes[1].z, -3.5, 2e-5);
}

TEST(SmoothRing, DividesTheCordByTheHandWorkedShares) {
  const Freed f = free_ring(1e9);
  EXPECT_NEAR(f.slid.line.length[f.slid.line.loop_chain(0).first], 35.0 / 6.0, 2e-5);
  EXPECT_NEAR(f.slid.line.length[f.slid.line.loop_chain(1).first], 25.0 / 6.0, 2e-5);
  EXPECT_NEAR(f.slid.slid_max, 5.0 / 6.0, 2e-5);
}

TEST(SmoothRing, PullsAlikeOnBothSides) {
  const Freed f = free_ring(1e9);
  EXPECT_NEAR(norm(f.slid.rest.near_force[1]), f.load / 1.2, 1e-3);
  EXPECT_NEAR(norm(f.slid.rest.near_force[3]), f.load / 1.2, 1e-3);
}

}  // namespace
}  // namespace spanloom
