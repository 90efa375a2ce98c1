// Neighbouring bars of one material, so that a pass over a line need not ask bar by bar what it is made of.
#pragma once

#include <cstddef>
#include <vector>

#include "base/lane.h"
#include "motion/motion_line.h"

namespace spanloom {

/// Bars [first, first + count) with one curve and one loss; or the bars that are none.
struct BarRun {
  std::size_t first = 0;
  std::size_t count = 0;
  bool none = false;                ///< carries nothing
  double axial_stiffness = 0.0;     ///< of a straight curve [N]; 0: `rises` holds
  struct Rise { double from, per_width, c1, c2, c3; };
  std::vector<Rise> rises;          ///< the curve: rises one on another, each over its own stretch
  double last_stretch = 0.0;        ///< from here on a straight line [-]
  double last_slope = 0.0;          ///< [N]
  double branch_share = 0.0;        ///< loss.h [-]
};

using BarRuns = std::vector<BarRun>;

/// Runs that cover every bar of the line and one after the last, which is none.
BarRuns bar_runs(const MotionLine& line);

/// Tension [N] of four bars of a straight run at stretches e [-].
inline Lane straight_tension(const BarRun& run, const Lane& e) { return run.axial_stiffness * larger(e, Lane{}); }

/// The same of a bent run. Most bars are on the first rises of their curve.
inline Lane bent_tension(const BarRun& run, const Lane& e) {
  Lane tension{};
  for (const BarRun::Rise& rise : run.rises) {
    if (!any_above(e, rise.from)) return tension;
    Lane t = larger((e - rise.from) * rise.per_width, Lane{});
    t = t < 1.0 ? t : lane_of(1.0);
    tension += t * (rise.c1 + t * (rise.c2 + t * rise.c3));
  }
  return tension + run.last_slope * larger(e - run.last_stretch, Lane{});
}

}  // namespace spanloom
