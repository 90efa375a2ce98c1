// The agreed line R100 (support/r100.h): values on which three independent programs agreed, to the digits
// given. Tolerance: 1e-6 relative.
#include <gtest/gtest.h>

#include "statics/equilibrium.h"
#include "support/r100.h"

namespace spanloom {
namespace {

struct Solved {
  Equilibrium state;
  Line line;
};

Solved solved(const Line& line) {
  EquilibriumSolver solver(line);
  Solved made{solver.solve(), line};
  EXPECT_TRUE(made.state.certified());
  return made;
}

double middle_sag(const Equilibrium& state) { return -state.tapes[r100::kBays / 2].z; }

void expect_same(double ours, double published) { EXPECT_NEAR(ours / published, 1.0, 1e-6); }

TEST(R100, StandsAsAgreed) {
  const Equilibrium state = solved(r100::standing()).state;
  expect_same(middle_sag(state), 0.266680);
  expect_same(norm(state.near_force.front()), 5000.000);
  expect_same(norm(state.far_force[2 * r100::kBays - 2]), 5000.000);
}

TEST(R100, CarriesTheWalkerAsAgreed) {
  const auto [state, line] = solved(r100::walked());
  expect_same(middle_sag(state), 3.848961);
  expect_same(norm(state.near_force.front()), 5458.0894);
  expect_same(norm(state.near_force[r100::kBays]), 5454.1016);
}

TEST(R100, LoadsItsAnchorsAsAgreed) {
  const auto [state, line] = solved(r100::walked());
  // Main, backup and the anchor's share of their weight together.
  const Vec3 near = state.near_force[0] + state.near_force[1] + line.tape_load.front();
  const Vec3 far = -(state.far_force[2 * r100::kBays - 2] + state.far_force[2 * r100::kBays - 1]) + line.tape_load.back();
  expect_same(near.x, 5442.2030);
  expect_same(-near.z, 445.622);
  expect_same(-far.x, 5442.2030);
  expect_same(-far.z, 445.622);
}

TEST(R100, SagsAsAgreedOnFinerMeshes) {
  expect_same(middle_sag(solved(r100::walked(2)).state), 3.848953);
  expect_same(middle_sag(solved(r100::walked(4)).state), 3.848951);
}

TEST(R100, ConvergesAtSecondOrder) {
  // Sags on four meshes, each twice as fine: the steps between them fall by four.
  double sag[4];
  for (std::size_t i = 0; i < 4; ++i) sag[i] = middle_sag(solved(r100::walked(std::size_t(1) << i)).state);
  EXPECT_NEAR((sag[0] - sag[1]) / (sag[1] - sag[2]), 4.0, 0.05);
  EXPECT_NEAR((sag[1] - sag[2]) / (sag[2] - sag[3]), 4.0, 0.05);
}

}  // namespace
}  // namespace spanloom
