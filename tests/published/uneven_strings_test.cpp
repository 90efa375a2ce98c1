// What disorder does to waves on strings with beads: the physics behind uneven tapes, in its plainest published forms.
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <numbers>
#include <random>
#include <vector>

#include "motion/lateral_spectrum.h"
#include "motion/small_motion.h"
#include "support/at_rest.h"

namespace spanloom {
namespace {

constexpr double kPi = std::numbers::pi;

double uniform(std::mt19937_64& random) { return double(random() >> 11) * 0x1p-52 - 1.0; }  // -1 to 1

TEST(RandomBeads, LetAWaveDieOutAsTheorySays) {
  // Springs 1 N/m, beads of 1 kg +- 30 % (sigma^2 = 0.03): a wave of rate w falls by exp(-gamma) a bead,
  // gamma = sigma^2 w^2 / 8 / (1 - w^2 / 4). Source: Matsuda & Ishii (1970), Suppl. Prog. Theor. Phys. 45 (from memory).
  // Numbers by random matrices apart from this engine: 1.4813e-3 at 0.6, 5.0297e-3 at 1 rad/s. Here the response far
  // from a shaken bead, over 4e6 beads: ln of it scatters with variance 2 gamma a bead, three deviations allowed.
  constexpr std::size_t kBeads = 20000, kLines = 200;
  LateralSpectrum spectrum({1e-7, {0.6, 1.0}});
  LateralLine line{kBeads + 2, std::vector<double>(kBeads + 1, 1.0), std::vector<double>(kBeads + 2, 1.0),
                   std::vector<char>(kBeads + 2, 0), {}};
  line.held.front() = line.held.back() = 1;
  std::mt19937_64 random(7);
  const std::size_t shaken = 500, from = 1000, to = kBeads - 500;
  const std::vector<std::size_t> asked{from, to};
  double fallen[2] = {};
  for (std::size_t i = 0; i < kLines; ++i) {
    for (double& m : line.mass) m = 1.0 + 0.3 * uniform(random);
    spectrum.take(line);
    spectrum.solve({&shaken, 1}, asked);
    for (std::size_t f = 0; f < 2; ++f) {
      fallen[f] += std::log(std::abs(spectrum.displacement(0, 0, f)) / std::abs(spectrum.displacement(0, 1, f)));
    }
  }
  const double beads = double(kLines) * double(to - from), apart[2] = {1.4813e-3, 5.0297e-3};
  for (std::size_t f = 0; f < 2; ++f) {
    EXPECT_NEAR(fallen[f] / beads, apart[f], 3.0 * std::sqrt(2.0 * apart[f] / beads));
  }
}

// 50 masses on a wire of 51 spacings; wire of unit tension and mass per length, beads as heavy as a spacing of wire.
// So in He & Maynard (1986), Phys. Rev. Lett. 57, 3171 (from memory), as told in Acoustics Today, Winter 2010, p. 23:
// about 50 resonances a band; shapes spread over the wire where spacings are even, gathered in a part of it where not.
constexpr std::size_t kBeads = 50;

// @param each  bars a spacing
AtRest beaded_wire(double unevenness, unsigned seed, std::size_t each = 32) {
  AtRest rest = beaded_string(1.0, 1.0 / double(each), std::vector<double>((kBeads + 1) * each - 1, 0.0));
  std::mt19937_64 random(seed);
  double x = 0.0;
  for (std::size_t k = 0; k <= kBeads; ++k) {
    const double bar = (1.0 + unevenness * uniform(random)) / double(each);
    for (std::size_t i = k * each; i < (k + 1) * each; ++i) {
      rest.places[i].x = x + bar * double(i - k * each);
      rest.line.length[i] = 0.5 * bar;  // T = EA e with e = 1
      rest.line.mass[i] += 0.5 * bar;
      rest.line.mass[i + 1] += 0.5 * bar;
    }
    x += bar * double(each);
    rest.places[(k + 1) * each].x = x;
    if (k < kBeads) rest.line.mass[(k + 1) * each] += 1.0;
  }
  return rest;
}

double bloch(double x) { return std::cos(x) - 0.5 * x * std::sin(x); }  // cos of the phase from bead to bead

TEST(BeadedWire, HasTheBandsOfAnEvenLattice) {
  // Edges of the bands, w a / c: 0 to 1.72066718, pi to 4.05751568, 2 pi to 6.85123692 (roots of bloch = +-1, solved apart
  // from this engine). Modes of the even wire are at phases k pi / 51; at pi and 2 pi all beads rest.
  const AtRest wire = beaded_wire(0.0, 0);
  const auto below = [&](double rate) {
    return count_modes_below(wire.line, wire.places, Swing::lateral, rate / (2.0 * kPi));
  };
  EXPECT_EQ(below(1.72066718), 50u);
  EXPECT_EQ(below(kPi - 0.01), 50u);
  EXPECT_EQ(below(4.05751568), 101u);
  EXPECT_EQ(below(2.0 * kPi - 0.05), 101u);
  EXPECT_EQ(below(6.85123692), 152u);
  // From 16 and 32 bars a spacing to no mesh at all; what is left is of order (w h)^4 / 100.
  const AtRest coarse = beaded_wire(0.0, 0, 16);
  const Modes two[] = {natural_modes(coarse.line, coarse.places, Swing::lateral, {.most = 101}),
                       natural_modes(wire.line, wire.places, Swing::lateral, {.most = 101})};
  ASSERT_TRUE(two[0].certified && two[1].certified);
  for (std::size_t i = 0; i < 101; ++i) {
    const double fine = two[1].modes[i].frequency, x = 2.0 * kPi * (fine + (fine - two[0].modes[i].frequency) / 3.0);
    const double phase = i < 50 ? double(i + 1) : double(101 - i);
    EXPECT_NEAR(bloch(x), std::cos(phase * kPi / 51.0), std::pow(x / 16.0, 4) / 100.0 + 1e-9) << "mode " << i;
  }
}

// Median over the second band of (integral of u^2)^2 / integral of u^4, a length in spacings.
double median_spread(double unevenness, unsigned seed) {
  const AtRest wire = beaded_wire(unevenness, seed);
  const Modes modes = natural_modes(wire.line, wire.places, Swing::lateral, {.most = 101});
  EXPECT_TRUE(modes.certified);
  std::vector<double> spread;
  for (std::size_t m = 51; m < modes.modes.size(); ++m) {
    double two = 0.0, four = 0.0;
    for (std::size_t i = 1; i < wire.places.size(); ++i) {
      const double u = modes.modes[m].shape[i].y, bar = wire.places[i].x - wire.places[i - 1].x;
      two += u * u * bar;
      four += u * u * u * u * bar;
    }
    spread.push_back(two * two / four);
  }
  std::nth_element(spread.begin(), spread.begin() + std::ptrdiff_t(spread.size() / 2), spread.end());
  return spread[spread.size() / 2];
}

TEST(BeadedWire, GathersItsShapesWhereSpacingsAreUneven) {
  // Computed apart from this engine: 22.3 spacings even, 19 at +-2 %, 4.8 at +-10 % (one wire each). Of one wire, so the
  // even value to a per cent or two, the uneven ones as a mean of ten within a third.
  EXPECT_NEAR(median_spread(0.0, 0), 22.313, 0.4);
  double little = 0.0, much = 0.0;
  for (unsigned seed = 1; seed <= 10; ++seed) {
    little += 0.1 * median_spread(0.02, seed);
    much += 0.1 * median_spread(0.10, seed);
  }
  EXPECT_NEAR(little, 19.03, 19.03 / 3.0);
  EXPECT_NEAR(much, 4.79, 4.79 / 3.0);
}

}  // namespace
}  // namespace spanloom
