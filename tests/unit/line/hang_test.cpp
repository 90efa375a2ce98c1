#include "line/hang.h"

#include <gtest/gtest.h>

#include <cmath>
#include <random>
#include <utility>

namespace spanloom {
namespace {

Line chain_of(std::size_t bars, double length, const StretchCurve& law) {
  LineBuilder builder({law}, {{}, {1.0, 0.0, 0.0}, {}, {}});
  builder.add_bay(std::vector<BarSpec>(bars, {length / double(bars), 0, 0.05}), {});
  return std::move(builder).build();
}

struct Way { const char* name; Vec3 reach; };
void PrintTo(const Way& way, std::ostream* out) { *out << way.name; }

// All of a chain of 10 m and 4.9 N.
const Way kWays[] = {
    {"Slack", {8.0, 0.0, 0.0}},           {"VerySlack", {2.0, 1.0, 0.5}},
    {"Taut", {10.3, 0.0, 0.0}},           {"JustTaut", {10.0, 0.0, 0.0}},
    {"Steep", {3.0, 0.0, 9.0}},           {"SteepDown", {3.0, 1.0, -9.0}},
    {"TautUpwards", {0.0, 0.0, 10.2}},    {"NearlyVertical", {1e-3, 0.0, 7.0}},
    {"EndsAlmostMeeting", {0.02, 0.0, 0.01}}, {"TautSideways", {0.0, 10.1, 0.0}},
};

class Hanging : public testing::TestWithParam<Way> {};

TEST_P(Hanging, FindsItsForceFromAnyStart) {
  std::mt19937_64 random(7);
  std::normal_distribution<double> normal;
  for (const StretchCurve& law : {StretchCurve::linear(150e3), StretchCurve::from_points({{2e3, 0.021}, {5e3, 0.04}, {20e3, 0.1}})}) {
    const ChainSet chains(chain_of(8, 10.0, law));
    const Vec3 reach = GetParam().reach;
    const Vec3 guess = guess_near_force(reach, 10.0, chains.inner_load(0), 1.0 / law.stretch_at(0.0).compliance);
    const Hung first = hang_chain(chains, 0, reach, guess, 1e-11);
    ASSERT_TRUE(first.converged);
    EXPECT_LT(norm(first.at.reach - reach), 10.0 * std::sqrt(1e-11));  // half of the digits
    for (int i = 0; i < 40; ++i) {
      const double size = std::pow(10.0, 1.5 * normal(random));
      const Hung again = hang_chain(chains, 0, reach, size * Vec3{normal(random), normal(random), normal(random)}, 1e-11);
      ASSERT_TRUE(again.converged) << "start " << i;
      EXPECT_LT(norm(again.force - first.force), 1e-8 * (1.0 + norm(first.force))) << "start " << i;
    }
  }
}

TEST_P(Hanging, IsTheSameSeenFromTheOtherEnd) {
  // Turned round, near and far change roles: the force in the first bar is minus that in the last.
  const StretchCurve law = StretchCurve::linear(150e3);
  const ChainSet chains(chain_of(8, 10.0, law));
  const Vec3 reach = GetParam().reach;
  const auto force = [&](const Vec3& r) {
    return hang_chain(chains, 0, r, guess_near_force(r, 10.0, chains.inner_load(0), 150e3), 1e-11).force;
  };
  const Vec3 there = force(reach), back = force(-reach);
  EXPECT_LT(norm(there - chains.inner_load(0) + back), 1e-8 * (1.0 + norm(there)));
}
INSTANTIATE_TEST_SUITE_P(Ways, Hanging, testing::ValuesIn(kWays), [](const auto& info) { return info.param.name; });

TEST(Hanging, LetsALastBarHangSlack) {
  // Steep and slack: the weight of the last node hangs on the chain above, and nothing on the last bar.
  const ChainSet chains(chain_of(2, 2.0, StretchCurve::linear(150e3)));
  const Vec3 reach{0.3, 0.0, -1.4}, load = chains.inner_load(0);
  const Hung hung = hang_chain(chains, 0, reach, guess_near_force(reach, 2.0, load, 150e3), 1e-12);
  ASSERT_TRUE(hung.converged);
  EXPECT_LT(norm(hung.force - load), 1e-8);
  const std::vector<Vec3> node = chains.nodes(0, hung.force, {}, reach);
  EXPECT_NEAR(node[1].x, 0.0, 1e-5);
  EXPECT_NEAR(node[1].z, -1.0, 1e-5);
  EXPECT_LT(norm(node[2] - node[1]), 1.0);
}

}  // namespace
}  // namespace spanloom
