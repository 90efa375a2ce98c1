// Stiffness and mass of small motion as full matrices, put together bar by bar: a reference of its own for the band.
#pragma once

#include <Eigen/Core>
#include <Eigen/Eigenvalues>
#include <vector>

#include "motion/motion_line.h"
#include "statics/equilibrium.h"

namespace spanloom {

/// A line and where it rests.
struct AtRest {
  MotionLine line;
  std::vector<Vec3> places;
  bool certified = false;
};

inline AtRest at_rest(const Line& line) {
  EquilibriumSolver solver(line);
  const Equilibrium state = solver.solve();
  AtRest rest{motion_line(line), {}, state.certified()};
  rest.places = node_places(rest.line, solver.shape(state));
  return rest;
}

struct DenseMotion {
  Eigen::MatrixXd stiffness, mass;
  std::vector<Eigen::Index> slot;  // of each node its first unknown, -1: held
  std::vector<int> axes;

  /// All w^2, rising [1/s2].
  Eigen::VectorXd squares() const {
    return Eigen::GeneralizedSelfAdjointEigenSolver<Eigen::MatrixXd>(stiffness, mass, Eigen::EigenvaluesOnly).eigenvalues();
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
            dense.stiffness(at[p] + Eigen::Index(a), at[q] + Eigen::Index(b)) += (p == q ? 1.0 : -1.0) * k(axes[a], axes[b]);
          }
        }
      }
    }
  }
  return dense;
}

/// A taut string along x with lumped masses, tension and spacing given; both ends held.
/// The bars are natural where they are: T = EA e with e = 1.
inline AtRest beaded_string(double tension, double spacing, const std::vector<double>& beads) {
  AtRest rest;
  MotionLine& line = rest.line;
  line.laws = {StretchCurve::linear(tension)};
  line.mass = {0.0};
  line.mass.insert(line.mass.end(), beads.begin(), beads.end());
  line.mass.push_back(0.0);
  line.main_nodes = line.mass.size();
  line.length.assign(line.main_nodes - 1, 0.5 * spacing);
  line.law.assign(line.main_nodes - 1, 0);
  line.loss.assign(line.main_nodes - 1, 0.0);
  line.held.assign(line.main_nodes, 0);
  line.held.front() = line.held.back() = 1;
  line.drag.assign(line.main_nodes, {});
  for (std::size_t i = 0; i < line.main_nodes; ++i) rest.places.push_back({spacing * double(i), 0.0, 0.0});
  rest.certified = true;
  return rest;
}

}  // namespace spanloom
