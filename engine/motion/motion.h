// A line in motion: large swings, bars that go slack and snap tight, loss in the webbing, air drag.
//
// The step is a symmetric splitting of flows that are each exact or nearly so: drift (places move with their
// velocities), kick (velocities change under bar forces, gravity and pushes, places held), relax (webbing loses
// tension, places held) inside a kick, and, around every few steps, drag (air takes speed, places held). Without
// loss and air it is symplectic, so energy does not creep. Second order in time; docs/motion.md says why this and
// not another, with figures.
//
// Loss: bar tension is T(e) plus branches g (T(e) - z_j) with dz_j/dt = (T(e) - z_j) / tau_j, never less than
// nothing (loss.h). Drag: drag.h.
#pragma once

#include <array>
#include <cstddef>
#include <functional>
#include <span>
#include <vector>

#include "base/lane.h"
#include "base/vec3.h"
#include "motion/bar_runs.h"
#include "motion/loss.h"
#include "motion/motion_line.h"

namespace spanloom {

/// A force on a node that changes with time.
struct Push {
  std::size_t node = 0;                   ///< main node or backup node that is not tied
  Vec3 direction;                         ///< of length 1 [-]
  std::function<double(double)> force;    ///< of time [s], [N]
};

/// A held node that is moved.
struct Moved {
  std::size_t node = 0;
  std::function<Vec3(double)> displacement;  ///< from where it was at time 0, of time [s], [m]
  std::function<Vec3(double)> velocity;      ///< its derivative [m/s]
};

class Motion;

/// Bodies and rings that move beside a line and pull on its nodes. They take part in every step of the line: what they
/// do is second order in time and in the ledger as the line itself is. For Scheme::leapfrog only.
class Beside {
 public:
  virtual ~Beside() = default;
  /// The forces of now, all places held, over a time [s]: on its own bodies, and on the line by Motion::push_on().
  virtual void kick(Motion& motion, double time) = 0;
  /// Its places move with their velocities over a time [s].
  virtual void drift(double time) = 0;
  /// Kinetic, stretch and height of what is beside the line and between it and the line [J].
  virtual double energy(const Motion& motion) const = 0;
  /// What friction and the like took out so far [J].
  virtual double lost() const = 0;
};

/// What is done to the line from outside.
struct Drive {
  std::vector<Push> pushes;
  std::vector<Moved> moved;
  std::function<Vec3(double)> air;        ///< velocity of the air, of time [s], [m/s]; empty: still air
  Beside* beside = nullptr;               ///< outlives the motion
};

enum class Scheme {
  leapfrog,      ///< one force pass a step
  fourth_order,  ///< six force passes a step: Blanes & Moan (2002), J. Comput. Appl. Math. 142, table 2, S6
};

struct MotionOptions {
  Scheme scheme = Scheme::leapfrog;
  double step = 0.0;                      ///< greatest step [s]; 0: steady_step()
};

/// Where the energy is [J]. Kinetic + stretch + height + beside + lost - put in stays what it was at the start;
/// drift says by how much it did not.
struct EnergyLedger {
  double kinetic = 0.0;
  double stretch = 0.0;                   ///< in the webbing's curves
  double height = 0.0;                    ///< above the near anchor
  double put_in = 0.0;                    ///< by pushes and moved points
  double lost_in_webbing = 0.0;           ///< what its branches hold at the moment included
  double lost_to_air = 0.0;               ///< below 0 where wind drives the line
  double beside = 0.0;                    ///< kinetic, stretch and height of what moves beside the line
  double lost_beside = 0.0;               ///< to friction of it
  double drift = 0.0;                     ///< of the sum, since the start
};

class Motion {
 public:
  /// The line at rest or released from rest at given places, all branches relaxed.
  /// @param places  of every node [m]; tied nodes at one place
  /// @throws InputError "motion.scheme" where bodies move beside the line and the scheme is not the leapfrog
  Motion(const MotionLine& line, const std::vector<Vec3>& places, Drive drive = {}, const MotionOptions& options = {});
  Motion(const Motion&) = delete;   // what meets in a four points into this
  Motion& operator=(const Motion&) = delete;

  /// Steps of equal length that end exactly `duration` [s] later.
  /// @return false if the numbers ran away (places beyond sight or none): then nothing here may be used
  [[nodiscard]] bool advance(double duration);

  double time() const { return time_; }                      ///< [s]
  double step() const { return step_; }                      ///< greatest step [s]
  std::size_t nodes() const { return nodes_; }
  Vec3 place(std::size_t node) const { return {x_[0][node], x_[1][node], x_[2][node]}; }     ///< [m]
  Vec3 velocity(std::size_t node) const { return {v_[0][node], v_[1][node], v_[2][node]}; }  ///< [m/s]
  /// Places of all nodes along one axis: 0 x, 1 y, 2 z [m].
  std::span<const double> places(int axis) const { return {x_[axis].data(), nodes_}; }
  std::span<const double> velocities(int axis) const { return {v_[axis].data(), nodes_}; }   ///< [m/s]
  /// Force of a bar now, branches included [N], >= 0.
  double tension(std::size_t bar) const;
  /// Force of a bar on its near node [N]; on its far one it is the opposite.
  Vec3 pull_of(std::size_t bar) const;
  EnergyLedger ledger() const;
  /// Changes the velocity of a node by an impulse [N s]; of both nodes where it is tied. For Beside.
  void push_on(std::size_t node, const Vec3& impulse);
  const std::vector<Tie>& ties() const { return line_.ties; }
  /// Force that a tie carries from the backup to the main now [N], with what pushed on the backup's node in the last
  /// kick, its own inertia left out.
  Vec3 tie_force(std::size_t tie) const;
  /// A tape tears: its two nodes move on apart. Ties after it count one less. @throws InputError as untie()
  void tear(std::size_t tie);
  void set_velocity(std::size_t node, const Vec3& velocity);  ///< before the first advance [m/s]

  struct Stage { double drift, kick, relax; };                // shares of a step

 private:
  // Nodes whose force does not come from their own strand alone: tied or pushed ones.
  struct Special {
    std::size_t node = 0;
    std::ptrdiff_t tied = -1;               // its node of the backup, or -1
    Vec3 place, velocity;                   // before the pass
    Vec3 push;                              // [N]
  };
  using Columns = std::array<Column, 3>;

  struct Kick { double time, relax, drift; };             // [s]
  struct Carry;
  // Fours of bars [first, first + 4 count) that lie in one run, or that do not.
  struct Fours { std::size_t first, count; std::ptrdiff_t run; std::size_t mixed; };
  struct RunOfSome { const BarRun* run; Lane mine; };
  struct Mixed { std::vector<RunOfSome> runs; Lane branch_share; };   // of one four: what each of its bars is made of
  template <bool kLoss> struct MixedLaw;

  struct MovedBar { std::size_t bar; double curve, rate; };   // tension of the curve [N], speed of its end away [m/s]

  void go(std::size_t steps, double h);
  void pass(const Kick& kick);
  template <class Law> void pass_fours(const Fours& fours, const Kick& kick, Law law, Carry& carry);
  template <bool kLoss> void pass_one_run(const Fours& fours, const Kick& kick, Carry& carry);
  void kick_specials(const Kick& kick);
  void drag(double time);
  void drift_only(double drift);
  void place_moved();
  void work_of_moved(double time);
  void work_of_moved_after(double time);
  double length_of(std::size_t bar) const { return norm(place(bar + 1) - place(bar)); }
  double tension_of(std::size_t bar, double curve) const;
  void set_decay(double relax);
  void group_fours();
  void set_up_node(std::size_t node, const Vec3& at);
  void set_up_mass(std::size_t node);
  void relax_fully(const BarRun& run);
  void note_start();
  bool in_sight() const;
  EnergyLedger energies() const;

  MotionLine line_;
  std::size_t nodes_ = 0;
  BarRuns runs_;
  Drive drive_;
  double step_ = 0.0, time_ = 0.0;
  std::span<const Stage> stages_;
  bool loses_ = false, in_air_ = false;
  Columns x_, v_;                           // places and velocities
  Column per_length_, per_mass_;            // of bars [1/m], of nodes [1/kg]
  Column mass_, drag_y_, drag_z_;           // for drag; the mass of tied nodes on the main
  std::array<Column, kBranches> z_;         // of the branches [N]
  Column length_before_, branch_before_;    // of bars one pass ago [m], [N]
  std::vector<Fours> fours_;
  std::vector<Mixed> mixed_;
  std::array<double, kBranches> decay_{};
  double decay_of_ = -1.0;                  // the time that decay_ is for [s]
  std::vector<Special> specials_;
  std::vector<std::ptrdiff_t> twin_;        // the node tied to each node, or -1
  struct Pushed { std::size_t node; Vec3 impulse; };
  std::vector<Pushed> pushed_;              // from beside, in the last kick
  double pushed_for_ = 0.0;                 // how long that kick was [s]
  std::vector<Vec3> moved_from_;
  std::vector<MovedBar> moved_bars_;
  double put_in_ = 0.0, lost_in_webbing_ = 0.0, lost_to_air_ = 0.0, at_start_ = 0.0;
};

/// The longest step at which small waves of the line stay bounded [s]: from the greatest ratio of bar
/// stiffness to node mass (Gershgorin), loss branches and the curve up to MotionLine::greatest_tension included.
/// @throws InputError "line.nodes" if no node is free, "line.mass[i]" if a free one has none
double longest_steady_step(const MotionLine& line, Scheme scheme);
/// The step taken when none is asked for [s]: 0.7 (leapfrog) or 0.5 of the longest. Lines whose loops snap
/// want less: watch the ledger.
double steady_step(const MotionLine& line, Scheme scheme);

}  // namespace spanloom
