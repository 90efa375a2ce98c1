// What the statics cost: R100 in its states, the sweep over all its walker places, and long lines.
#include <benchmark/benchmark.h>
#include <malloc.h>

#include <stdexcept>

#include "statics/equilibrium.h"
#include "support/r100.h"

namespace spanloom {
namespace {

void require(const Equilibrium& state) {
  if (!state.certified()) throw std::runtime_error("a benchmark met a line that is not certified");
}

void standing_from_scratch(benchmark::State& run) {
  EquilibriumSolver solver(r100::standing());
  for (auto _ : run) {
    const Equilibrium state = solver.solve();
    require(state);
    benchmark::DoNotOptimize(state.tapes.data());
  }
}
BENCHMARK(standing_from_scratch)->Unit(benchmark::kMicrosecond);

void adding_the_walker(benchmark::State& run) {
  EquilibriumSolver solver(r100::standing());
  const Equilibrium standing = solver.solve();
  solver.set_loads(r100::walked());
  for (auto _ : run) {
    const Equilibrium state = solver.solve_from(standing);
    require(state);
    benchmark::DoNotOptimize(state.tapes.data());
  }
}
BENCHMARK(adding_the_walker)->Unit(benchmark::kMicrosecond);

// From the loads to both certified states, as the peer is timed.
void both_states(benchmark::State& run) {
  const Line standing = r100::standing(), walked = r100::walked();
  EquilibriumSolver solver(standing);
  for (auto _ : run) {
    solver.set_loads(standing);
    const Equilibrium empty = solver.solve();
    solver.set_loads(walked);
    const Equilibrium loaded = solver.solve_from(empty);
    require(empty);
    require(loaded);
    benchmark::DoNotOptimize(loaded.tapes.data());
  }
}
BENCHMARK(both_states)->Unit(benchmark::kMicrosecond);

void making_the_solver(benchmark::State& run) {
  const Line line = r100::standing();
  for (auto _ : run) {
    EquilibriumSolver solver(line);
    benchmark::DoNotOptimize(&solver);
  }
}
BENCHMARK(making_the_solver)->Unit(benchmark::kMicrosecond);

// The walker at both tapes and the middle of each of 40 bays: 81 places, each started from the one before.
void sweep_of_81_places(benchmark::State& run) {
  const Line line = r100::standing();
  EquilibriumSolver solver(line);
  for (auto _ : run) {
    solver.set_loads(line);
    Equilibrium state = solver.solve();
    require(state);
    for (std::size_t place = 0; place <= 2 * r100::kBays; ++place) {
      Line walked = line;
      const bool last = place == 2 * r100::kBays;
      add_main_load(walked, {last ? r100::kBays - 1 : place / 2, last ? r100::kMainBars : place % 2 * r100::kMainBars / 2},
                    {0.0, 0.0, -r100::kWalkerWeight});
      solver.set_loads(walked);
      state = solver.solve_from(state);
      require(state);
    }
    benchmark::DoNotOptimize(state.tapes.data());
  }
}
BENCHMARK(sweep_of_81_places)->Unit(benchmark::kMillisecond);

// The bays of R100, as many as the bars ask for: the way a longer line grows (1e6 bars are 139 km).
Line longer(std::size_t bars) {
  constexpr std::size_t kMain = 10, kLoop = 8;
  const std::size_t bays = bars / (kMain + kLoop);
  const double gap = 2.5 * double(bays), share = r100::kMainNaturalLength / r100::kGap;
  LineBuilder builder({StretchCurve::linear(r100::kMainStiffness), StretchCurve::linear(r100::kLoopStiffness)},
                      {{}, {gap, 0.0, 0.0}, {}, {gap, 0.0, 0.0}});
  const std::vector<BarSpec> main(kMain, {2.5 * share / kMain, 0, r100::kMainMass});
  const std::vector<BarSpec> loop(kLoop, {r100::kLoopNaturalLength / kLoop, 1, r100::kLoopMass});
  for (std::size_t k = 0; k < bays; ++k) builder.add_bay(main, loop);
  return std::move(builder).build();
}

// A mesh of R100 made finer within its 40 bays: the same line, more bars.
Line finer(std::size_t bars) { return r100::standing(bars / 720); }

std::size_t heap_in_use() {
  const struct mallinfo2 info = mallinfo2();
  return info.uordblks + info.hblkhd;
}

template <Line (*make)(std::size_t)>
void scaling(benchmark::State& run) {
  const Line line = make(std::size_t(run.range(0)));
  const std::size_t before = heap_in_use();
  EquilibriumSolver solver(line);
  int steps = 0;
  for (auto _ : run) {
    const Equilibrium state = solver.solve();
    require(state);
    steps = state.certificate.iterations;
  }
  const Equilibrium kept = solver.solve();
  const Shape shape = solver.shape(kept);
  run.counters["steps"] = steps;
  run.counters["bars"] = double(line.bars());
  // The solver with its own line, a state and its shape.
  run.counters["bytes_a_bar"] = double(heap_in_use() - before) / double(line.bars());
  run.counters["ns_a_bar"] = benchmark::Counter(double(line.bars()) * 1e-9, benchmark::Counter::kIsIterationInvariantRate |
                                                                                benchmark::Counter::kInvert);
}
BENCHMARK(scaling<finer>)->Name("finer_mesh")->RangeMultiplier(10)->Range(1000, 1000000)->Unit(benchmark::kMillisecond);
BENCHMARK(scaling<longer>)->Name("longer_line")->RangeMultiplier(10)->Range(1000, 1000000)->Unit(benchmark::kMillisecond);

}  // namespace
}  // namespace spanloom
