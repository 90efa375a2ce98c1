// What a layout is worth, fast enough to look at thousands a second: the line at rest with the lengths that it asks
// for, its drops, how close the walker's feet come to the backup, and the return of small shakes.
#pragma once

#include <optional>
#include <vector>

#include "line/mesh.h"
#include "rig/rig.h"
#include "spacing/layout.h"
#include "spacing/small_return.h"
#include "statics/equilibrium.h"
#include "statics/plan.h"

namespace spanloom {

/// Cut coarsely: returns differ by less than a hundredth from those of a fine mesh.
struct JudgeOptions {
  int main_bars = 2;                      ///< per bay, even [-]
  int loop_bars = 6;                      ///< per bay [-]
  SmallReturnOptions shakes;
};

struct LayoutScore {
  double return_mean = 0.0, return_worst = 0.0;  ///< small motion, sideways [-]
  std::vector<double> drop;               ///< of each loop, standing [m]
  /// Of each bay, by rule: drop less the main's kink P l / (4 T) under the walker, less what the walker's stretch of the
  /// main takes of the loop [m]. Within about 10 mm of the solver's, which the plan has; this is for a search.
  std::vector<double> ankle_margin;
  /// Of the backup in each bay with the walker above it, by the parabola w l^2 / (8 d) of what drop is left, of 1 mm where
  /// none is [N].
  std::vector<double> backup_tension;
  double tension = 0.0;                   ///< of the main at the near anchor [N]
};

/// Natural length of each loop of a line [m].
std::vector<double> loop_lengths_of(const Line& line);

/// One a thread; keeps its working memory.
class LayoutJudge {
 public:
  /// @param plan  of the rig as it is: its main's length, the walker's tension and the round trip of all layouts
  LayoutJudge(const Rig& rig, const Plan& plan, const JudgeOptions& options = {});

  /// Slack as asked. Empty where the line found no proven rest, or a tape meets a joint.
  /// @throws InputError "layout" where the numbers of bays and slacks differ
  [[nodiscard]] std::optional<LayoutScore> judge(const Layout& layout);

  /// The same with the lengths that a crew in fact cut and taped. @param loops  natural length of each loop [m]
  [[nodiscard]] std::optional<LayoutScore> judge_as_cut(const std::vector<double>& bays, const std::vector<double>& loops);

  /// Natural lengths of the loops of a layout [m]; empty where judge() is.
  [[nodiscard]] std::optional<std::vector<double>> loop_lengths(const Layout& layout);

 private:
  struct Standing { Mesh mesh; Equilibrium at_rest; };
  std::optional<Standing> stand(const std::vector<double>& bays, const std::vector<double>& loops,
                                const decltype(BackupSpec::amount)& amount) const;
  std::vector<double> first_loops(const Layout& layout) const;
  LayoutScore score(const Standing& standing);

  Rig rig_;
  Rigged rigged_;
  double stretch_ = 0.0;                  // of the standing main [-]
  double backup_weight_ = 0.0;            // per length, of its heaviest webbing [N/m]
  double walker_tension_ = 0.0;           // of the main with a walker at the middle [N]
  MeshOptions mesh_;
  SmallReturn small_return_;
};

}  // namespace spanloom
