#include "line/ladder.h"

#include <gtest/gtest.h>

#include <Eigen/Dense>
#include <random>
#include <vector>

namespace spanloom {
namespace {

Eigen::Matrix3d dense(const Sym3& m) {
  return (Eigen::Matrix3d() << m.xx, m.xy, m.xz, m.xy, m.yy, m.yz, m.xz, m.yz, m.zz).finished();
}

// A spring that is far stiffer one way than across, as every taut chain is.
Sym3 random_spring(std::mt19937_64& random, double contrast) {
  std::normal_distribution<double> normal;
  Sym3 spring = scaled_identity(1.0);
  const Vec3 v{normal(random), normal(random), normal(random)};
  return spring += outer(contrast / dot(v, v), v);
}

TEST(Ladder, SolvesWhatADenseSolverSolves) {
  // Reference: Eigen's LDLT of the assembled matrix.
  std::mt19937_64 random(1);
  std::normal_distribution<double> normal(0.0, 100.0);
  Ladder ladder;
  for (std::size_t n : {1u, 2u, 3u, 5u, 40u}) {
    for (double contrast : {0.0, 10.0, 1e5}) {
      std::vector<Sym3> spring;
      std::vector<Vec3> force(n + 1);
      for (std::size_t k = 0; k < n; ++k) spring.push_back(random_spring(random, contrast));
      for (Vec3& f : force) f = {normal(random), normal(random), normal(random)};
      Eigen::MatrixXd matrix = Eigen::MatrixXd::Zero(3 * n + 3, 3 * n + 3);
      Eigen::VectorXd right(3 * n + 3);
      for (std::size_t k = 0; k < n; ++k) {
        const Eigen::Matrix3d m = dense(spring[k]);
        matrix.block<3, 3>(3 * k, 3 * k) += m;
        matrix.block<3, 3>(3 * k + 3, 3 * k + 3) += m;
        matrix.block<3, 3>(3 * k, 3 * k + 3) -= m;
        matrix.block<3, 3>(3 * k + 3, 3 * k) -= m;
      }
      for (std::size_t k = 0; k <= n; ++k) right.segment<3>(3 * k) << force[k].x, force[k].y, force[k].z;
      const auto move = ladder.solve(spring, force);
      ASSERT_EQ(move.size(), n + 1);
      EXPECT_EQ(move.front(), Vec3{});
      EXPECT_EQ(move.back(), Vec3{});
      if (n == 1) continue;
      const Eigen::VectorXd expected =
          matrix.block(3, 3, 3 * n - 3, 3 * n - 3).ldlt().solve(right.segment(3, 3 * n - 3));
      for (std::size_t k = 1; k < n; ++k) {
        const Eigen::Vector3d e = expected.segment<3>(3 * k - 3);
        EXPECT_LT(norm(move[k] - Vec3{e.x(), e.y(), e.z()}), 1e-15 * (1e3 + contrast) * expected.norm())
            << "bays " << n << ", contrast " << contrast;
      }
    }
  }
}

}  // namespace
}  // namespace spanloom
