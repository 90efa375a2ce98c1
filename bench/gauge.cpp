// From readings to the line as it hangs, on the demo rigs, and its parts: one line hung, one blow answered, one record.
#include <benchmark/benchmark.h>

#include <string>

#include "files/readings_toml.h"
#include "files/rig_file.h"
#include "gauge/gauge.h"
#include "gauge/line_as_hung.h"
#include "gauge/pulse.h"

namespace {

using namespace spanloom;

const std::string kExamples = std::string(SPANLOOM_SOURCE_DIR) + "/examples/";

struct Demo {
  RigFile file;
  Plan plan;
  explicit Demo(const std::string& name) : file(read_rig_file(kExamples + name + "/rig.toml")), plan(*make_plan(file.rig).plan) {}
};

void gauges(benchmark::State& state, const std::string& name, const std::string& readings) {
  const Demo demo(name);
  const auto read = read_readings_file(kExamples + name + "/" + readings);
  for (auto _ : state) benchmark::DoNotOptimize(gauge(demo.file.rig, demo.plan, read.readings).report->tension);
}
BENCHMARK_CAPTURE(gauges, practice_line, "practice-line", "readings.toml")->Unit(benchmark::kMillisecond);
BENCHMARK_CAPTURE(gauges, practice_line_by_accelerometer, "practice-line", "swing.toml")->Unit(benchmark::kMillisecond);
BENCHMARK_CAPTURE(gauges, heron_gorge, "heron-gorge", "readings.toml")->Unit(benchmark::kMillisecond);

void hangs_a_line(benchmark::State& state) {
  const Demo demo("heron-gorge");
  const LineHanger hanger(demo.file.rig, demo.plan.rigged, {3.0}, demo.plan.standing.tapes);
  for (auto _ : state) benchmark::DoNotOptimize(hanger.hang({4000.0, 1.0, 1.0, demo.file.rig.site.gap})->main_length);
}
BENCHMARK(hangs_a_line)->Unit(benchmark::kMicrosecond);

void answers_a_blow(benchmark::State& state) {
  const Demo demo("heron-gorge");
  const LineHanger hanger(demo.file.rig, demo.plan.rigged, {3.0}, demo.plan.standing.tapes);
  const HungLine hung = *hanger.hang({4000.0, 1.0, 1.0, demo.file.rig.site.gap});
  for (auto _ : state) benchmark::DoNotOptimize(echo_of_blow(hung, hung.node_of(0), 0.04, 3)->time);
}
BENCHMARK(answers_a_blow)->Unit(benchmark::kMicrosecond);

}  // namespace
