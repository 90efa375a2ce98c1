// Lines at rest, as small motion takes them.
#pragma once

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
