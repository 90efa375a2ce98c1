#include "motion/bar_runs.h"

#include "motion/loss.h"

namespace spanloom {

BarRuns bar_runs(const MotionLine& line) {
  BarRuns runs;
  for (std::size_t i = 0; i < line.bars(); ++i) {
    const bool none = !line.is_bar(i);
    if (i > 0) {
      const std::size_t before = i - 1;
      const bool same = none == runs.back().none && line.law[i] == line.law[before] && line.loss[i] == line.loss[before];
      if (same) {
        ++runs.back().count;
        continue;
      }
    }
    BarRun run;
    run.first = i;
    run.count = 1;
    run.none = none;
    const StretchCurve& curve = line.laws[std::size_t(line.law[i])];
    run.axial_stiffness = curve.constant_stiffness();
    for (const StretchCurve::Cubic& c : curve.cubics()) run.rises.push_back({c.stretch, 1.0 / c.width, c.c1, c.c2, c.c3});
    run.last_stretch = curve.points().back().stretch;
    run.last_slope = curve.last_slope();
    run.branch_share = none ? 0.0 : branch_share(line.loss[i]);
    runs.push_back(std::move(run));
  }
  BarRun end;
  end.first = line.bars();
  end.count = 1;
  end.none = true;
  runs.push_back(end);
  return runs;
}

}  // namespace spanloom
