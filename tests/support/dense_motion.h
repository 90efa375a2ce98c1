// Stiffness and mass of small motion as full matrices, put together bar by bar: a reference of its own for the band.
#pragma once

#include <Eigen/Core>
#include <Eigen/Eigenvalues>
#include <vector>

#include "support/at_rest.h"

namespace spanloom {

struct DenseMotion {
  Eigen::MatrixXd stiffness, mass;
  std::vector<Eigen::Index> slot;  // of each node its first unknown, -1: held
  std::vector<int> axes;

  /// All w^2, rising [1/s2].
  Eigen::VectorXd squares() const {
    using Solver = Eigen::GeneralizedSelfAdjointEigenSolver<Eigen::MatrixXd>;
    return Solver(stiffness, mass, Eigen::EigenvaluesOnly).eigenvalues();
  }
  /// Displacements of all nodes as one vector of unknowns.
  Eigen::VectorXd unknowns(const std::vector<Vec3>& moved) const {
    Eigen::VectorXd x(stiffness.rows());
    for (std::size_t i = 0; i < moved.size(); ++i) {
      const double u[3] = {moved[i].x, moved[i].y, moved[i].z};
      for (std::size_t a = 0; slot[i] >= 0 && a < axes.size(); ++a) x(slot[i] + Eigen::Index(a)) = u[axes[a]];
    }
    return x;
  }
};

inline DenseMotion dense_motion(const MotionLine& line, const std::vector<Vec3>& places, const std::vector<int>& axes) {
  DenseMotion dense;
  dense.axes = axes;
  dense.slot.assign(line.nodes(), -1);
  std::vector<char> tied(line.nodes(), 0);
  for (const Tie& tie : line.ties) tied[tie.backup] = 1;
  Eigen::Index count = 0;
  for (std::size_t i = 0; i < line.nodes(); ++i) {
    if (line.held[i] || tied[i]) continue;
    dense.slot[i] = count;
    count += Eigen::Index(axes.size());
  }
  for (const Tie& tie : line.ties) dense.slot[tie.backup] = dense.slot[tie.main];
  dense.stiffness = Eigen::MatrixXd::Zero(count, count);
  dense.mass = dense.stiffness;
  for (std::size_t i = 0; i < line.nodes(); ++i) {
    for (std::size_t a = 0; dense.slot[i] >= 0 && a < axes.size(); ++a) {
      dense.mass(dense.slot[i] + Eigen::Index(a), dense.slot[i] + Eigen::Index(a)) += line.mass[i];
    }
  }
  for (std::size_t bar = 0; bar < line.bars(); ++bar) {
    if (!line.is_bar(bar)) continue;
    const Vec3 d = places[bar + 1] - places[bar];
    const Eigen::Vector3d reach(d.x, d.y, d.z), n = reach.normalized();
    const StretchCurve& curve = line.laws[std::size_t(line.law[bar])];
    const double e = reach.norm() / line.length[bar] - 1.0;
    const Eigen::Matrix3d along = n * n.transpose();
    const Eigen::Matrix3d k = curve.stiffness(e) / line.length[bar] * along +
                              curve.tension(e) / reach.norm() * (Eigen::Matrix3d::Identity() - along);
    const Eigen::Index at[2] = {dense.slot[bar], dense.slot[bar + 1]};
    for (int p = 0; p < 2; ++p) {
      for (int q = 0; q < 2; ++q) {
        if (at[p] < 0 || at[q] < 0) continue;
        for (std::size_t a = 0; a < axes.size(); ++a) {
          for (std::size_t b = 0; b < axes.size(); ++b) {
            const double entry = (p == q ? 1.0 : -1.0) * k(axes[a], axes[b]);
            dense.stiffness(at[p] + Eigen::Index(a), at[q] + Eigen::Index(b)) += entry;
          }
        }
      }
    }
  }
  return dense;
}

}  // namespace spanloom
