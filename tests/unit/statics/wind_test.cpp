#include "statics/wind.h"

#include <gtest/gtest.h>

#include "statics/natural_lengths.h"
#include "statics/plan.h"
#include "support/plain_rig.h"

namespace spanloom {
namespace {

// Aeronautical Engineer's Data Book, fig. 5.13(b): long flat plate 1.98; ISO 2533 air 1.225 kg/m3.
TEST(StripDrag, OfTwentyFiveMillimetresAtTenMetresASecond) { EXPECT_NEAR(strip_drag(0.025, 10.0), 3.031875, 1e-12); }

TEST(StripDrag, GrowsWithTheSquareOfTheWind) {
  EXPECT_NEAR(strip_drag(0.025, 20.0) / strip_drag(0.025, 10.0), 4.0, 1e-12);
}

TEST(WalkerDrag, IsHalfRhoAreaSpeedSquared) {
  EXPECT_NEAR(walker_drag(plain_rig().walker, 10.0).y, 0.5 * 1.225 * 0.7 * 100.0, 1e-12);
}

TEST(SideWind, CarriesTheDragOfEveryStandingMetre) {
  const Rig rig = plain_rig();
  const StandingOutcome found = find_natural_lengths(rig, {8, 8});
  ASSERT_TRUE(found.rig);
  const EquilibriumSolver solver(found.rig->mesh.line);
  const Line blown = in_side_wind(found.rig->mesh, solver, found.rig->standing, 10.0);
  double side = 0.0, metres = 0.0;
  for (const Vec3& load : blown.load) side += load.y;
  for (const Vec3& load : blown.tape_load) side += load.y;
  for (std::size_t c = 0; c < blown.chains.size(); ++c) {
    metres += solver.chains().stretched_length(c, found.rig->standing.near_force[c]);
  }
  EXPECT_NEAR(side, 3.031875 * metres, 1e-9 * side);
}

TEST(SideWind, BlowsAFlatTautLineOutAsAParabola) {
  // Main and loops together, q = 2 x 0.3031875 N/m of side load at 3.1623 m/s on a stiff line pulled to 15 kN:
  // q L^2 / (8 T), the loops' own longer way 0.6 % of it. Level, so its weight acts across.
  Rig rig = plain_rig();
  rig.webbings[0] = plain_webbing("river", 0.060, 5e6);
  rig.main.tension = 15000.0;
  rig.backup.amount = SlackShare{{0.006}};
  rig.wind = Wind{std::sqrt(10.0)};
  const PlanOutcome plan = make_plan(rig);
  ASSERT_TRUE(plan.plan);
  const double parabola = 2.0 * 0.3031875 * 50.0 * 50.0 / (8.0 * 15000.0);
  EXPECT_NEAR(plan.plan->wind->blow_out, parabola, 0.01 * parabola);
}

TEST(SideWind, OfNothingChangesNothing) {
  Rig rig = plain_rig();
  rig.wind = Wind{0.0};
  const PlanOutcome plan = make_plan(rig);
  ASSERT_TRUE(plan.plan);
  EXPECT_NEAR(plan.plan->wind->blow_out, 0.0, 1e-9);
  double greatest = 0.0;
  for (const WalkerPlace& p : plan.plan->walker) greatest = std::max(greatest, p.at_tape ? 0.0 : p.tension_max);
  EXPECT_NEAR(plan.plan->wind->tension_max, greatest, 1e-7 * greatest);
}

TEST(SideWind, FromTheOtherSideIsTheMirrorImage) {
  const Rig rig = plain_rig();
  const StandingOutcome found = find_natural_lengths(rig, {8, 8});
  ASSERT_TRUE(found.rig);
  EquilibriumSolver solver(found.rig->mesh.line);
  Line blown = in_side_wind(found.rig->mesh, solver, found.rig->standing, 12.0);
  Line back = blown;
  for (Vec3& load : back.load) load.y = -load.y;
  for (Vec3& load : back.tape_load) load.y = -load.y;
  EquilibriumSolver one(blown), two(back);
  const Equilibrium a = one.solve(), b = two.solve();
  ASSERT_TRUE(a.certified() && b.certified());
  EXPECT_GT(a.tapes[5].y, 0.1);
  for (std::size_t k = 0; k < a.tapes.size(); ++k) {
    EXPECT_NEAR(a.tapes[k].x, b.tapes[k].x, 1e-9);
    EXPECT_NEAR(a.tapes[k].y, -b.tapes[k].y, 1e-9);
    EXPECT_NEAR(a.tapes[k].z, b.tapes[k].z, 1e-9);
  }
}

}  // namespace
}  // namespace spanloom
