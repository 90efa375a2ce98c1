// What a judgement of a layout costs, and a search: a line of 100 m with 40 bays, as the search looks at thousands.
#include <benchmark/benchmark.h>

#include <stdexcept>

#include "files/rig_file.h"
#include "spacing/space_report.h"
#include "support/planned.h"

namespace spanloom {
namespace {

// Straight curves, 5 kN, invented.
Planned hundred_metres() {
  Rig rig = rig_with_defaults();
  rig.title = "100 m";
  rig.site.gap = 100.0;
  for (const auto& [name, mass, stiffness] : {std::tuple{"main", 0.060, 150e3}, std::tuple{"backup", 0.050, 250e3}}) {
    Webbing webbing = webbing_with_defaults();
    webbing.name = name;
    webbing.mass_per_length = mass;
    webbing.strength = 30e3;
    webbing.curve = StretchCurve::linear(stiffness);
    rig.webbings.push_back(webbing);
  }
  rig.main.run.segments = {{0, std::nullopt}};
  rig.backup.run.segments = {{1, std::nullopt}};
  rig.main.tension = 5000.0;
  rig.backup.amount = SlackShare{{0.015}};
  rig.spacing.pattern = EvenBays{2.42};
  rig.walker.mass = 80.0;
  return planned(std::move(rig));
}

void judgement(benchmark::State& state) {
  const Planned line = hundred_metres();
  LayoutJudge judge(line.rig, line.plan);
  const Layout layout = layout_of(line.plan);
  for (auto _ : state) {
    if (!judge.judge(layout)) return state.SkipWithError("a layout that does not stand");
  }
  state.counters["bays"] = double(layout.bays.size());
  state.counters["a_second"] = benchmark::Counter(double(state.iterations()), benchmark::Counter::kIsRate);
}
BENCHMARK(judgement)->Unit(benchmark::kMicrosecond);

void judgement_as_cut(benchmark::State& state) {
  const Planned line = hundred_metres();
  LayoutJudge judge(line.rig, line.plan);
  const Layout layout = layout_of(line.plan);
  const auto loops = judge.loop_lengths(layout);
  for (auto _ : state) {
    if (!judge.judge_as_cut(layout.bays, *loops)) return state.SkipWithError("a layout that does not stand");
  }
}
BENCHMARK(judgement_as_cut)->Unit(benchmark::kMicrosecond);

Planned heron_gorge() { return planned(read_rig_file(std::string(SPANLOOM_SOURCE_DIR) + "/examples/heron-gorge/rig.toml").rig); }

void search_in_small_motion(benchmark::State& state) {
  const Planned line = heron_gorge();
  SearchOptions options;
  options.island.bounds = usual_bounds(line.rig, line.plan);
  options.threads = unsigned(state.range(0));
  for (auto _ : state) {
    const SearchResult result = search_layouts(line.rig, line.plan, nullptr, options);
    state.counters["judged"] = double(result.judged);
    state.counters["a_second"] = benchmark::Counter(double(result.judged), benchmark::Counter::kIsRate);
  }
}
BENCHMARK(search_in_small_motion)->Arg(1)->Arg(2)->Unit(benchmark::kSecond)->UseRealTime()->Iterations(1);

void glance(benchmark::State& state) {
  const Planned line = heron_gorge();
  const MovedJudge moved(line.rig);
  const Layout layout = layout_of(line.plan);
  std::size_t round = 0;
  for (auto _ : state) {
    if (moved.shake_as_taped(layout, ShakeSet::fast, round++).without > 0) return state.SkipWithError("a shake without a number");
  }
}
BENCHMARK(glance)->Unit(benchmark::kMillisecond)->Iterations(8);

void proposal(benchmark::State& state) {
  const Planned line = heron_gorge();
  SpaceOptions options;
  options.bounds = usual_bounds(line.rig, line.plan);
  options.threads = unsigned(state.range(0));
  for (auto _ : state) {
    if (!find_spacing(line.rig, line.plan, options).report) return state.SkipWithError("no proposal");
  }
}
BENCHMARK(proposal)->Arg(1)->Arg(2)->Unit(benchmark::kSecond)->UseRealTime()->Iterations(1);

}  // namespace
}  // namespace spanloom
