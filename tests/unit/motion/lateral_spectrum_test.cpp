// The fast spectrum against the generic response, which shares none of its elimination, and against full matrices.
#include "motion/lateral_spectrum.h"

#include <gtest/gtest.h>

#include <Eigen/LU>
#include <cmath>
#include <numbers>
#include <random>
#include <string>

#include "base/input_error.h"
#include "motion/frequency_response.h"
#include "support/dense_motion.h"
#include "support/r100.h"
#include "support/random_line.h"
#include "unit/motion/allocations.h"

namespace spanloom {
namespace {

AtRest planar_random_line(std::mt19937_64& random) {
  RandomLineKind kind;
  kind.most_bays = 6;
  kind.most_wind = 0.0;
  for (;;) {
    const RandomLine made = random_line(random, kind);
    std::size_t loops = 0;
    for (std::size_t bay = 0; bay < made.line.bays(); ++bay) loops += made.line.loop_chain(bay).count > 0 ? 1 : 0;
    if (loops != 0 && loops != made.line.bays()) continue;
    AtRest rest = at_rest(made.line);
    bool planar = rest.certified;
    for (const Vec3& p : rest.places) planar = planar && p.y == 0.0;
    if (planar) return rest;
  }
}

LateralFrequencies some_frequencies(std::size_t count) {
  LateralFrequencies frequencies{0.2, {}};
  for (std::size_t i = 0; i < count; ++i) frequencies.omega.push_back(0.7 * double(i) + 0.1);
  return frequencies;
}

std::vector<std::size_t> all_of_the_main(const MotionLine& line) {
  std::vector<std::size_t> nodes;
  for (std::size_t i = 0; i < line.main_nodes; ++i) nodes.push_back(i);
  return nodes;
}

// Greatest difference of all displacements of the main from the generic response, over the greatest displacement.
double difference(LateralSpectrum& spectrum, const AtRest& rest, const LateralFrequencies& frequencies,
                  const std::vector<std::size_t>& driven) {
  const std::vector<std::size_t> asked = all_of_the_main(rest.line);
  spectrum.take(lateral_line(rest.line, rest.places));
  spectrum.solve(driven, asked);
  const FrequencyResponse response(rest.line, rest.places, Swing::lateral);
  double worst = 0.0;
  for (std::size_t f = 0; f < frequencies.omega.size(); ++f) {
    for (std::size_t d = 0; d < driven.size(); ++d) {
      const auto generic = response.displacement(driven[d], {0.0, 1.0, 0.0}, {frequencies.sigma, frequencies.omega[f]});
      double most = 0.0, miss = std::abs(spectrum.receptance(d, f) - generic[driven[d]][1]);
      for (const std::size_t i : asked) {
        most = std::max(most, std::abs(generic[i][1]));
        miss = std::max(miss, std::abs(spectrum.displacement(d, i, f) - generic[i][1]));
      }
      if (most > 0.0) worst = std::max(worst, miss / most);
      else worst = std::max(worst, miss);
    }
  }
  return worst;
}

TEST(LateralSpectrum, AgreesWithTheGenericResponseOnRandomLines) {
  const LateralFrequencies frequencies = some_frequencies(20);
  LateralSpectrum spectrum(frequencies);  // one for all: layouts of other sizes follow each other
  std::mt19937_64 random(41);
  for (int i = 0; i < 25; ++i) {
    const AtRest rest = planar_random_line(random);
    std::vector<std::size_t> driven{random() % rest.line.main_nodes, 0, rest.line.main_nodes - 2};
    if (!rest.line.ties.empty()) driven.push_back(rest.line.ties.back().main);
    // Both sum forces up to T / l and leave the digits between that and the answer: at most about 1e-10.
    EXPECT_LE(difference(spectrum, rest, frequencies, driven), 1e-9) << "line " << i;
  }
}

TEST(LateralSpectrum, AgreesWithAFullSolve) {
  const LateralFrequencies frequencies = some_frequencies(5);
  LateralSpectrum spectrum(frequencies);
  std::mt19937_64 random(42);
  for (int i = 0; i < 10; ++i) {
    const AtRest rest = planar_random_line(random);
    const DenseMotion dense = dense_motion(rest.line, rest.places, {1});
    const std::size_t driven = 1 + random() % (rest.line.main_nodes - 2);
    spectrum.take(lateral_line(rest.line, rest.places));
    spectrum.solve({&driven, 1});
    for (std::size_t f = 0; f < frequencies.omega.size(); ++f) {
      const std::complex<double> s(frequencies.sigma, frequencies.omega[f]);
      const Eigen::MatrixXcd k = dense.stiffness.cast<std::complex<double>>() + dense.mass * (s * s);
      const Eigen::VectorXcd unit = Eigen::VectorXcd::Unit(k.rows(), dense.slot[driven]);
      const std::complex<double> full = k.partialPivLu().solve(unit)(dense.slot[driven]);
      EXPECT_LE(std::abs(spectrum.receptance(0, f) - full), 1e-9 * std::abs(full)) << "line " << i;
    }
  }
}

TEST(LateralSpectrum, LetsEndsOfEitherStrandGo) {
  const LateralFrequencies frequencies = some_frequencies(9);
  LateralSpectrum spectrum(frequencies);
  const AtRest standing = at_rest(r100::standing());
  const std::size_t main = standing.line.main_nodes, all = standing.line.nodes();
  for (const std::size_t end : {std::size_t{0}, main - 1, main, all - 1}) {
    AtRest rest = standing;
    rest.line.held[end] = 0;
    rest.line.mass[end] = 0.01;
    EXPECT_LE(difference(spectrum, rest, frequencies, {0, 7, 10, 213, main - 1}), 1e-9) << "end " << end;
  }
}

TEST(LateralSpectrum, TakesHeldNodesInsideTheLine) {
  const LateralFrequencies frequencies = some_frequencies(9);
  LateralSpectrum spectrum(frequencies);
  AtRest rest = at_rest(r100::standing());
  rest.line.held[rest.line.ties[4].main] = rest.line.held[133] = rest.line.held[rest.line.main_nodes + 30] = 1;
  EXPECT_LE(difference(spectrum, rest, frequencies, {50, 133, 45, 212}), 1e-9);
}

TEST(LateralSpectrum, ForgetsTheLineBefore) {
  const LateralFrequencies frequencies = some_frequencies(8);
  std::mt19937_64 random(43);
  LateralSpectrum used(frequencies);
  const std::size_t driven = 1;
  for (int i = 0; i < 6; ++i) {
    const AtRest rest = planar_random_line(random);
    const std::vector<std::size_t> asked = all_of_the_main(rest.line);
    LateralSpectrum fresh(frequencies);
    for (LateralSpectrum* s : {&used, &fresh}) {
      s->take(lateral_line(rest.line, rest.places));
      s->solve({&driven, 1}, asked);
    }
    for (const std::size_t node : asked) EXPECT_EQ(used.displacement(0, node, 3), fresh.displacement(0, node, 3));
  }
}

TEST(LateralSpectrum, AllocatesNothingOnceItHasSeenALine) {
  const AtRest rest = at_rest(r100::standing());
  const LateralLine lateral = lateral_line(rest.line, rest.places);
  LateralSpectrum spectrum(some_frequencies(64));
  const std::vector<std::size_t> driven{60, 140}, asked{10, 20, 30, 305};
  spectrum.take(lateral);
  spectrum.solve(driven, asked);
  const std::size_t before = allocations();
  for (int i = 0; i < 3; ++i) {
    spectrum.take(lateral);
    spectrum.solve(driven, asked);
  }
  EXPECT_EQ(allocations(), before);
  EXPECT_GT(before, 0u);
}

// The claim of the header: values at sigma + i w give the history itself, once multiplied by exp(sigma t). A string is
// pushed by a smooth bump; its modes (beads on a string, closed form) and Duhamel's integral give what it does.
TEST(LateralSpectrum, GivesTheHistoryItself) {
  constexpr std::size_t kBeads = 5, kFrequencies = 512;
  constexpr double kPeriod = 8.0, kSigma = 12.0 / kPeriod, kTension = 40.0, kSpacing = 0.5, kMass = 0.1, kWide = 0.15;
  constexpr double kPi = std::numbers::pi;
  const AtRest rest = beaded_string(kTension, kSpacing, std::vector<double>(kBeads, kMass));
  LateralFrequencies frequencies{kSigma, {}};
  for (std::size_t i = 0; i < kFrequencies; ++i) frequencies.omega.push_back(2.0 * kPi / kPeriod * double(i));
  LateralSpectrum spectrum(frequencies);
  spectrum.take(lateral_line(rest.line, rest.places));
  const std::size_t driven = 2, asked = 4;
  spectrum.solve({&driven, 1}, {&asked, 1});
  // The bump exp(-(t - t0)^2 / 2 b^2) with t0 = 8 b has begun from nothing to 1e-14.
  const double t0 = 8.0 * kWide;
  const auto bump = [&](double t) { return std::exp(-0.5 * std::pow((t - t0) / kWide, 2)); };
  const auto bump_at = [&](std::complex<double> s) {  // its Laplace transform
    return kWide * std::sqrt(2.0 * kPi) * std::exp(-s * t0 + 0.5 * s * s * kWide * kWide);
  };
  for (const double t : {1.3, 2.5, 4.0}) {
    double sum = 0.0;
    for (std::size_t i = 0; i < kFrequencies; ++i) {
      const std::complex<double> s(kSigma, frequencies.omega[i]);
      sum += (i == 0 ? 1.0 : 2.0) * std::real(spectrum.displacement(0, 0, i) * bump_at(s) * std::exp(s * t));
    }
    const double ours = sum / kPeriod;
    double closed = 0.0;
    for (std::size_t k = 1; k <= kBeads; ++k) {
      const double angle = double(k) * kPi / double(kBeads + 1);
      const double w = 2.0 * std::sqrt(kTension / (kMass * kSpacing)) * std::sin(0.5 * angle);
      const double shape = 2.0 / (double(kBeads + 1) * kMass) * std::sin(2.0 * angle) * std::sin(4.0 * angle);
      double duhamel = 0.0;
      constexpr int kSteps = 4000;  // the trapezoidal rule is exact to rounding for so smooth a bump
      const double step = t / kSteps;
      for (int j = 0; j <= kSteps; ++j) {
        duhamel += (j == 0 || j == kSteps ? 0.5 : 1.0) * step * bump(step * j) * std::sin(w * (t - step * j)) / w;
      }
      closed += shape * duhamel;
    }
    // What wraps around the period is exp(-sigma period) = 6e-6 of the swing before; the integral is good to 1e-6.
    EXPECT_NEAR(ours, closed, 2e-5 * 0.02) << "t " << t;
  }
}

TEST(LateralSpectrum, RefusesWhatHasNoAnswer) {
  EXPECT_THROW(LateralSpectrum({0.0, {1.0}}), InputError);
  EXPECT_THROW(LateralSpectrum({0.1, {std::nan("")}}), InputError);
  LateralSpectrum spectrum({0.1, {1.0, 2.0}});
  const AtRest rest = beaded_string(1000.0, 0.5, {0.1, 0.0, 0.1});
  const LateralLine good = lateral_line(rest.line, rest.places);
  EXPECT_NO_THROW(spectrum.take(good));
  LateralLine bad = good;
  bad.spring[1] = 0.0;  // beside the node of no mass
  EXPECT_THROW(spectrum.take(bad), InputError);
  bad = good;
  bad.spring[1] = std::nan("");
  EXPECT_THROW(spectrum.take(bad), InputError);
  bad = good;
  bad.mass.pop_back();
  EXPECT_THROW(spectrum.take(bad), InputError);
  bad = good;
  bad.ties = {{1, 1}};
  EXPECT_THROW(spectrum.take(bad), InputError);
  const std::size_t none = 5;
  EXPECT_THROW(spectrum.solve({&none, 1}), InputError);
}

}  // namespace
}  // namespace spanloom
