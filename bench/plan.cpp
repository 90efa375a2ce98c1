// What a whole plan costs: natural lengths from tension and slack or drop against one solve of the same
// line, and all places of a walker with everything that is said about them. R100's main and backup.
#include <benchmark/benchmark.h>

#include <stdexcept>

#include "statics/natural_lengths.h"
#include "statics/plan.h"

namespace spanloom {
namespace {

constexpr MeshOptions kBars{10, 8};

Rig r100_rig() {
  Rig rig = rig_with_defaults();
  rig.site.gap = 100.0;
  for (const auto& [name, mass, stiffness] : {std::tuple{"main", 0.060, 150e3}, {"backup", 0.050, 250e3}}) {
    Webbing webbing = webbing_with_defaults();
    webbing.name = name;
    webbing.mass_per_length = mass;
    webbing.strength = 32e3;
    webbing.curve = StretchCurve::linear(stiffness);
    rig.webbings.push_back(webbing);
  }
  rig.main.run.segments = {{0, std::nullopt}};
  rig.main.tension = 5000.0;
  rig.backup.run.segments = {{1, std::nullopt}};
  TapesAt tapes;
  for (int i = 1; i < 40; ++i) tapes.positions.push_back(96.776141893 / 40.0 * i);
  rig.spacing.pattern = tapes;
  rig.walker.mass = 80.0;
  return rig;
}

StandingRig found(const Rig& rig) {
  StandingOutcome out = find_natural_lengths(rig, kBars);
  if (!out.rig) throw std::runtime_error("a benchmark met lengths that were not found: " + out.why.words);
  return std::move(*out.rig);
}

void lengths_from(benchmark::State& run, Rig rig) {
  for (auto _ : run) {
    const StandingRig standing = found(rig);
    benchmark::DoNotOptimize(standing.rigged.loop_length.data());
  }
}

void one_solve(benchmark::State& run) {
  Rig rig = r100_rig();
  rig.backup.amount = SlackShare{{0.015}};
  EquilibriumSolver solver(found(rig).mesh.line);
  for (auto _ : run) {
    const Equilibrium state = solver.solve();
    if (!state.certified()) throw std::runtime_error("a benchmark met a line that is not certified");
    benchmark::DoNotOptimize(state.tapes.data());
  }
}
BENCHMARK(one_solve)->Unit(benchmark::kMicrosecond);

void lengths_from_slack(benchmark::State& run) {
  Rig rig = r100_rig();
  rig.backup.amount = SlackShare{{0.015}};
  lengths_from(run, rig);
}
BENCHMARK(lengths_from_slack)->Unit(benchmark::kMicrosecond);

void lengths_from_drop(benchmark::State& run) {
  Rig rig = r100_rig();
  rig.backup.amount = LoopDrop{{0.18}};
  lengths_from(run, rig);
}
BENCHMARK(lengths_from_drop)->Unit(benchmark::kMicrosecond);

// Lengths, 81 walker places, 40 rescues and the hand-tight line, each certified and described.
void whole_plan(benchmark::State& run) {
  Rig rig = r100_rig();
  rig.backup.amount = SlackShare{{0.015}};
  for (auto _ : run) {
    const PlanOutcome outcome = make_plan(rig, {.main_bars = kBars.main_bars, .loop_bars = kBars.loop_bars});
    if (!outcome.plan) throw std::runtime_error("a benchmark met a rig without a plan");
    benchmark::DoNotOptimize(outcome.plan->walker.data());
  }
}
BENCHMARK(whole_plan)->Unit(benchmark::kMillisecond);

}  // namespace
}  // namespace spanloom
