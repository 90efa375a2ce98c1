// A rig ready to be shaken: cut for motion, standing, with what the measures of a shake need.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "motion/motion_line.h"
#include "rig/rig.h"
#include "statics/natural_lengths.h"

namespace spanloom {

struct MovingRig {
  Rig rig;
  Mesh mesh;
  Equilibrium standing;
  MotionLine line;                        ///< webbing facing the air as taped
  std::vector<Vec3> rest;                 ///< places of its nodes, standing [m]
  std::vector<double> main_share;         ///< length of main that each main node stands for, standing [m]
  std::vector<double> main_mass;          ///< mass of that length alone, no loops [kg]
  std::vector<std::size_t> tape_node;     ///< main nodes of tapes, anchors included, bays + 1
  double tension = 0.0;                   ///< of the main at the near anchor [N]
  double mass_per_length = 0.0;           ///< main and backup per metre of standing main, webbing only [kg/m]
  double round_trip = 0.0;                ///< [s]
  std::vector<double> bay_length;         ///< standing main of each bay [m]
  std::vector<double> drop;               ///< of each loop [m]; empty without loops
  bool has_loops() const { return line.backup_nodes() > 0; }
  std::size_t bays() const { return bay_length.size(); }
  /// The main node, anchors left out, nearest to a place on the gap axis [m].
  std::size_t node_near(double along) const;
};

/// Share of slack over all bays: natural length of all loops / standing length of the main - 1 [-].
double slack_over_all(const MovingRig& rig);

struct MovingOutcome {
  std::optional<MovingRig> rig;
  std::string why;                        ///< in words, when `rig` is empty
};

/// How finely a line is cut for motion.
struct MotionMesh {
  double main_bar = 0.45;                 ///< longest [m]
  double loop_bar = 0.30;                 ///< longest [m]
  int loop_bars = 8;                      ///< of any loop but short ones at the least [-]
};

/// The rig itself. @throws InputError as find_natural_lengths()
[[nodiscard]] MovingOutcome moving_rig(const Rig& rig, const MotionMesh& mesh = {});
/// The same line with as many tapes evenly spaced, with the same share of slack over all; at the same tension, or, where
/// the rig gives its main's length, at the same length. Its round trip is the rig's: what they are compared over.
[[nodiscard]] MovingOutcome evenly_taped(const MovingRig& rig, const MotionMesh& mesh = {});
/// The main alone at the same tension: no tapes, no backup. Its round trip is the rig's too.
[[nodiscard]] MovingOutcome without_loops(const MovingRig& rig);

}  // namespace spanloom
