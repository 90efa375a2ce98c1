// This line at another tension than planned, and what it would read: the forward model of gauge.h.
#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <vector>

#include "base/vec3.h"
#include "line/mesh.h"
#include "motion/motion_line.h"
#include "rig/rig.h"
#include "rig/rigged.h"
#include "statics/equilibrium.h"

namespace spanloom {

/// How the line as it hangs differs from the rig.
struct HungState {
  double tension = 0.0;            ///< of the main at the near anchor, standing [N]
  double mass_factor = 1.0;        ///< of all webbing [-], > 0
  double stretch_factor = 1.0;     ///< stretch at a tension, of all webbing [-], > 0
  double gap = 0.0;                ///< [m]
};

/// A line that hangs, cut as motion wants it.
struct HungLine {
  Mesh mesh;
  Equilibrium standing;
  MotionLine line;
  std::vector<Vec3> rest;          ///< places of its nodes, the main's first [m]
  Vec3 far_anchor;                 ///< of the main [m]
  double main_length = 0.0;        ///< natural, webbing and connectors, no end hardware [m]

  /// Greatest vertical distance of each loop below its main [m].
  std::vector<double> drops() const;
  /// Natural length of each loop, hardware included [m].
  std::vector<double> loop_lengths() const;
  /// The main node, anchors left out, at an asked place. @param asked  index into the places asked for
  std::size_t node_of(std::size_t asked) const;
};

/// A webbing that stretches `factor` times as much at every tension. @throws InputError where factor is not positive
StretchCurve stretched_more(const StretchCurve& curve, double factor);

/// The rig with its webbing and gap as in a state; its asked tension and lengths as they were.
Rig with_state(const Rig& rig, const HungState& state);

/// As fine as pulses want: a sharp blow is some metres long on the main.
MeshOptions mesh_for_readings();
/// Cut as a plan cuts it, so that drops are those of the plan.
MeshOptions mesh_of_a_plan();

/// Hangs lines that are rigged as planned, but for the state and the loops.
class LineHanger {
 public:
  /// @param rigged  what was cut and taped; with loops as they are thought to hang
  /// @param places  on the gap axis, standing, where something was read [m]
  /// @param planned_tapes  where the tapes stand as planned, anchors included [m]
  LineHanger(const Rig& rig, Rigged rigged, std::vector<double> places, const std::vector<Vec3>& planned_tapes);

  /// Main is pulled in or let out at the far end until the tension is as asked, the last loop with it.
  /// @return empty where no such line was proven
  [[nodiscard]] std::optional<HungLine> hang(const HungState& state, const MeshOptions& mesh = mesh_for_readings()) const;

  void set_loops(std::vector<double> lengths);  ///< natural, hardware included [m]; the last piece of backup takes the difference
  const Rigged& rigged() const { return rigged_; }
  const Rig& rig() const { return rig_; }

 private:
  Rig rig_;
  Rigged rigged_;
  std::vector<double> places_s_;   // natural coordinate of the places [m]
};

}  // namespace spanloom
