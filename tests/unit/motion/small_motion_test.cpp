// The band eigensolver against full matrices solved by Eigen, a general-purpose library, and against closed forms.
#include "motion/small_motion.h"

#include <gtest/gtest.h>

#include <Eigen/LU>
#include <algorithm>
#include <cmath>
#include <numbers>
#include <random>
#include <string>

#include "base/input_error.h"
#include "motion/frequency_response.h"
#include "support/dense_motion.h"
#include "support/r100.h"
#include "support/random_line.h"

namespace spanloom {
namespace {

constexpr double kTwoPi = 2.0 * std::numbers::pi;

std::vector<int> axes(Swing swing) {
  if (swing == Swing::lateral) return {1};
  if (swing == Swing::in_plane) return {0, 2};
  return {0, 1, 2};
}

bool lies_in_a_plane(const AtRest& rest) {
  for (const Vec3& p : rest.places) {
    if (p.y != 0.0) return false;
  }
  return true;
}

// Up to four bays, planar or not, taut or slack; certified, and with loops in all bays or none.
AtRest small_random_line(std::mt19937_64& random) {
  RandomLineKind kind;
  kind.most_bays = 4;
  for (;;) {
    kind.most_wind = random() % 2 == 0 ? 0.0 : 20.0;
    const RandomLine made = random_line(random, kind);
    std::size_t loops = 0;
    for (std::size_t bay = 0; bay < made.line.bays(); ++bay) loops += made.line.loop_chain(bay).count > 0 ? 1 : 0;
    if (loops != 0 && loops != made.line.bays()) continue;
    AtRest rest = at_rest(made.line);
    if (rest.certified) return rest;
  }
}

// Two solvers of K x = w^2 M x differ by the rounding of the greatest w^2.
double rounding(const Eigen::VectorXd& squares) { return 1e-15 * double(squares.size()) * squares.tail(1)(0); }

void expect_as_dense(const AtRest& rest, Swing swing, std::size_t most) {
  const DenseMotion dense = dense_motion(rest.line, rest.places, axes(swing));
  const Eigen::VectorXd squares = dense.squares();
  const Modes modes = natural_modes(rest.line, rest.places, swing, {.most = most});
  ASSERT_TRUE(modes.certified);
  ASSERT_EQ(modes.modes.size(), std::min(most, std::size_t(squares.size())));
  for (std::size_t i = 0; i < modes.modes.size(); ++i) {
    const Mode& mode = modes.modes[i];
    const double square = std::pow(kTwoPi * mode.frequency, 2);
    EXPECT_NEAR(square, squares(Eigen::Index(i)), 1e-10 * square + rounding(squares)) << "mode " << i;
    const Eigen::VectorXd x = dense.unknowns(mode.shape);
    EXPECT_NEAR(x.dot(dense.mass * x), 1.0, 1e-12);
    const Eigen::VectorXd miss = dense.stiffness * x - square * (dense.mass * x);
    const Eigen::VectorXd weighted = miss.cwiseQuotient(dense.mass.diagonal().cwiseSqrt());
    EXPECT_LE(weighted.norm(), 1e-8 * square + rounding(squares)) << "mode " << i;
  }
}

double largest_overlap(const Modes& modes, const MotionLine& line) {
  double largest = 0.0;
  for (std::size_t i = 0; i < modes.modes.size(); ++i) {
    for (std::size_t j = 0; j < i; ++j) {
      double sum = 0.0;
      for (std::size_t k = 0; k < line.nodes(); ++k) {
        sum += line.mass[k] * dot(modes.modes[i].shape[k], modes.modes[j].shape[k]);
      }
      largest = std::max(largest, std::abs(sum));
    }
  }
  return largest;
}

// A straight main between held tapes with loops as straight beside it: every bay alike to the last bit.
AtRest held_even_bays(std::size_t bays, std::size_t bars) {
  AtRest rest = beaded_string(1000.0, 0.25, std::vector<double>(bays * bars - 1, 0.02));
  MotionLine& line = rest.line;
  for (std::size_t k = 1; k < bays; ++k) line.held[k * bars] = 1;
  return rest;
}

TEST(NaturalModes, AgreeWithAFullEigenproblemOnRandomLines) {
  std::mt19937_64 random(31);
  for (int i = 0; i < 12; ++i) {
    SCOPED_TRACE("line " + std::to_string(i));
    const AtRest rest = small_random_line(random);
    expect_as_dense(rest, Swing::all, 25);
    if (!lies_in_a_plane(rest)) continue;
    expect_as_dense(rest, Swing::lateral, 1000);
    expect_as_dense(rest, Swing::in_plane, 25);
  }
}

TEST(NaturalModes, AreCountedAsTheFullEigenproblemHasThem) {
  std::mt19937_64 random(32);
  for (int i = 0; i < 8; ++i) {
    const AtRest rest = small_random_line(random);
    const Eigen::VectorXd squares = dense_motion(rest.line, rest.places, {0, 1, 2}).squares();
    for (Eigen::Index k = 0; k + 1 < squares.size(); ++k) {
      if (squares(k + 1) - squares(k) < 10.0 * rounding(squares)) continue;
      const double between = std::sqrt(std::max(0.0, 0.5 * (squares(k) + squares(k + 1)))) / kTwoPi;
      EXPECT_EQ(count_modes_below(rest.line, rest.places, Swing::all, between), std::size_t(k + 1));
    }
  }
}

TEST(NaturalModes, OfAnEvenLineAreAllFound) {
  // R100 has forty equal loops, which swing nearly alike: the hard case for a search that could miss one.
  const AtRest rest = at_rest(r100::standing());
  for (const Swing swing : {Swing::lateral, Swing::in_plane}) {
    const Eigen::VectorXd squares = dense_motion(rest.line, rest.places, axes(swing)).squares();
    const Modes modes = natural_modes(rest.line, rest.places, swing, {.below_Hz = 5.0});
    ASSERT_TRUE(modes.certified);
    std::size_t below = 0;
    while (squares(Eigen::Index(below)) < std::pow(kTwoPi * 5.0, 2)) ++below;
    ASSERT_EQ(modes.modes.size(), below);
    for (std::size_t i = 0; i < below; ++i) {
      const double square = squares(Eigen::Index(i));
      EXPECT_NEAR(std::pow(kTwoPi * modes.modes[i].frequency, 2), square, 1e-10 * square + rounding(squares));
      EXPECT_LE(modes.modes[i].residual, 1e-8);
    }
    // Rounding of K over the gap of 1e-3 from which on shapes are left as they came: 1e-7 in its plane.
    EXPECT_LE(largest_overlap(modes, rest.line), 1e-7);
  }
}

TEST(NaturalModes, ThatCannotBeToldApartAreAllFound) {
  // Forty stretches of string between held points, all the same: every frequency forty times.
  constexpr std::size_t kBays = 40, kBars = 6;
  const AtRest rest = held_even_bays(kBays, kBars);
  const Modes modes = natural_modes(rest.line, rest.places, Swing::lateral, {.most = 3 * kBays});
  ASSERT_TRUE(modes.certified);
  ASSERT_EQ(modes.modes.size(), 3 * kBays);
  for (std::size_t i = 0; i < modes.modes.size(); ++i) {
    const double k = double(i / kBays + 1);
    // Beads on a string, w = 2 sqrt(T / (m a)) sin(k pi / 2 (N + 1)).
    const double w = 2.0 * std::sqrt(1000.0 / (0.02 * 0.25)) * std::sin(k * std::numbers::pi / (2.0 * kBars));
    EXPECT_NEAR(kTwoPi * modes.modes[i].frequency / w, 1.0, 1e-12);
  }
  EXPECT_LE(largest_overlap(modes, rest.line), 1e-12);
}

TEST(NaturalModes, StayWhenTheLineIsShiftedAndTurned) {
  const AtRest rest = at_rest(r100::standing());
  const Modes before = natural_modes(rest.line, rest.places, Swing::all, {.most = 30});
  std::vector<Vec3> turned = rest.places;
  const double c = std::cos(0.7), s = std::sin(0.7);
  for (Vec3& p : turned) p = {c * p.x - s * p.y + 3.0, s * p.x + c * p.y - 40.0, p.z + 500.0};
  const Modes after = natural_modes(rest.line, turned, Swing::all, {.most = 30});
  ASSERT_TRUE(before.certified && after.certified);
  for (std::size_t i = 0; i < 30; ++i) {
    EXPECT_NEAR(after.modes[i].frequency / before.modes[i].frequency, 1.0, 1e-9) << "mode " << i;
  }
}

TEST(NaturalModes, OfAllSwingsAreTheLateralAndTheInPlaneTogether) {
  const AtRest rest = at_rest(r100::standing());
  std::vector<double> parts;
  for (const Swing swing : {Swing::lateral, Swing::in_plane}) {
    const Modes modes = natural_modes(rest.line, rest.places, swing, {.below_Hz = 3.0});
    for (const Mode& m : modes.modes) parts.push_back(m.frequency);
  }
  std::sort(parts.begin(), parts.end());
  const Modes all = natural_modes(rest.line, rest.places, Swing::all, {.below_Hz = 3.0});
  ASSERT_TRUE(all.certified);
  ASSERT_EQ(all.modes.size(), parts.size());
  for (std::size_t i = 0; i < parts.size(); ++i) EXPECT_NEAR(all.modes[i].frequency / parts[i], 1.0, 1e-9);
}

TEST(NaturalModes, OfAFreeStringBeginAtRest) {
  // Half a bead at each free end: w = 2 sqrt(T / (m a)) sin(k pi / 2 n), k = 0, 1, ..., n (n bars, closed form).
  constexpr std::size_t kBars = 12;
  AtRest rest = beaded_string(800.0, 0.5, std::vector<double>(kBars - 1, 0.1));
  rest.line.held.front() = rest.line.held.back() = 0;
  rest.line.mass.front() = rest.line.mass.back() = 0.05;
  const Modes modes = natural_modes(rest.line, rest.places, Swing::lateral, {.most = 100});
  ASSERT_TRUE(modes.certified);
  ASSERT_EQ(modes.modes.size(), kBars + 1);
  const double top = 2.0 * std::sqrt(800.0 / (0.1 * 0.5));
  for (std::size_t k = 0; k <= kBars; ++k) {
    // At rest w^2 is 0 but for rounding, so w is so to its root.
    const double closed = top * std::sin(double(k) * std::numbers::pi / (2.0 * kBars));
    EXPECT_NEAR(kTwoPi * modes.modes[k].frequency, closed, (k == 0 ? 1e-6 : 1e-12) * top);
  }
}

TEST(NaturalModes, OfASlackLineAreAllAtRest) {
  AtRest rest = beaded_string(1000.0, 0.5, std::vector<double>(5, 0.1));
  rest.line.length.assign(6, 0.6);  // longer than the bars are apart
  const Modes modes = natural_modes(rest.line, rest.places, Swing::lateral, {.below_Hz = 5.0});
  ASSERT_TRUE(modes.certified);
  ASSERT_EQ(modes.modes.size(), 5u);
  for (const Mode& mode : modes.modes) EXPECT_EQ(mode.frequency, 0.0);
}

TEST(NaturalModes, TakeNodesWithoutMassAsSpringsInSeries) {
  const AtRest plain = beaded_string(1000.0, 0.5, std::vector<double>(5, 0.1));
  std::vector<double> beads;
  for (int i = 0; i < 5; ++i) beads.insert(beads.end(), {0.0, 0.1});
  beads.push_back(0.0);
  const AtRest rest = beaded_string(1000.0, 0.25, beads);
  const Modes a = natural_modes(plain.line, plain.places, Swing::lateral, {.most = 50});
  const Modes b = natural_modes(rest.line, rest.places, Swing::lateral, {.most = 50});
  ASSERT_TRUE(a.certified && b.certified);
  ASSERT_EQ(a.modes.size(), 5u);
  ASSERT_EQ(b.modes.size(), 5u);
  for (std::size_t i = 0; i < 5; ++i) EXPECT_NEAR(b.modes[i].frequency / a.modes[i].frequency, 1.0, 1e-13);
}

TEST(NaturalModes, AreTheFirstOfThoseBelowAFrequency) {
  const AtRest rest = beaded_string(1000.0, 0.5, std::vector<double>(5, 0.1));
  EXPECT_EQ(natural_modes(rest.line, rest.places, Swing::lateral, {.below_Hz = 30.0}).modes.size(), 2u);
  EXPECT_EQ(natural_modes(rest.line, rest.places, Swing::lateral, {.below_Hz = 30.0, .most = 1}).modes.size(), 1u);
  EXPECT_EQ(natural_modes(rest.line, rest.places, Swing::lateral, {.below_Hz = 30.0, .most = 9}).modes.size(), 2u);
  EXPECT_EQ(natural_modes(rest.line, rest.places, Swing::lateral, {.below_Hz = 1.0}).modes.size(), 0u);
}

template <class Ask>
std::string key_of_error(Ask ask) {
  try {
    ask();
  } catch (const InputError& error) {
    return error.problems().front().key;
  }
  return "none";
}

TEST(NaturalModes, RefuseWhatHasNoAnswer) {
  AtRest rest = beaded_string(1000.0, 0.5, std::vector<double>(3, 0.1));
  const auto ask = [&](Swing swing, ModeRange range) {
    return key_of_error([&] { (void)natural_modes(rest.line, rest.places, swing, range); });
  };
  EXPECT_EQ(ask(Swing::lateral, {}), "modes");
  EXPECT_EQ(ask(Swing::lateral, {.below_Hz = std::nan("")}), "modes");
  EXPECT_EQ(ask(Swing::lateral, {.most = 0}), "modes");
  rest.places[2].y = 1e-3;
  EXPECT_EQ(ask(Swing::lateral, {.most = 1}), "places[1]");
  EXPECT_EQ(ask(Swing::all, {.most = 1}), "none");
  rest.places[2] = rest.places[1];
  EXPECT_EQ(ask(Swing::all, {.most = 1}), "places[1]");
  rest.places[2].x = std::nan("");
  EXPECT_EQ(ask(Swing::all, {.most = 1}), "places[2]");
  rest = beaded_string(1000.0, 0.5, {0.1, 0.0, 0.1});
  rest.line.length.assign(4, 0.6);  // longer than the bars are apart: slack
  EXPECT_EQ(ask(Swing::lateral, {.most = 1}), "mass[2]");
  rest.places.pop_back();
  EXPECT_EQ(ask(Swing::lateral, {.most = 1}), "places");
}

TEST(FrequencyResponse, AgreesWithAFullSolve) {
  std::mt19937_64 random(33);
  for (int i = 0; i < 8; ++i) {
    const AtRest rest = small_random_line(random);
    const DenseMotion dense = dense_motion(rest.line, rest.places, {0, 1, 2});
    const std::size_t node = 1 + random() % (rest.line.main_nodes - 2);
    for (const std::complex<double> s : {std::complex<double>(0.0, 5.0), std::complex<double>(0.3, 12.0)}) {
      const double loss = 0.02;
      Eigen::MatrixXcd k = dense.stiffness * std::complex<double>(1.0, loss) + dense.mass * (s * s);
      Eigen::VectorXcd u = Eigen::VectorXcd::Zero(k.rows());
      u(dense.slot[node] + 1) = 2.0;
      u(dense.slot[node] + 2) = -1.0;
      u = k.partialPivLu().solve(u).eval();
      const FrequencyResponse response(rest.line, rest.places, Swing::all);
      const auto moved = response.displacement(node, {0.0, 2.0, -1.0}, s, loss);
      double miss = 0.0;
      for (std::size_t j = 0; j < moved.size(); ++j) {
        for (int a = 0; a < 3; ++a) {
          const std::complex<double> full = dense.slot[j] < 0 ? 0.0 : u(dense.slot[j] + a);
          miss = std::max(miss, std::abs(moved[j][std::size_t(a)] - full));
        }
      }
      // The full solve loses the digits between the stiffest and the softest of the line: about 1e7 here.
      EXPECT_LE(miss, 1e-8 * u.cwiseAbs().maxCoeff()) << "line " << i;
    }
  }
}

TEST(FrequencyResponse, IsTheSumOfTheModes) {
  const AtRest rest = at_rest(r100::standing(1));
  const Modes modes = natural_modes(rest.line, rest.places, Swing::lateral, {.most = 100000});
  ASSERT_TRUE(modes.certified);
  const std::size_t node = 61, far = 215;
  const std::complex<double> s(0.0, kTwoPi * 1.3);
  const double loss = 0.01;
  std::complex<double> sum = 0.0;
  for (const Mode& m : modes.modes) {
    const double square = std::pow(kTwoPi * m.frequency, 2);
    sum += m.shape[node].y * m.shape[far].y / (square * std::complex<double>(1.0, loss) + s * s);
  }
  const FrequencyResponse response(rest.line, rest.places, Swing::lateral);
  const auto there = response.displacement(node, {0.0, 1.0, 0.0}, s, loss)[far][1];
  EXPECT_LE(std::abs(there - sum), 1e-8 * std::abs(sum));  // near resonance: rounding over loss
  // Reciprocity (Maxwell, Rayleigh): push and place may change places.
  const auto back = response.displacement(far, {0.0, 1.0, 0.0}, s, loss)[node][1];
  EXPECT_LE(std::abs(there - back), 1e-11 * std::abs(there));
}

TEST(FrequencyResponse, AtRestIsTheStaticOne) {
  // Unit force at the middle of a string: T u (1 / a + 1 / b) = 1.
  const AtRest rest = beaded_string(1000.0, 0.5, std::vector<double>(9, 0.1));
  const auto moved = FrequencyResponse(rest.line, rest.places, Swing::lateral).displacement(5, {0.0, 1.0, 0.0}, 0.0);
  EXPECT_NEAR(moved[5][1].real(), 2.5 / 2.0 / 1000.0, 1e-15);
}

TEST(FrequencyResponse, RefusesWhatIsNoNodeOrNumber) {
  const AtRest rest = beaded_string(1000.0, 0.5, std::vector<double>(3, 0.1));
  const FrequencyResponse response(rest.line, rest.places, Swing::lateral);
  EXPECT_THROW((void)response.displacement(5, {0.0, 1.0, 0.0}, 1.0), InputError);
  EXPECT_THROW((void)response.displacement(1, {0.0, std::nan(""), 0.0}, 1.0), InputError);
  EXPECT_THROW((void)response.displacement(1, {0.0, 1.0, 0.0}, std::nan("")), InputError);
  EXPECT_THROW((void)response.displacement(1, {0.0, 1.0, 0.0}, 1.0, -0.1), InputError);
}

}  // namespace
}  // namespace spanloom
