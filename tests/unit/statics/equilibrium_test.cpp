#include "statics/equilibrium.h"

#include <gtest/gtest.h>

#include <cmath>
#include <utility>

#include "statics/certify.h"
#include "support/r100.h"

namespace spanloom {
namespace {

Equilibrium solved(const Line& line) {
  EquilibriumSolver solver(line);
  return solver.solve();
}

TEST(Equilibrium, IsCertifiedWithAFewSteps) {
  for (const Line& line : {r100::standing(), r100::walked()}) {
    const Equilibrium state = solved(line);
    ASSERT_TRUE(state.certified());
    EXPECT_LE(state.certificate.iterations, 5);
    EXPECT_LT(state.certificate.residual, 1e-6);
  }
}

TEST(Equilibrium, IsTheSameByNewtonAndByDescent) {
  EquilibriumSolver solver(r100::walked());
  const Equilibrium newton = solver.solve(), descent = solver.solve_by_descent();
  ASSERT_TRUE(newton.certified() && descent.certified());
  for (std::size_t k = 0; k < newton.tapes.size(); ++k) {
    EXPECT_LT(norm(newton.tapes[k] - descent.tapes[k]), 1e-9);
  }
}

TEST(Equilibrium, IsTheSameFromNothingAndFromAnotherLoad) {
  EquilibriumSolver solver(r100::walked());
  const Equilibrium at_once = solver.solve();
  Line elsewhere = r100::standing();
  add_main_load(elsewhere, {3, 5}, {0.0, 200.0, -2000.0});
  solver.set_loads(elsewhere);
  const Equilibrium other = solver.solve();
  ASSERT_TRUE(other.certified());
  solver.set_loads(r100::walked());
  const Equilibrium back = solver.solve_from(other);
  ASSERT_TRUE(back.certified());
  for (std::size_t k = 0; k < back.tapes.size(); ++k) EXPECT_LT(norm(back.tapes[k] - at_once.tapes[k]), 1e-9);
}

TEST(Equilibrium, HoldsAWalkerAtEveryNodeOfTheMain) {
  EquilibriumSolver solver(r100::standing());
  const Equilibrium standing = solver.solve();
  for (std::size_t bay = 0; bay < r100::kBays; ++bay) {
    for (std::size_t bar = 1; bar <= r100::kMainBars; ++bar) {
      Line line = r100::standing();
      add_main_load(line, {bay, bar}, {0.0, 0.0, -r100::kWalkerWeight});
      solver.set_loads(line);
      ASSERT_TRUE(solver.solve_from(standing).certified()) << "bay " << bay << " bar " << bar;
    }
  }
}

TEST(Equilibrium, CarriesAllOfTheWeightOnItsAnchors) {
  const Line line = r100::walked();
  const Equilibrium state = solved(line);
  Vec3 all;
  for (const Vec3& load : line.load) all += load;
  for (const Vec3& load : line.tape_load) all += load;
  const Vec3 near = state.near_force[0] + state.near_force[1] + line.tape_load.front();
  const std::size_t last = line.chains.size() - 1;
  const Vec3 far = -(state.far_force[last - 1] + state.far_force[last]) + line.tape_load.back();
  EXPECT_LT(norm(near + far - all), 1e-8);
}

TEST(Equilibrium, TakesTheBackupOnAnchorsOfItsOwn) {
  // Backup anchors half a metre below: its first loop must end there.
  LineBuilder builder({StretchCurve::linear(150e3), StretchCurve::linear(250e3)},
                      {{}, {20.0, 0.0, 0.0}, {0.2, 0.1, -0.5}, {19.8, 0.0, -0.5}});
  for (int k = 0; k < 8; ++k) {
    builder.add_bay(std::vector<BarSpec>(4, {2.4 / 4, 0, 0.06}), std::vector<BarSpec>(6, {2.7 / 6, 1, 0.05}));
  }
  EquilibriumSolver solver(std::move(builder).build());
  const Equilibrium state = solver.solve();
  ASSERT_TRUE(state.certified());
  const Shape shape = solver.shape(state);
  EXPECT_EQ(shape.loop.front().front(), (Vec3{0.2, 0.1, -0.5}));
  EXPECT_EQ(shape.loop.back().back(), (Vec3{19.8, 0.0, -0.5}));
  EXPECT_EQ(shape.loop[3].front(), state.tapes[3]);
}

TEST(Equilibrium, HangsACutMainOnItsBackup) {
  // One bay's main far too long to carry anything: its loop is pulled taut and carries the line.
  LineBuilder builder({StretchCurve::linear(150e3), StretchCurve::linear(250e3)},
                      {{}, {20.0, 0.0, 0.0}, {}, {20.0, 0.0, 0.0}});
  for (int k = 0; k < 8; ++k) {
    const double main = k == 3 ? 6.0 : 2.4;
    builder.add_bay(std::vector<BarSpec>(8, {main / 8, 0, 0.06}), std::vector<BarSpec>(8, {2.6 / 8, 1, 0.05}));
  }
  const Line line = std::move(builder).build();
  const Equilibrium state = solved(line);
  ASSERT_TRUE(state.certified());
  EXPECT_GT(norm(state.near_force[7]), 20.0 * norm(state.near_force[6]));
}

// What must not pass as a rest.
class Tampered : public testing::Test {
 protected:
  const Line line = r100::walked();
  EquilibriumSolver solver{line};
  const Equilibrium state = solver.solve();
  Shape shape = solver.shape(state);
};

TEST_F(Tampered, HoldsUntouched) { EXPECT_TRUE(holds(certify(line, shape, state.near_force))); }

TEST_F(Tampered, FailsWithANodeOfTheMainMoved) {
  shape.main[7][4].z += 1e-7;
  EXPECT_FALSE(holds(certify(line, shape, state.near_force)));
}

TEST_F(Tampered, FailsWithANodeOfALoopMoved) {
  shape.loop[30][2].x += 1e-7;
  EXPECT_FALSE(holds(certify(line, shape, state.near_force)));
}

TEST_F(Tampered, FailsWithATapeMoved) {
  shape.main[9].back().y += 1e-6;
  shape.main[10].front().y += 1e-6;
  EXPECT_FALSE(holds(certify(line, shape, state.near_force)));
}

TEST_F(Tampered, FailsUnderAnotherLoad) {
  Line heavier = line;
  add_main_load(heavier, {12, 3}, {0.0, 0.0, -1e-3});
  EXPECT_FALSE(holds(certify(heavier, shape, state.near_force)));
}

TEST_F(Tampered, FailsWithAForceThatIsNotThere) {
  std::vector<Vec3> claimed = state.near_force;
  claimed[20].x += 50.0;
  EXPECT_FALSE(holds(certify(line, shape, claimed)));
}

TEST_F(Tampered, FailsWithANumberThatIsNone) {
  shape.main[7][4].z = std::nan("");
  EXPECT_FALSE(holds(certify(line, shape, state.near_force)));
}

TEST(EnergyGap, IsTheWorkOfMovingANode) {
  const Line line = r100::walked();
  EquilibriumSolver solver(line);
  const Equilibrium state = solver.solve();
  EXPECT_LT(std::abs(state.certificate.energy_gap), 1e-14 * state.certificate.energy_scale);
  Shape shape = solver.shape(state);
  const Vec3 bar = shape.main[7][4] - shape.main[7][3];
  const double up = 1e-4;
  shape.main[7][4].z += up;
  // Two bars take the node's move, each with T / l across and EA / L along (linear theory; the next term
  // is up / l = 4e-4 of it).
  const double slope = bar.z / norm(bar), tension = norm(state.near_force[14]);
  const double stiffness = 2.0 * (tension / norm(bar) * (1.0 - slope * slope) + r100::kMainStiffness / line.length[0] * slope * slope);
  const double gap = certify(line, shape, state.near_force).energy_gap;
  EXPECT_NEAR(gap / (0.5 * stiffness * up * up), 1.0, 2e-3);
}

}  // namespace
}  // namespace spanloom
