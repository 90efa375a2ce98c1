// Small motion against published and closed-form values. Source beside each; where a value carries the error of a
// known mesh, that error is taken off or extrapolated away and the order of convergence is checked instead.
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <numbers>
#include <vector>

#include "motion/small_motion.h"
#include "support/at_rest.h"
#include "support/cable_line.h"
#include "support/r100.h"

namespace spanloom {
namespace {

constexpr double kPi = std::numbers::pi;
constexpr double kTwoPi = 2.0 * kPi;

std::vector<double> frequencies(const AtRest& rest, Swing swing, std::size_t most) {
  EXPECT_TRUE(rest.certified);
  const Modes modes = natural_modes(rest.line, rest.places, swing, {.most = most});
  EXPECT_TRUE(modes.certified);
  EXPECT_EQ(modes.modes.size(), most);
  std::vector<double> values;
  for (const Mode& mode : modes.modes) values.push_back(mode.frequency);
  values.resize(most, 0.0);
  return values;
}

// Error of second order in the mesh taken off, from a mesh and one twice as fine.
double extrapolated(double coarse, double fine) { return fine + (fine - coarse) / 3.0; }

// ---- Taut strings

// A string of so many bars; half a bar's mass at each held end does not move. Its frequencies are those of the
// string times sin(x) / x, x = k pi / (2 bars) (beads on a string).
double string_frequency(double tension, double mass_per_length, double length, std::size_t bars) {
  const double bar = length / double(bars), x = kPi / (2.0 * double(bars));
  const AtRest rest = beaded_string(tension, bar, std::vector<double>(bars - 1, mass_per_length * bar));
  return frequencies(rest, Swing::lateral, 1)[0] * x / std::sin(x);
}

TEST(BeadsOnAString, SwingAsLagrangeFound) {
  // w_k = 2 sqrt(T / (m a)) sin(k pi / (2 (N + 1))); Lagrange; Rayleigh, Theory of Sound (from memory).
  // T 1000 N, m 0.1 kg, a 0.5 m, N 5; ten digits printed.
  const double printed[] = {11.65095046, 22.5079079, 31.83098862, 38.98484006, 43.48193908};
  const AtRest beads = beaded_string(1000.0, 0.5, std::vector<double>(5, 0.1));
  const std::vector<double> ours = frequencies(beads, Swing::lateral, 5);
  for (std::size_t k = 0; k < 5; ++k) EXPECT_NEAR(ours[k], printed[k], 6e-9);
}

TEST(TautString, HasThePitchOfItsTension) {
  // f1 = sqrt(T / mu) / 2 L, any handbook; L 100 m, mu 0.06 kg/m.
  const double tension[] = {1e3, 2e3, 5e3, 10e3};
  const double hertz[] = {0.645497224, 0.912870929, 1.443375673, 2.041241452};
  for (int i = 0; i < 4; ++i) EXPECT_NEAR(string_frequency(tension[i], 0.06, 100.0, 100), hertz[i], 1e-9);
}

TEST(TautString, AgreesWithTheCableOfSdnl138) {
  // code_aster validation case V5.02.138 (SDNL138): A 5.026e-5 m2, rho 7800 kg/m3, L 1 m.
  const double mu = 5.026e-5 * 7800.0;
  EXPECT_NEAR(string_frequency(6171.050459855, mu, 1.0, 50), 62.73227096292, 1e-9);
  EXPECT_NEAR(string_frequency(12345.2954376, mu, 1.0, 50), 88.72830898254, 1e-9);
}

TEST(TautString, OfALaboratorySoundsAtItsTension) {
  // University of Minnesota string exercise: 1.25e-4 kg on 0.33 m sounds at 640 Hz under "68 N" (4 m L f^2).
  EXPECT_NEAR(string_frequency(68.0, 1.25e-4 / 0.33, 0.33, 50), 640.0, 640.0 * 0.5 * 0.5 / 68.0);
}

// ---- Hanging chain

// 1 m hanging from one end; the mass of a bar half at each of its ends, the lowest end free.
AtRest hanging_chain(std::size_t bars) {
  const double a = 1.0 / double(bars), mass = a, axial_stiffness = 1e3;
  AtRest rest = beaded_string(axial_stiffness, a, std::vector<double>(bars - 1, mass));
  rest.line.mass.back() = 0.5 * mass;
  rest.line.held.back() = 0;
  for (std::size_t i = 0; i < bars; ++i) {
    const double tension = kGravity * mass * (double(bars - i) - 0.5);
    rest.line.length[i] = a / (1.0 + tension / axial_stiffness);
  }
  for (std::size_t i = 0; i <= bars; ++i) rest.places[i] = {0.0, 0.0, -a * double(i)};
  return rest;
}

TEST(HangingChain, SwingsAtTheZerosOfBessel) {
  // w_n sqrt(L / g) = j_0n / 2 (Bernoulli 1732, Euler 1781; zeros 2.4048, 5.5201, 8.6537, 11.7915 of J0).
  const double zeros[] = {1.20241277885, 2.76003905514, 4.32686395646, 5.89576721951};
  for (const Swing swing : {Swing::lateral, Swing::in_plane}) {
    std::vector<double> mesh[3];
    for (std::size_t i = 0; i < 3; ++i) mesh[i] = frequencies(hanging_chain(std::size_t(200) << i), swing, 4);
    for (std::size_t k = 0; k < 4; ++k) {
      const double exact = zeros[k] * std::sqrt(kGravity) / kTwoPi;
      EXPECT_NEAR((mesh[0][k] - exact) / (mesh[1][k] - exact), 4.0, 0.03) << k;
      // What is left falls by sixteen a mesh: 2e-6 of the fourth between 200 and 400 bars.
      EXPECT_NEAR(extrapolated(mesh[1][k], mesh[2][k]) / exact, 1.0, 2e-7) << k;
    }
  }
}

// ---- Slack loops

// Span 10 m, hardly stretching; natural length over span given.
AtRest slack_loop(double length_over_span, std::size_t bars) {
  const double span = 10.0, weight = 50.0;
  LineBuilder builder({StretchCurve::linear(1e7 * weight * span)}, {{}, {span, 0, 0}, {}, {span, 0, 0}});
  builder.add_bay(std::vector<BarSpec>(bars, {span * length_over_span / double(bars), 0, weight / kGravity}), {});
  return at_rest(std::move(builder).build());
}

struct LoopNumbers {
  std::vector<double> number;  // w^2 d / g of the slowest modes, extrapolated from 200 and 400 bars
  double flatness = 0.0;       // d / l
};

LoopNumbers loop_numbers(double length_over_span, Swing swing, std::size_t most) {
  std::vector<double> number[2];
  double flatness[2];
  for (std::size_t i = 0; i < 2; ++i) {
    const std::size_t bars = std::size_t(200) << i;
    const AtRest rest = slack_loop(length_over_span, bars);
    const double drop = -rest.places[bars / 2].z;
    flatness[i] = drop / rest.places.back().x;
    for (const double f : frequencies(rest, swing, most)) {
      number[i].push_back(std::pow(kTwoPi * f, 2) * drop / kGravity);
    }
  }
  for (std::size_t k = 0; k < most; ++k) number[1][k] = extrapolated(number[0][k], number[1][k]);
  return {number[1], extrapolated(flatness[0], flatness[1])};
}

TEST(SlackLoop, SwingsSidewaysAsTheCatenaryDoes) {
  // Lateral modes of v'' + (w^2 / (g a)) cosh(x / a) v = 0, the flexible catenary, solved to nine digits apart
  // from this engine. The engine's tension rounds at 1e-8; what extrapolation leaves is about 1e-7 of the second.
  struct { double length_over_span, first, second; } const table[] = {
      {1.00663585, 1.23458072, 4.92345543}, {1.02618687, 1.23713511, 4.89059344}, {1.09971821, 1.24625111, 4.77418674},
      {1.20941017, 1.25855784, 4.61936038}, {1.4958337, 1.28492467, 4.29731434},  {2.37101942, 1.33486975, 3.72031025}};
  for (const auto& row : table) {
    const std::vector<double> ours = loop_numbers(row.length_over_span, Swing::lateral, 2).number;
    EXPECT_NEAR(ours[0] / row.first, 1.0, 5e-7) << row.length_over_span;
    EXPECT_NEAR(ours[1] / row.second, 1.0, 5e-7) << row.length_over_span;
  }
}

TEST(SlackLoop, SwaysInItsPlaneAsAnotherMeshDoes) {
  // First in-plane mode (antisymmetric) of a bar mesh made apart from this engine: six digits at best.
  struct { double length_over_span, first; } const table[] = {
      {1.00663585, 4.82688}, {1.02618687, 4.54118}, {1.09971821, 3.77151}, {1.20941017, 3.11131}, {1.4958337, 2.35278}};
  for (const auto& row : table) {
    const double ours = loop_numbers(row.length_over_span, Swing::in_plane, 1).number[0];
    EXPECT_NEAR(ours / row.first, 1.0, 1e-5) << row.length_over_span;
  }
}

TEST(SlackLoop, WhenShallowTendsToItsLimits) {
  // d / l to 0: sideways w^2 = (pi^2 / 8) g / d, not the 5 / 4 of a rigid swing; sway in its plane (pi^2 / 2) g / d.
  // Both are reached in (d / l)^2, as the modes of a parabola (Irvine 1981, ch. 3): taken to 0 from 0.02 and 0.01; the
  // next term, (d / l)^4, was 6.7e-5 of the sway from 0.04 and 0.02 on, and falls sixteenfold.
  const auto length = [](double d) { return 1.0 + 8.0 / 3.0 * d * d; };
  const auto limit = [&](Swing swing) {
    const LoopNumbers a = loop_numbers(length(0.02), swing, 1), b = loop_numbers(length(0.01), swing, 1);
    const double from = a.flatness * a.flatness, to = b.flatness * b.flatness;
    return b.number[0] + (b.number[0] - a.number[0]) * to / (from - to);
  };
  EXPECT_NEAR(limit(Swing::lateral) / (kPi * kPi / 8.0), 1.0, 1e-6);
  EXPECT_NEAR(limit(Swing::in_plane) / (kPi * kPi / 2.0), 1.0, 8e-6);
}

// ---- Sagging cables

struct CableNumbers {
  std::vector<double> in_plane, lateral;  // w l sqrt(m / H) / pi
};

// Span 100 m, 1 N/m, sag so that w l^2 / 8 H is `sag`; natural length by the exact elastic catenary.
CableNumbers cable_numbers(double lambda2, double sag, std::size_t bars) {
  const double l = 100.0, w = 1.0, h = w * l * l / (8.0 * sag);
  ElasticCable cable;
  cable.weight_per_length = w;
  // lambda^2 = (w l / H)^2 EA l / (H Le), Le = l (1 + 8 (d / l)^2).
  cable.axial_stiffness = lambda2 * h * h * h * (1.0 + 8.0 * sag * sag / (l * l)) / (w * w * l * l);
  double length = l;
  for (int i = 0; i < 60; ++i) {
    length -= cable.along(length, {h, 0.5 * w * length}).x - l;  // dx/ds is 1 but for the slope and stretch
  }
  cable.length = {length};
  const AtRest rest = at_rest(cable_line(cable, l, 0.0, {1, bars}));
  CableNumbers numbers{frequencies(rest, Swing::in_plane, 5), frequencies(rest, Swing::lateral, 3)};
  for (auto* list : {&numbers.in_plane, &numbers.lateral}) {
    for (double& f : *list) f *= 2.0 * l * std::sqrt(w / kGravity / h);
  }
  return numbers;
}

// Theory: tan(w / 2) = w / 2 - (4 / lambda^2) (w / 2)^3 for symmetric in-plane modes, 2 n pi for the others, n pi out of
// plane. Source: Irvine & Caughey (1974), Proc. R. Soc. A 341, 299-315 (from memory; also Irvine 1981, ch. 3); roots
// solved apart from this engine. As w / pi, all modes in order.
struct Theory { double lambda2; std::vector<double> in_plane; };
const std::vector<Theory>& irvine_caughey() {
  static const std::vector<Theory> rows = {{10.0, {1.34512451, 2.0, 3.01682545, 4.0, 5.00341664}},
                                           {4.0 * kPi * kPi, {2.0, 2.0, 3.09342223, 4.0, 5.01527811}},
                                           {100.0, {2.0, 2.59718454, 3.47967508, 4.0, 5.05266279}},
                                           {16.0 * kPi * kPi, {2.0, 2.73748579, 4.0, 4.0, 5.12215253}}};
  return rows;
}

TEST(SaggingCable, SwingsAsIrvineAndCaugheyFound) {
  // The theory is that of a shallow parabola, off by O((d / l)^2): 1e-3 at d / l = 0.01.
  for (const Theory& row : irvine_caughey()) {
    const CableNumbers ours = cable_numbers(row.lambda2, 1.0, 400);
    SCOPED_TRACE(row.lambda2);
    for (std::size_t k = 0; k < 5; ++k) EXPECT_NEAR(ours.in_plane[k] / row.in_plane[k], 1.0, 1e-3) << k;
    for (std::size_t k = 0; k < 3; ++k) EXPECT_NEAR(ours.lateral[k] / double(k + 1), 1.0, 3e-4) << k;
  }
}

TEST(SaggingCable, ComesToThatTheoryAsItsSagSquared) {
  // Half the sag, a quarter of the difference; the mesh is extrapolated away. With lambda^2 as stated the theory's
  // next terms are (d / l)^4, which 0.1 lets pass.
  const auto exact = [](double sag, std::size_t k) {
    return extrapolated(cable_numbers(100.0, sag, 200).in_plane[k], cable_numbers(100.0, sag, 400).in_plane[k]);
  };
  const std::vector<double>& theory = irvine_caughey()[2].in_plane;
  for (const std::size_t k : {0, 2, 3, 4}) {  // of the second the sag's share is too small to tell
    EXPECT_NEAR((exact(2.0, k) - theory[k]) / (exact(1.0, k) - theory[k]), 4.0, 0.1) << k;
  }
}

TEST(SaggingCable, AgreesWithAnotherMesh) {
  // Bars of the true sagging cable, d / l = 0.01, 400 bars, made apart from this engine: the digits printed, and as
  // much again for how its natural length was set.
  const auto expect = [](double lambda2, std::vector<std::pair<std::size_t, double>> values) {
    const CableNumbers ours = cable_numbers(lambda2, 1.0, 400);
    for (const auto& [k, value] : values) EXPECT_NEAR(ours.in_plane[k], value, 2.5e-5) << lambda2 << " mode " << k;
  };
  expect(10.0, {{0, 1.34524}, {2, 3.01696}});
  expect(4.0 * kPi * kPi, {{0, 1.9991}, {1, 2.00003}});
  expect(100.0, {{1, 2.59711}, {2, 3.47899}});
}

// ---- The agreed line

TEST(R100, SwingsUpAndDownAsAgreed) {
  // The agreed line R100 (support/r100.h); digits as printed.
  const std::vector<double> ours = frequencies(at_rest(r100::standing()), Swing::in_plane, 2);
  EXPECT_NEAR(ours[0], 1.073068, 1e-6);
  EXPECT_NEAR(ours[1], 2.14244, 1e-5);
}

TEST(R100, WithoutLoopsSwingsUpAndDownAsAgreed) {
  const std::vector<BarSpec> bay(r100::kMainBars, {96.774750014 / 400.0, 0, r100::kMainMass});
  const Vec3 far{r100::kGap, 0.0, 0.0};
  LineBuilder builder({StretchCurve::linear(r100::kMainStiffness)}, {{}, far, {}, far});
  for (std::size_t i = 0; i < r100::kBays; ++i) builder.add_bay(bay, {});
  const std::vector<double> ours = frequencies(at_rest(std::move(builder).build()), Swing::in_plane, 3);
  EXPECT_NEAR(ours[0], 1.46746, 1e-5);
  EXPECT_NEAR(ours[1], 2.93438, 1e-5);
  EXPECT_NEAR(ours[2], 4.40155, 1e-5);
}

}  // namespace
}  // namespace spanloom
