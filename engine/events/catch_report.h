// What a rigger wants to know before anyone clips in: the worst main failure and the worst leash fall, what the anchors
// and their legs feel, how much clear height that needs, and what more or less backup slack would change.
#pragma once

#include <functional>
#include <optional>
#include <string>
#include <vector>

#include "base/quantity_text.h"
#include "events/anchor_legs.h"
#include "events/fall.h"
#include "rig/rig.h"
#include "statics/plan.h"

namespace spanloom {

/// How the worst was looked for.
struct FallSearch {
  std::size_t events = 0;                 ///< that were computed on the mesh of the search
  std::size_t failed = 0;                 ///< of them without a closed ledger; never a number
  std::size_t lost = 0;                   ///< of them in which nothing holds the walker
  std::size_t told = 0;                   ///< the worst ones, computed again on a finer mesh
  double mesh_change_body = 0.0;          ///< greatest force on the body: told / searched - 1 [-]
  double mesh_change_fall = 0.0;          ///< the same of the fall [-]
  std::vector<std::string> words;         ///< what places, what cuts, how refined
};

/// Load on the legs of one anchor in one state.
struct AnchorState {
  std::string state;                      ///< "standing", "walker at 31.0 m", "leash fall", "main failure"
  Vec3 force;                             ///< of the line on the anchor [N]
  /// Empty: no points are given, or no rest (`why`). Of falls: each leg by itself in the fall that is worst for it, to
  /// either side.
  std::optional<LegsUnderLoad> legs;
  bool cannot_hold = false;               ///< points are given and no leg pulls against the force
  std::string why;                        ///< in words, when points are given and `legs` is empty
  /// One a point: the legs when that point is gone, each in the fall that is worst for it; an empty one where the rest
  /// does not hold.
  std::vector<std::optional<LegsUnderLoad>> without;
};

/// One backup slack of the table of costs.
struct SlackCost {
  double factor = 1.0;                    ///< times the rig's own slack, loop by loop [-]
  double slack = 0.0;                     ///< over all bays [-]
  std::string why_not;                    ///< in words: not computed; then nothing below means anything
  double least_drop = 0.0, mean_drop = 0.0;  ///< of the loops [m]
  double ankle_margin = 0.0;              ///< the least [m]
  double backup_tension = 0.0;            ///< the most with a walker on an unbroken main [N]
  double fall = 0.0, body = 0.0;          ///< main failure, the rig's own worst places [m], [N]
  double clear_height = 0.0;              ///< the same [m]
  double returned = 0.0;                  ///< return of sideways shakes, mean [-]
};

struct CatchReport {
  /// Those of the finer mesh, the worst first: lost before held, then by the force on the body.
  std::vector<FallResult> main_failure;
  std::vector<FallResult> leash_fall;
  bool tape_strength_known = false;       ///< else both without strength and with full strength were computed
  FallSearch search;
  std::vector<AnchorState> near, far;     ///< standing, walkers and wind, leash fall, main failure
  std::vector<SlackCost> costs;           ///< rising slack; empty when quick or stopped
  std::size_t cost_shakes = 0;            ///< shakes that each return of `costs` is the mean of
  double clear_height_needed = 0.0;       ///< below the standing main, reserve included [m]; 0 where any walker is lost
  double clear_height_at = 0.0;           ///< place of that walker [m]
  std::vector<std::string> notes;         ///< what was assumed or left out, in words
  bool stopped = false;                   ///< before the end
  bool quick = false;

  /// Indices into main_failure and leash_fall of the greatest or least; 0 where all were lost.
  struct Worst { std::size_t body = 0, fall = 0, clearance = 0, wall = 0, near = 0, far = 0, backup = 0; };
  Worst worst_failure, worst_leash_fall;
};

struct CatchReportOptions {
  bool quick = false;                     ///< no table of costs, no refinement
  unsigned threads = 1;
  UnitSystem units = UnitSystem::metric;
  /// @return false to stop. Called from the calling thread's pool, one call at a time.
  std::function<bool(std::size_t done, std::size_t all)> progress;
};

struct CatchReportOutcome {
  std::optional<CatchReport> report;
  std::string why;                        ///< in words, when `report` is empty
};

/// @param plan  of the same rig
/// @throws InputError as find_natural_lengths(); "walker.leash" if it is too short to stand
[[nodiscard]] CatchReportOutcome make_catch_report(const Rig& rig, const Plan& plan, const CatchReportOptions& options = {});

}  // namespace spanloom
