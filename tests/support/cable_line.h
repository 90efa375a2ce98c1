// A single cable as a line without loops: pieces between its loads, each cut into bays and bars.
#pragma once

#include <utility>
#include <vector>

#include "base/constants.h"
#include "statics/equilibrium.h"
#include "support/elastic_cable.h"

namespace spanloom {

/// Bays a piece, bars a bay; the tapes are plain nodes.
struct Cut { std::size_t bays = 4, bars = 16; };

inline Line cable_line(const ElasticCable& cable, double span, double rise, Cut cut) {
  const Vec3 far{span, 0.0, rise};
  LineBuilder builder({StretchCurve::linear(cable.axial_stiffness)}, {{}, far, {}, far});
  for (double length : cable.length) {
    const double bar = length / double(cut.bays * cut.bars);
    for (std::size_t k = 0; k < cut.bays; ++k) {
      builder.add_bay(std::vector<BarSpec>(cut.bars, {bar, 0, cable.weight_per_length / kGravity}), {});
    }
  }
  Line line = std::move(builder).build();
  for (std::size_t i = 0; i < cable.load.size(); ++i) {
    line.tape_load[(i + 1) * cut.bays] += Vec3{0.0, 0.0, -cable.load[i]};
  }
  return line;
}

/// What a solved cable is asked for.
struct HungCable {
  bool certified = false;
  Vec3 near, far;            ///< what the anchors hold, their own share of the weight included [N]
  std::vector<Vec3> joint;   ///< ends of the pieces [m]
  std::vector<Vec3> node;    ///< all nodes from near to far [m]
};

inline HungCable hang_cable(const ElasticCable& cable, double span, double rise, Cut cut) {
  const Line line = cable_line(cable, span, rise, cut);
  EquilibriumSolver solver(line);
  const Equilibrium state = solver.solve();
  HungCable hung;
  hung.certified = state.certified();
  // The bar pulls the anchor towards the line; the anchor's share of the weight hangs on it besides.
  hung.near = state.near_force.front() + line.tape_load.front();
  hung.far = -state.far_force[2 * line.bays() - 2] + line.tape_load.back();
  for (std::size_t i = 1; i <= cable.length.size(); ++i) hung.joint.push_back(state.tapes[i * cut.bays]);
  hung.node = {state.tapes.front()};
  for (const std::vector<Vec3>& bay : solver.shape(state).main) {
    hung.node.insert(hung.node.end(), bay.begin() + 1, bay.end());
  }
  return hung;
}

}  // namespace spanloom
