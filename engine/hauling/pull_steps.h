// From hand-tight to standing: tension against the length that is pulled through, each step a line at rest.
#pragma once

#include <optional>
#include <vector>

#include "base/quantity_text.h"
#include "rig/rig.h"
#include "statics/natural_lengths.h"

namespace spanloom {

/// The line with the backup hung, at one tension on the way up.
struct PullStep {
  double tension_near = 0.0;         ///< of the main at the near anchor [N]
  double tension_far = 0.0;          ///< [N]
  double pulled = 0.0;               ///< natural length of main pulled through since hand-tight [m]
  double travel = 0.0;               ///< the same as it passes the clamp, stretched by the tension then [m]
  double sag = 0.0;                  ///< at the middle of the gap, below the straight line between the anchors [m]
  std::optional<double> ground_clearance;  ///< least of line and loops outside the anchor zones [m]
};

/// Tensions to stop at: `from`, round ones between, `to`. @param step  between the round ones [N]; empty: about ten
/// steps
/// @throws InputError "step" where that is not positive or makes more than kMostSteps
std::vector<double> pulling_tensions(double from, double to, std::optional<double> step, UnitSystem units);
inline constexpr int kMostSteps = 200;

/// The way up to the standing line. The line at each tension is solved and proven; the last step is the standing line
/// itself. `travel` sums (1 + stretch) times natural length by the trapezoid rule over the steps: with ten steps
/// within 2 % of the little that stretch adds. Tapes keep their places on the main; at the far anchor the backup is
/// let out as much as the main (slacken()). Rings are locked.
/// @param tensions  rising, the last the standing tension at the near anchor [N]
/// @return empty where a tension has no hanging line; low tensions have none on a heavy line
[[nodiscard]] std::optional<std::vector<PullStep>> pull_steps(const Rig& rig, const StandingRig& standing,
                                                              const std::vector<double>& tensions);

/// Below the straight line between the anchors, at the middle of the gap [m].
double sag_at_middle(const Rig& rig, const Shape& shape);

}  // namespace spanloom
