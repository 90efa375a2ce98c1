// Many small resonators on one heavy mass take energy from it as one viscous damper would: Xu & Igusa 1992, Earthquake Eng.
// Struct. Dyn. 21, 1059-1070 (abstract). For n of equal stiffness k, natural frequencies d apart, the damper is
// c = pi k / (2 d) (derived here from the energy that resonators of one band take in, as the paper does; from memory).
//
// Here the main is one rigid mass: a chain so stiff that it moves as one, on two soft springs. Each bay's loop is one node
// between two tapes that move alike: a resonator. So a bank of resonators is a line, and the engine's own elimination is
// asked, which knows nothing of dampers.
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <complex>
#include <numbers>
#include <span>
#include <vector>

#include "motion/lateral_spectrum.h"

namespace spanloom {
namespace {

constexpr double kMassRatio = 0.02, kBand = 0.3;
constexpr double kStiff = 1e7;            // of each bar of the main [N/m]: its own swings are above 100 rad/s

// A mass of 1 kg on 1 N/m and resonators of so many natural frequencies [rad/s], equal stiffness, 0.02 kg in all.
struct Bank {
  double stiffness = 0.0;                 // of each [N/m]
  LateralLine line;

  explicit Bank(const std::vector<double>& frequencies) {
    double flexibility = 0.0;
    for (const double w : frequencies) flexibility += 1.0 / (w * w);
    stiffness = kMassRatio / flexibility;
    const std::size_t n = frequencies.size(), tapes = n + 1;
    line.main_nodes = tapes + 2;
    line.mass.assign(line.main_nodes, 1.0 / double(tapes));
    line.spring.assign(line.main_nodes - 1, kStiff);
    line.spring.front() = line.spring.back() = 0.5;
    line.spring.push_back(0.0);           // between the strands
    // Backup: held end, tape, resonator, tape ... tape, held end. Nothing hangs in the end bays.
    line.mass.push_back(0.0);
    line.spring.push_back(0.0);
    for (std::size_t i = 0; i < tapes; ++i) {
      line.ties.push_back({i + 1, line.mass.size()});
      line.mass.push_back(0.0);
      if (i == n) break;
      line.spring.insert(line.spring.end(), 2, 0.5 * stiffness);
      line.mass.push_back(stiffness / (frequencies[i] * frequencies[i]));
    }
    line.spring.push_back(0.0);
    line.mass.push_back(0.0);
    line.held.assign(line.mass.size(), 0);
    for (const std::size_t end : {std::size_t(0), line.main_nodes - 1, line.main_nodes, line.mass.size() - 1}) line.held[end] = 1;
  }
};

std::vector<double> spread(std::size_t n) {
  std::vector<double> frequencies;
  for (std::size_t i = 0; i < n; ++i) frequencies.push_back(1.0 + kBand * ((double(i) + 0.5) / double(n) - 0.5));
  return frequencies;
}

// Displacement of the mass under a unit force, at each rate [m/N]. @param loss  damping ratio of resonators at 1 rad/s
std::vector<std::complex<double>> receptance(const Bank& bank, double loss, const std::vector<double>& rates) {
  LateralSpectrum spectrum({1e-9, rates, 2.0 * loss});
  spectrum.take(bank.line);
  const std::size_t middle = bank.line.main_nodes / 2;
  spectrum.solve(std::span(&middle, 1));
  std::vector<std::complex<double>> receptance;
  for (std::size_t i = 0; i < rates.size(); ++i) receptance.push_back(spectrum.receptance(0, i));
  return receptance;
}

double at_resonance(std::size_t n, double loss) { return std::abs(receptance(Bank(spread(n)), loss, {1.0})[0]); }

// Damper: 1 / c = 9.7691 for these. Summed up outside the engine 9.7784 and 9.9237 come out for 1000 and 100 resonators of
// damping ratio 5e-4 and 4e-3 (each its own, while the engine's loses alike per second: that is the allowance).
TEST(BankOfResonators, LeavesOfTheResonanceWhatItsEquivalentDamperLeaves) {
  const double spacing = kBand / 1000.0;
  const double damper = std::numbers::pi * Bank(spread(1000)).stiffness / (2.0 * spacing);
  EXPECT_NEAR(1.0 / damper, 9.7691, 1e-4);
  EXPECT_NEAR(at_resonance(1000, 5e-4), 9.7691, 0.002 * 9.7691);
  EXPECT_NEAR(at_resonance(1000, 5e-4), 9.7784, 0.0005 * 9.7784);
  EXPECT_NEAR(at_resonance(100, 4e-3), 9.9237, 0.001 * 9.9237);
}

// pi / 4 times mass ratio over band is half the share of energy lost a radian: a peak of 1 / (2 zeta).
TEST(BankOfResonators, DampsByMassRatioOverBand) {
  const double zeta = 0.25 * std::numbers::pi * kMassRatio / kBand;
  EXPECT_NEAR(0.5 / at_resonance(1000, 5e-4), zeta, 0.03 * zeta);  // the band is not small: 2.3 % by 1 / w^2 over it
}

// Less of their own loss in fact changes nothing as long as neighbours overlap: the energy stays in the resonators.
TEST(BankOfResonators, OwesItsDampingToTheirNumberNotToTheirLoss) {
  const double some = at_resonance(4000, 5e-4);
  EXPECT_NEAR(at_resonance(4000, 2.5e-4), some, 0.002 * some);
}

// The same mass at one frequency kills the response there and puts two peaks beside it; spread it leaves less over the band.
TEST(BankOfResonators, SpreadLeavesLessOverABandThanTheSameMassAtOneFrequency) {
  std::vector<double> rates;
  for (int i = 0; i <= 600; ++i) rates.push_back(0.85 + 0.0005 * i);
  const auto greatest = [&](const Bank& bank) {
    double greatest = 0.0;
    for (const auto& h : receptance(bank, 4e-3, rates)) greatest = std::max(greatest, std::abs(h));
    return greatest;
  };
  const Bank many(spread(100)), tuned(std::vector<double>(100, 1.0));
  EXPECT_LT(std::abs(receptance(tuned, 4e-3, {1.0})[0]), 0.2 * std::abs(receptance(many, 4e-3, {1.0})[0]));
  EXPECT_LT(greatest(many), 0.5 * greatest(tuned));
}

}  // namespace
}  // namespace spanloom
