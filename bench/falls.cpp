// What a fall costs: one event of each kind, and the whole search for the worst.
#include <benchmark/benchmark.h>

#include <stdexcept>

#include "events/catch_report.h"
#include "events/fall_search.h"
#include "files/rig_file.h"

namespace spanloom {
namespace {

Rig example(const std::string& name) { return read_rig_file(std::string(SPANLOOM_SOURCE_DIR) + "/examples/" + name + "/rig.toml").rig; }

MovingRig line_of(const char* name, const MotionMesh& mesh) {
  MovingOutcome outcome = moving_rig(example(name), mesh);
  if (!outcome.rig) throw std::runtime_error(outcome.why);
  return std::move(*outcome.rig);
}

void fall(benchmark::State& state, const char* name, const MotionMesh& mesh, const AskedFall& asked) {
  const MovingRig rig = line_of(name, mesh);
  AskedFall here = asked;
  here.walker = 0.5 * rig.rig.site.gap;
  const FallCase what = case_on(rig, here);
  double simulated = 0.0;
  for (auto _ : state) {
    const FallOutcome outcome = run_fall(rig, what);
    if (!outcome.result) return state.SkipWithError(outcome.why.c_str());
    simulated += outcome.result->time;
  }
  state.counters["simulated_s"] = benchmark::Counter(simulated / double(state.iterations()));
}

AskedFall main_failure(double tape_strength) {
  AskedFall asked;
  asked.what.tape_strength = tape_strength;
  asked.cut = CutWhere::beside_farther;
  return asked;
}

AskedFall leash_fall() {
  AskedFall asked;
  asked.what.kind = FallKind::leash_fall;
  return asked;
}

BENCHMARK_CAPTURE(fall, leash_heron_search, "heron-gorge", kSearchMesh, leash_fall())->Unit(benchmark::kMillisecond);
BENCHMARK_CAPTURE(fall, tapes_hold_heron_search, "heron-gorge", kSearchMesh, main_failure(kTapesHold))->Unit(benchmark::kMillisecond);
BENCHMARK_CAPTURE(fall, tapes_tear_heron_search, "heron-gorge", kSearchMesh, main_failure(350.0))->Unit(benchmark::kMillisecond);
BENCHMARK_CAPTURE(fall, tapes_tear_heron_told, "heron-gorge", kToldMesh, main_failure(350.0))->Unit(benchmark::kMillisecond);
BENCHMARK_CAPTURE(fall, tapes_hold_practice_told, "practice-line", kToldMesh, main_failure(kTapesHold))->Unit(benchmark::kMillisecond);

void search(benchmark::State& state, const char* name) {
  const Rig rig = example(name);
  const PlanOutcome plan = make_plan(rig);
  CatchReportOptions options;
  options.threads = unsigned(state.range(0));
  for (auto _ : state) {
    const CatchReportOutcome outcome = make_catch_report(rig, *plan.plan, options);
    if (!outcome.report) return state.SkipWithError(outcome.why.c_str());
    state.counters["falls"] = double(outcome.report->search.events + outcome.report->search.told);
  }
}

BENCHMARK_CAPTURE(search, heron, "heron-gorge")->Arg(1)->Arg(2)->Unit(benchmark::kSecond)->UseRealTime()->Iterations(1);
BENCHMARK_CAPTURE(search, practice, "practice-line")->Arg(1)->Arg(2)->Unit(benchmark::kSecond)->UseRealTime()->Iterations(1);

}  // namespace
}  // namespace spanloom
