// Pull tests made by formula, so that their numbers are known.
#pragma once

#include <cmath>
#include <vector>

#include "webbing/pull_test_cycles.h"

namespace spanloom::fixture {

/// One cycle: tension = top (share of the way)^power on the way up, with another power on the way down.
struct MadeCycle {
  double from, to;          ///< stretch without load, before and after [-]
  double greatest;          ///< stretch at the top [-]
  double top = 20e3;        ///< [N]
  double up = 1.4, down = 1.7;
};

inline std::vector<PullSample> made_pull(const std::vector<MadeCycle>& cycles, int steps = 200) {
  std::vector<PullSample> samples;
  for (const MadeCycle& c : cycles) {
    for (int i = 0; i <= steps; ++i) {
      const double x = static_cast<double>(i) / steps;
      samples.push_back({c.top * std::pow(x, c.up), std::lerp(c.from, c.greatest, x)});
    }
    for (int i = 1; i <= steps; ++i) {
      const double x = 1.0 - static_cast<double>(i) / steps;
      samples.push_back({c.top * std::pow(x, c.down), std::lerp(c.to, c.greatest, x)});
    }
  }
  return samples;
}

/// Three pulls of webbing that gets 1.0, then 1.2, then 1.25 % longer: the third has settled.
inline std::vector<PullSample> three_pulls(int steps = 200) {
  return made_pull({{0.0, 0.010, 0.110, 20e3, 1.3, 1.8}, {0.010, 0.012, 0.115}, {0.012, 0.0125, 0.116}}, steps);
}

}  // namespace spanloom::fixture
