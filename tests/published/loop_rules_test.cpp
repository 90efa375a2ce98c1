// The riggers' shallow-loop rules, as limits of the solved line. Source: the arc length of a shallow cable,
// s = l (1 + (8/3) (d/l)^2 ...), in any handbook of mechanics (e.g. Irvine 1981, ch. 1). The next term is
// that of the catenary, from s = 2 a sinh(l / 2a), d = a (cosh(l / 2a) - 1): -(224/45) (d/l)^4 l.
#include <gtest/gtest.h>

#include <cmath>

#include "statics/equilibrium.h"
#include "support/r100.h"

namespace spanloom {
namespace {

// Drop of a loop between level fixed points.
double drop(double span, double extra_length) {
  constexpr std::size_t kBars = 256;
  const double length = span + extra_length;
  LineBuilder builder({StretchCurve::linear(1e10)}, {{}, {span, 0.0, 0.0}, {}, {}});
  builder.add_bay(std::vector<BarSpec>(kBars, {length / double(kBars), 0, 0.05}), {});
  EquilibriumSolver solver(std::move(builder).build());
  const Equilibrium state = solver.solve();
  EXPECT_TRUE(state.certified());
  return -solver.shape(state).main[0][kBars / 2].z;
}

TEST(ShallowLoop, NeedsEightThirdsOfDropSquaredOverSpanMoreLength) {
  for (double ratio : {0.01, 0.02, 0.05, 0.1}) {
    const double span = 3.0, wanted = ratio * span;
    const double d = drop(span, 8.0 * wanted * wanted / (3.0 * span));
    // The next term makes the drop (14/15) (d/l)^2 larger; the ones after it are of order (d/l)^4, and
    // 256 bars leave 2e-5.
    EXPECT_NEAR(d / wanted, 1.0 + 14.0 / 15.0 * ratio * ratio, std::pow(ratio, 4) + 2e-5) << "d/l " << ratio;
  }
}

TEST(ShallowLoop, OfTwiceTheSpanNeedsHalfTheExtraLengthForTheSameDrop) {
  // And so a quarter of the slack share: half the extra on twice the length. d/l 0.04 and 0.02: the
  // next terms leave (14/15) (0.04^2 - 0.02^2) = 1.12e-3, those after them and the mesh 1e-5.
  const double extra = 8.0 * 0.12 * 0.12 / (3.0 * 3.0);
  const double narrow = drop(3.0, extra), wide = drop(6.0, 0.5 * extra);
  EXPECT_NEAR(narrow / wide, 1.0 + 1.12e-3, 1.5e-5);
  EXPECT_NEAR((0.5 * extra / 6.0) / (extra / 3.0), 0.25, 1e-15);
}

TEST(MainUnderAWalker, KinksByWeightTimesBayOverFourTensions) {
  // P l / (4 T) below its tapes (statics of a weightless main). Against it: T for H is 0.26 % here, the
  // bay's own weight 0.1 %.
  Line line = r100::standing();
  add_main_load(line, {20, r100::kMainBars / 2}, {0.0, 0.0, -r100::kWalkerWeight});
  EquilibriumSolver solver(line);
  const Equilibrium state = solver.solve();
  ASSERT_TRUE(state.certified());
  const std::vector<Vec3> main = solver.shape(state).main[20];
  const double kink = 0.5 * (main.front().z + main.back().z) - main[r100::kMainBars / 2].z;
  const double bay = main.back().x - main.front().x, tension = norm(state.near_force[40]);
  EXPECT_NEAR(kink / (r100::kWalkerWeight * bay / (4.0 * tension)), 1.0, 4e-3);
}

}  // namespace
}  // namespace spanloom
