// What a layout must keep: bays, slacks and tapes that the crew wants, and the limits of the rig, by rules fast enough for a
// search. What a search finds is planned before it is shown (layout_proof.h).
#pragma once

#include <cstddef>
#include <utility>
#include <vector>

#include "rig/rig.h"
#include "spacing/layout_judge.h"
#include "spacing/phrase.h"
#include "statics/plan.h"

namespace spanloom {

struct LayoutBounds {
  BayStep step = BayStep::half_arm_span;
  int shortest = 2, longest = 6;          ///< bay [steps]; close bays and what is left over are not asked
  std::size_t most_tapes = 1000;
  double least_slack = 0.005, most_slack = 0.03;  ///< of a bay [-]
  double slack_step = 0.001;              ///< [-]
  double most_drop = 0.5;                 ///< of a loop [m]
  double most_backup_tension = 400.0;     ///< with a walker, while the main holds [N]
  std::size_t longest_phrase = 6;         ///< of bays: what one can call out and keep in mind
  std::size_t longest_slack_phrase = 5;   ///< of slacks
};

/// Common practice, no published source: bays of 1 to 3 arm spans below 100 m and 2 to 4 above, half to two arm spans on
/// lines of less than 20; slack from half to twice the rig's own; backup tension as the rig's limit.
LayoutBounds usual_bounds(const Rig& rig, const Plan& plan, BayStep step = BayStep::half_arm_span);

/// @throws InputError "bounds" and what is wrong, where they are empty or beyond reason
void check_bounds(const LayoutBounds& bounds);

/// How much a layout breaks the limits of rig and bounds, by rule.
class LimitRules {
 public:
  LimitRules(const Rig& rig, const Plan& plan, const LayoutBounds& bounds);
  /// 0 where all are kept; else by how much in all: lengths [m], tensions [kN].
  double broken(const Layout& layout, const LayoutScore& score) const;

 private:
  /// How far a loop may hang below the feet of a walker above it [m].
  double room(double along) const;

  double least_ankle_margin_, least_drop_;
  LayoutBounds bounds_;
  std::vector<std::pair<double, double>> room_;   // place along the unloaded main, room there [m]; empty: no ground given
};

}  // namespace spanloom
