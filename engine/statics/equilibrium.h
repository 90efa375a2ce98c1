// Where a line under dead loads comes to rest, with the proof that it is there.
//
// The potential energy of a tension-only line under dead loads is convex in its node positions, so the
// place of rest is one. Unknowns are the tapes and the near-end force of every chain (chain.h); the
// solver takes Newton steps on both at once, and if those do not settle, falls back to a descent on
// the energy of the tapes alone with every chain hung exactly, which reaches the one minimum from
// anywhere. Neither has a knob to tune. Notation as in line.h.
#pragma once

#include <cstddef>
#include <span>
#include <vector>

#include "base/vec3.h"
#include "line/chain.h"
#include "line/ladder.h"
#include "line/line.h"

namespace spanloom {

/// What proves a solution.
struct Certificate {
  int iterations = 0;            ///< Newton steps over the line [-]
  double residual = 0.0;         ///< greatest unbalanced force on a node, from positions alone [N]
  double residual_floor = 0.0;   ///< what rounding of the positions alone makes of it [N]
  double greatest_force = 0.0;   ///< greatest bar force [N]
  /// Potential energy above its proven lower bound [J]: the sum over bars of
  /// L W(e) + L (T + W*(T)) - F . b (Fenchel's inequality), positions against balanced forces.
  double energy_gap = 0.0;
  double energy_scale = 0.0;     ///< sum of the sizes of those terms [J]
};

enum class SolveStatus { certified, not_certified };

struct Equilibrium {
  SolveStatus status = SolveStatus::not_certified;
  Certificate certificate;
  std::vector<Vec3> tapes;       ///< bays + 1 places of the main, anchors included [m]
  std::vector<Vec3> near_force;  ///< in the first bar of each chain, pulling its near end on [N]
  std::vector<Vec3> far_force;   ///< in the last bar of each chain [N]

  bool certified() const { return status == SolveStatus::certified; }
};

/// Positions of all nodes, chain by chain [m].
struct Shape {
  std::vector<std::vector<Vec3>> main;  ///< per bay, from tape to tape
  std::vector<std::vector<Vec3>> loop;  ///< per bay; empty where there is no loop
};

/// Solves one line under changing loads and lengths; keeps its working memory.
class EquilibriumSolver {
 public:
  /// Newton's error squares at each step: from here one more step ends at rounding.
  static constexpr double kLastStepAt = 1e-8;

  explicit EquilibriumSolver(const Line& line);

  /// From nothing.
  [[nodiscard]] Equilibrium solve();
  /// From a known state of the same line, as under other loads.
  [[nodiscard]] Equilibrium solve_from(const Equilibrium& start);
  /// By the descent on the energy alone, as a second way to the same answer.
  [[nodiscard]] Equilibrium solve_by_descent();

  /// Takes over changed loads; lengths, materials and ends must be those of the line it has.
  void set_loads(const Line& line);
  /// Takes over changed loads and natural lengths; the bars must be as many as those it has.
  void set_lengths_and_loads(const Line& line);
  /// Brings a state to rest without proving it, for loops that prove only their last state.
  /// @param last_step_at  miss over greatest force at which one more step is the last [-]
  /// @return false where the joint Newton steps did not settle
  [[nodiscard]] bool settle(Equilibrium& state, int& iterations, double last_step_at = kLastStepAt) {
    return newton(state, iterations, last_step_at);
  }
  /// Proves a settled state; falls back to solve_by_descent() where the proof fails.
  [[nodiscard]] Equilibrium prove(Equilibrium settled, int iterations);

  const ChainSet& chains() const { return chains_; }
  const Line& line() const { return line_; }
  Shape shape(const Equilibrium& at) const;
  /// Far end minus near end of a chain whose tapes are at given places [m].
  Vec3 chain_reach(std::size_t chain, std::span<const Vec3> tapes) const;
  /// A start from nothing: the main as one chain under all loads, then each loop hung between its tapes.
  Equilibrium start() const;

 private:
  friend class Descent;
  struct Miss { double force = 0.0; double greatest = 0.0; };

  Vec3 lumped_tape_load(std::size_t tape) const;
  Miss linearise(const Equilibrium& state);
  void step(Equilibrium& state);
  bool newton(Equilibrium& state, int& iterations, double last_step_at = kLastStepAt);
  void finish(Equilibrium& state, int iterations) const;

  Line line_;
  ChainSet chains_;
  Ladder ladder_;
  std::vector<Sym3> stiffness_;   // of each chain
  std::vector<Vec3> pull_;        // stiffness times closure error, of each chain
  std::vector<Sym3> spring_;      // of each bay
  std::vector<Vec3> unbalanced_;  // on each tape
};

}  // namespace spanloom
