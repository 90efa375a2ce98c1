#include "line/chain.h"

#include <gtest/gtest.h>

#include <Eigen/Dense>
#include <cmath>
#include <utility>

namespace spanloom {
namespace {

const StretchCurve kStraight = StretchCurve::linear(150e3);
const StretchCurve kBent = StretchCurve::from_points({{2e3, 0.021}, {5e3, 0.040}, {10e3, 0.066}, {20e3, 0.108}});

// One chain of so many bars of uneven length and uneven load, bars taking turns between the laws.
Line uneven_chain(std::size_t bars, const std::vector<StretchCurve>& laws) {
  std::vector<BarSpec> spec;
  for (std::size_t i = 0; i < bars; ++i) {
    spec.push_back({0.2 + 0.1 * double(i % 3), int(i % laws.size()), 0.05 + 0.01 * double(i % 4), i % 5 == 2 ? 0.3 : 0.0});
  }
  LineBuilder builder(laws, {{}, {1.0, 0.0, 0.0}, {}, {}});
  builder.add_bay(spec, {});
  Line line = std::move(builder).build();
  for (std::size_t i = 0; i + 1 < bars; ++i) line.load[i].y += 0.1 * double(i % 7);
  return line;
}

// The chain summed bar by bar, as its definition has it.
Vec3 plain_reach(const Line& line, Vec3 force) {
  Vec3 reach;
  for (std::size_t i = 0; i < line.bars(); ++i) {
    const double tension = norm(force);
    reach += line.length[i] * (1.0 + line.laws[line.law[i]].stretch_at(tension).stretch) / tension * force;
    force -= line.load[i];
  }
  return reach;
}

Eigen::Matrix3d dense(const Sym3& m) {
  return (Eigen::Matrix3d() << m.xx, m.xy, m.xz, m.xy, m.yy, m.yz, m.xz, m.yz, m.zz).finished();
}

struct Kind { const char* name; std::vector<StretchCurve> laws; };
const Kind kKinds[] = {{"Straight", {kStraight}}, {"Bent", {kBent}}, {"Mixed", {kStraight, kBent}},
                       {"TwoStraight", {kStraight, StretchCurve::linear(30e3)}}};
const Vec3 kForces[] = {{5000.0, 0.0, -60.0}, {20.0, 3.0, -2.0}, {0.4, 0.1, 0.9}, {-3.0, 0.0, 12.0}, {0.0, 0.0, -800.0}};

// Counts 1 to 9 meet every way of filling the last lane.
class ChainOf : public testing::TestWithParam<std::tuple<int, std::size_t>> {
 protected:
  const Line line = uneven_chain(std::get<1>(GetParam()), kKinds[std::get<0>(GetParam())].laws);
  const ChainSet chains{line};
};

TEST_P(ChainOf, ReachesAsFarAsItsBarsTogether) {
  for (const Vec3& force : kForces) {
    const Vec3 expected = plain_reach(line, force);
    EXPECT_LT(norm(chains.evaluate(0, force).reach - expected), 1e-13 * chains.natural_length(0));
  }
}

TEST_P(ChainOf, HasTheComplianceOfItsFiniteDifferences) {
  for (const Vec3& force : kForces) {
    const Eigen::Matrix3d compliance = dense(chains.evaluate(0, force).compliance);
    // Steps of a share of the smallest bar force, where the reach bends most.
    Vec3 at = force;
    double least = norm(force);
    for (const Vec3& load : line.load) least = std::min(least, norm(at -= load));
    const double step = 1e-4 * std::max(least, 1e-3);
    const Vec3 steps[] = {{step, 0.0, 0.0}, {0.0, step, 0.0}, {0.0, 0.0, step}};
    for (int k = 0; k < 3; ++k) {
      // Fourth order: the curvature of a nearly slack bar would show in the plain difference.
      const Vec3 d1 = plain_reach(line, force + steps[k]) - plain_reach(line, force - steps[k]);
      const Vec3 d2 = plain_reach(line, force + 2.0 * steps[k]) - plain_reach(line, force - 2.0 * steps[k]);
      const Vec3 d = (1.0 / (12.0 * step)) * (8.0 * d1 - d2);
      EXPECT_LT((compliance.col(k) - Eigen::Vector3d(d.x, d.y, d.z)).norm(), 1e-7 * compliance.norm());
    }
  }
}

TEST_P(ChainOf, GivesWayInEveryDirection) {
  for (const Vec3& force : kForces) {
    const Eigen::SelfAdjointEigenSolver<Eigen::Matrix3d> own(dense(chains.evaluate(0, force).compliance));
    EXPECT_GT(own.eigenvalues().minCoeff(), 0.0);
  }
}

TEST_P(ChainOf, HasItsReachAsGradientOfItsCoenergy) {
  for (const Vec3& force : kForces) {
    const Vec3 reach = chains.evaluate(0, force).reach;
    const double step = 1e-5 * norm(force);
    for (const Vec3& d : {Vec3{step, 0.0, 0.0}, Vec3{0.0, step, 0.0}, Vec3{0.0, 0.0, step}}) {
      const double difference = (chains.coenergy(0, force + d) - chains.coenergy(0, force - d)) / (2.0 * step);
      EXPECT_NEAR(difference, dot(reach, d) / step, 2e-6 * chains.natural_length(0));
    }
  }
}

TEST_P(ChainOf, PutsItsNodesWhereItsForcesPull) {
  for (const Vec3& force : kForces) {
    const Vec3 near{1.0, 2.0, 3.0}, far = near + chains.evaluate(0, force).reach;
    const std::vector<Vec3> node = chains.nodes(0, force, near, far);
    ASSERT_EQ(node.size(), line.bars() + 1);
    EXPECT_EQ(node.front(), near);
    EXPECT_EQ(node.back(), far);
    Vec3 pull = force;
    double length = 0.0;
    for (std::size_t i = 0; i < line.bars(); ++i) {
      const Vec3 bar = node[i + 1] - node[i];
      length += norm(bar);
      EXPECT_NEAR(dot(bar, pull) / (norm(bar) * norm(pull)), 1.0, 1e-12);
      const double stretch = norm(bar) / line.length[i] - 1.0;
      EXPECT_NEAR(stretch, line.laws[line.law[i]].stretch_at(norm(pull)).stretch, 1e-13);
      pull -= line.load[i];
    }
    EXPECT_NEAR(chains.stretched_length(0, force) / length, 1.0, 1e-13);
  }
}

TEST_P(ChainOf, KnowsItsSums) {
  Vec3 load;
  double length = 0.0;
  for (std::size_t i = 0; i < line.bars(); ++i) {
    load += line.load[i];
    length += line.length[i];
  }
  EXPECT_LT(norm(chains.inner_load(0) - load), 1e-14 + 1e-14 * norm(load));
  EXPECT_DOUBLE_EQ(chains.natural_length(0), length);
}

INSTANTIATE_TEST_SUITE_P(Bars, ChainOf, testing::Combine(testing::Range(0, 4), testing::Range(std::size_t(1), std::size_t(10))),
                         [](const auto& info) {
                           return std::string(kKinds[std::get<0>(info.param)].name) + std::to_string(std::get<1>(info.param));
                         });

TEST(Chain, TakesOverNewLoadsAndLengths) {
  Line line = uneven_chain(7, {kBent});
  ChainSet chains(line);
  line.load[3].z -= 500.0;
  for (double& length : line.length) length *= 1.25;
  chains.set_loads(line);
  chains.set_lengths(line);
  EXPECT_LT(norm(chains.evaluate(0, {3000.0, 0.0, 0.0}).reach - plain_reach(line, {3000.0, 0.0, 0.0})), 1e-12);
}

TEST(Chain, SpansLessThanItsLengthWithASlackBar) {
  // Two bars, the weight between them hanging straight down: nothing pulls on the second, which must
  // still reach from there to the far end.
  LineBuilder builder({kStraight}, {{}, {}, {}, {}});
  builder.add_bay(std::vector<BarSpec>(2, {1.0, 0, 0.05}), {});
  const Line line = std::move(builder).build();
  const ChainSet chains(line);
  const Vec3 weight = line.load[0], far{0.3, 0.0, -1.4};
  // Force in the first bar: the weight and next to nothing along the second.
  const std::vector<Vec3> node = chains.nodes(0, weight, {}, far);
  for (const Vec3& at : node) EXPECT_TRUE(is_finite(at));
  EXPECT_LT(norm(node[2] - node[1]), 1.0);
  EXPECT_NEAR(node[1].z, -1.0, 1e-5);
}

}  // namespace
}  // namespace spanloom
