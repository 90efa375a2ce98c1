// The gauge where loops weigh nothing: what handbooks say of a taut string.
#include <gtest/gtest.h>

#include <cmath>

#include "base/constants.h"
#include "gauge/pulse.h"
#include "gauge/swings.h"
#include "support/gauged_rig.h"

namespace spanloom {
namespace {

constexpr double kLength = 100.0, kMass = 0.06;  // [m], of the stretched string [kg/m]

/// A nearly unstretchable main whose loops and tapes weigh next to nothing.
Rig string_rig(double tension) {
  Rig rig = plain_rig_of(kLength);
  rig.webbings[0].curve = StretchCurve::linear(1e8);
  rig.webbings[0].mass_per_length = kMass;
  rig.webbings[0].strength = 1e5;
  rig.webbings[1].mass_per_length = 1e-5;
  rig.main.tension = tension;
  rig.backup.amount = LoopDrop{{0.2}};
  return rig;
}

struct Strung {
  Hanging hanging;
  HungLine hung;
};

Strung strung(double tension, const Readings& readings) {
  Hanging hanging(string_rig(tension), readings);
  HungLine hung = hanging.hanger.hang(hanging.state(tension)).value();
  return {std::move(hanging), std::move(hung)};
}

Readings pulse_at(double at) {
  Readings readings;
  readings.pulses.push_back({at, 1, {1.0}, given(0.06), given(0.1)});
  return readings;
}

// Round trip 2 L sqrt(m / T) of a pulse, by hand for L = 100 m, m = 0.06 kg/m: 1.549193338, 1.095445115, 0.692820323,
// 0.489897949 s at 1, 2, 5, 10 kN (wave speed of a string: d'Alembert 1747; any handbook of physics).
TEST(PulseOnABareString, ComesBackAfterTwiceItsLengthOverTheWaveSpeed) {
  const double trip[][2] = {{1000.0, 1.549193338}, {2000.0, 1.095445115}, {5000.0, 0.692820323}, {10000.0, 0.489897949}};
  for (const auto& [tension, expected] : trip) {
    const Strung line = strung(tension, pulse_at(5.0));
    EXPECT_NEAR(sharp_round_trip(line.hung) / expected, 1.0, 5e-4) << tension;
    for (const int n : {1, 2, 3}) {
      const auto echo = echo_of_blow(line.hung, line.hung.node_of(0), 0.06, n);
      ASSERT_TRUE(echo);
      EXPECT_NEAR(echo->time / (n * expected), 1.0, 3e-3) << tension;
    }
  }
}

// f = n / (2 L) sqrt(T / m) (Mersenne's laws); code_aster V5.02.138 (SDNL138) gives 62.73227096 Hz for a wire of 1 m,
// 0.392028 kg/m at 6171.05 N by the same formula. Here 0.645497, 0.912871, 1.443376, 2.041241 Hz at 1, 2, 5, 10 kN.
TEST(SwingOfABareString, HasTheFrequencyOfMersennesLaw) {
  const double law[][2] = {{1000.0, 0.645497224}, {2000.0, 0.912870929}, {5000.0, 1.443375673}, {10000.0, 2.041241452}};
  for (const auto& [tension, expected] : law) {
    const Strung line = strung(tension, pulse_at(5.0));
    for (const int bellies : {1, 2, 3}) {
      const auto swing = belly_swing(line.hung, SwingWay::sideways, bellies);
      ASSERT_TRUE(swing);
      EXPECT_NEAR(swing->frequency / (bellies * expected), 1.0, 2e-3) << tension;
      EXPECT_GT(swing->share, 0.98);
    }
  }
}

TEST(PeaksOfABareString, LieAtItsNaturalFrequencies) {
  const Strung line = strung(5000.0, pulse_at(17.0));
  for (const int n : {1, 2, 3, 4}) {
    const auto peak = response_peak(line.hung, line.hung.node_of(0), SwingWay::sideways, 1.02 * n * 1.443375673, 60.0);
    ASSERT_TRUE(peak);
    EXPECT_NEAR(*peak / (n * 1.443375673), 1.0, 2e-3);
  }
}

// Tension from the sag d of a weight W at a and b from the ends of a weightless line: H = W a b / (L d). Of a line that
// weighs, its own sag w L^2 / (8 H) at the middle comes on top (Irvine 1981, ch. 2). For 80 kg: 3922.66 N at 5 m.
TEST(SagUnderAWeight, IsThatOfTheFunicularPolygon) {
  Readings readings;
  readings.sags.push_back({50.0, 80.0, 5.0, SagFrom::standing, given(0.01)});
  readings.sags.push_back({50.0, 80.0, 5.0, SagFrom::anchors, given(0.01)});
  const double standing = 3800.0;
  const Strung line = strung(standing, readings);
  const double sinks = foretold(line.hung, line.hanging.rows.rows[0]).value();
  const double below = foretold(line.hung, line.hanging.rows.rows[1]).value();
  const double own = kMass * kGravity * kLength * kLength / (8.0 * standing);
  EXPECT_NEAR(below - sinks, own, 2e-3 * own);
  // With the weight on it: the moment about an anchor of the half line over the tension it then has.
  Line loaded = line.hung.mesh.line;
  add_main_load(loaded, line.hung.mesh.asked[1], {0.0, 0.0, -80.0 * kGravity});
  const Equilibrium rest = EquilibriumSolver(loaded).solve();
  ASSERT_TRUE(rest.certified());
  const double horizontal = rest.near_force[0].x;
  const double expected = (80.0 * kGravity * 50.0 * 50.0 / kLength + kMass * kGravity * kLength * kLength / 8.0) / horizontal;
  EXPECT_NEAR(below, expected, 2e-3 * expected);
}

// A steel scale and the webbing's own curve: stretch = T / EA.
TEST(Marks, MoveApartByTensionOverAxialStiffness) {
  Readings readings;
  readings.marks.push_back({30.0, 2.0, 2.1, given(0.001)});
  Rig rig = plain_rig_of(kLength);
  rig.webbings[0].curve = StretchCurve::linear(120e3);
  const Hanging hanging(rig, readings);
  const HungLine hung = hanging.hanger.hang(hanging.state(6000.0)).value();
  EXPECT_NEAR(foretold(hung, hanging.rows.rows[0]).value(), 2.0 * 6000.0 / 120e3, 1e-4);
}

}  // namespace
}  // namespace spanloom
