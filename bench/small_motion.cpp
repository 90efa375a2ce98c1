// What small motion costs: modes of R100 below 5 Hz, and its sideways spectrum as the search for layouts takes it.
#include <benchmark/benchmark.h>

#include <cmath>
#include <numbers>
#include <stdexcept>

#include "motion/lateral_spectrum.h"
#include "motion/small_motion.h"
#include "statics/equilibrium.h"
#include "support/r100.h"

namespace spanloom {
namespace {

struct Standing {
  MotionLine line;
  std::vector<Vec3> places;
};

Standing r100_at_rest() {
  const Line line = r100::standing();
  EquilibriumSolver solver(line);
  const Equilibrium state = solver.solve();
  if (!state.certified()) throw std::runtime_error("a benchmark met a line that is not certified");
  MotionLine moving = motion_line(line);
  std::vector<Vec3> places = node_places(moving, solver.shape(state));
  return {std::move(moving), std::move(places)};
}

void modes_below_5_Hz(benchmark::State& run, Swing swing) {
  const Standing at = r100_at_rest();
  std::size_t count = 0;
  for (auto _ : run) {
    const Modes modes = natural_modes(at.line, at.places, swing, {.below_Hz = 5.0});
    if (!modes.certified) throw std::runtime_error("a benchmark met modes that are not certified");
    count = modes.modes.size();
  }
  run.counters["modes"] = double(count);
}
BENCHMARK_CAPTURE(modes_below_5_Hz, lateral, Swing::lateral)->Unit(benchmark::kMillisecond);
BENCHMARK_CAPTURE(modes_below_5_Hz, in_plane, Swing::in_plane)->Unit(benchmark::kMillisecond);

LateralFrequencies sixty_four() {
  LateralFrequencies frequencies{0.05, {}};
  for (int i = 0; i < 64; ++i) frequencies.omega.push_back(2.0 * std::numbers::pi * 4.2 * (i + 1) / 64.0);
  return frequencies;
}

enum class Asked { receptance, all_tapes };

// The search's unit of work: a layout's springs and masses taken over, 64 frequencies, one shaken place.
void spectrum(benchmark::State& run, bool anew, Asked asked) {
  const Standing at = r100_at_rest();
  LateralSpectrum spectrum(sixty_four());
  LateralLine lateral = lateral_line(at.line, at.places);
  spectrum.take(lateral);
  const std::size_t shaken = 60;
  std::vector<std::size_t> nodes;
  if (asked == Asked::all_tapes) {
    for (const Tie& tie : lateral.ties) nodes.push_back(tie.main);
  }
  for (auto _ : run) {
    if (anew) {
      lateral = lateral_line(at.line, at.places);
      spectrum.take(lateral);
    }
    spectrum.solve({&shaken, 1}, nodes);
    benchmark::DoNotOptimize(spectrum.receptance(0, 63));
  }
}
BENCHMARK_CAPTURE(spectrum, of_a_line_it_has, false, Asked::receptance)->Unit(benchmark::kMicrosecond);
BENCHMARK_CAPTURE(spectrum, of_a_new_layout, true, Asked::receptance)->Unit(benchmark::kMicrosecond);
BENCHMARK_CAPTURE(spectrum, of_a_new_layout_at_all_tapes, true, Asked::all_tapes)->Unit(benchmark::kMicrosecond);

}  // namespace
}  // namespace spanloom
