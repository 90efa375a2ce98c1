// A line as masses joined by bars: what moves.
//
// Notation. The main is nodes 0..M, the backup nodes M+1..N-1, each from the near to the far anchor, and
// bar i joins nodes i and i+1; bar M joins the two strands in numbering only and carries nothing. Where main
// and backup are taped, both have a node: a tie makes the two one. So a whole line is two runs of
// neighbours, which is what a fast pass over it wants.
#pragma once

#include <cstddef>
#include <limits>
#include <vector>

#include "base/vec3.h"
#include "line/line.h"
#include "line/mesh.h"
#include "rig/rig.h"
#include "statics/equilibrium.h"
#include "webbing/stretch_curve.h"

namespace spanloom {

/// Air that a node's share of the webbing meets, drag coefficient times area [m2].
struct DragArea {
  double sideways = 0.0;  ///< against air that moves along y
  double upright = 0.0;   ///< against air that moves along z
};

/// A node of the main and a node of the backup that are one.
struct Tie {
  std::size_t main = 0;
  std::size_t backup = 0;
  /// What of the node's mass [kg] and drag goes with the backup when they part; nothing where it is not known.
  double backup_mass = 0.0;
  DragArea backup_drag{};
};

/// The semi-discrete line. Tied nodes carry their mass and their drag on the main's node; the backup's is 0.
struct MotionLine {
  std::vector<StretchCurve> laws;
  std::size_t main_nodes = 0;         ///< M + 1
  // Over bars, nodes() - 1 of them.
  std::vector<double> length;         ///< natural [m]; 0 for the bar that is none
  std::vector<int> law;               ///< index into laws
  std::vector<double> loss;           ///< share of energy lost in a load cycle [-]
  std::vector<char> cut;              ///< 1: failed, carries nothing; empty: none is
  // Over nodes.
  std::vector<double> mass;           ///< [kg]
  std::vector<char> held;             ///< 1: does not move
  std::vector<DragArea> drag;
  /// Bars are not looked for beyond this tension when the time step is chosen [N].
  double greatest_tension = std::numeric_limits<double>::infinity();
  std::vector<Tie> ties;              ///< rising, anchors that main and backup share not among them

  std::size_t nodes() const { return mass.size(); }
  std::size_t bars() const { return length.size(); }
  std::size_t backup_nodes() const { return nodes() - main_nodes; }
  bool is_bar(std::size_t i) const { return i + 1 != main_nodes && (cut.empty() || !cut[i]); }
};

/// Masses and bars of a standing line whose node loads are its weights: mass = weight / g. No drag, no loss.
/// Ends are held. A line without loops has no backup nodes.
MotionLine motion_line(const Line& line);

/// What faces the air. Webbing taped flat shows its edge to sideways motion, and then slows a shake least;
/// in wind it twists, and its flat face meets the air from every side: the most it can catch.
enum class Facing { as_taped, broadside };

/// The same with the loss of each webbing (none where none is stated) and its drag, taken on natural lengths.
/// @param standing  where the mesh is at rest: links and stubs are made softer there without moving it
MotionLine motion_line(const Mesh& mesh, const Rig& rig, const Equilibrium& standing, Facing facing);
/// The same of a line at rest under other loads than its weight; its masses stay those of its weight.
/// @param loads  the line of the mesh with the loads that it rests under
MotionLine motion_line(const Mesh& mesh, const Rig& rig, const Equilibrium& at_rest, const Line& loads, Facing facing);

/// Parts the nodes of a tie; each takes its mass and drag along. The tie itself is taken out of the line.
/// @throws InputError "line.ties[i]" if there is none, or the backup's share of its mass is not known
void untie(MotionLine& line, std::size_t tie);

/// Steepest slope of a load-stretch curve up to a tension [N].
double greatest_stiffness(const StretchCurve& curve, double tension);

/// Nodes of a shape in the order of a MotionLine [m].
std::vector<Vec3> node_places(const MotionLine& line, const Shape& shape);

}  // namespace spanloom
