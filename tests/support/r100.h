// The agreed line R100: 100 m level, 40 equal bays, main and backup of straight curves. Three
// independent programs were run on it, so its values stand as published ones for this project.
#pragma once

#include <utility>
#include <vector>

#include "base/constants.h"
#include "line/line.h"

namespace spanloom::r100 {

inline constexpr double kGap = 100.0;                       // [m]
inline constexpr std::size_t kBays = 40;
inline constexpr double kMainNaturalLength = 96.776141893;  // [m]
inline constexpr double kLoopNaturalLength = 2.5375;        // of each loop [m]
inline constexpr double kMainStiffness = 150e3;             // EA [N]
inline constexpr double kLoopStiffness = 250e3;             // EA [N]
inline constexpr double kMainMass = 0.060;                  // [kg/m]
inline constexpr double kLoopMass = 0.050;                  // [kg/m]
inline constexpr double kWalkerWeight = 80.0 * kGravity;    // [N]
inline constexpr std::size_t kMainBars = 10;                // a bay, on the agreed mesh
inline constexpr std::size_t kLoopBars = 8;                 // a bay, on the agreed mesh

/// @param times  so many times the bars of the agreed mesh
inline Line standing(std::size_t times = 1) {
  const std::size_t main_bars = kMainBars * times, loop_bars = kLoopBars * times;
  const double main_bar = kMainNaturalLength / double(kBays * main_bars);
  const std::vector<BarSpec> main(main_bars, {main_bar, 0, kMainMass});
  const std::vector<BarSpec> loop(loop_bars, {kLoopNaturalLength / double(loop_bars), 1, kLoopMass});
  const Vec3 near{0.0, 0.0, 0.0}, far{kGap, 0.0, 0.0};
  LineBuilder builder({StretchCurve::linear(kMainStiffness), StretchCurve::linear(kLoopStiffness)},
                      {near, far, near, far});
  for (std::size_t bay = 0; bay < kBays; ++bay) builder.add_bay(main, loop);
  return std::move(builder).build();
}

/// The walker at mid span, as a dead load.
inline Line walked(std::size_t times = 1) {
  Line line = standing(times);
  add_main_load(line, {kBays / 2, 0}, {0.0, 0.0, -kWalkerWeight});
  return line;
}

}  // namespace spanloom::r100
