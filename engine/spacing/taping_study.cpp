#include "spacing/taping_study.h"

#include "base/parallel.h"

namespace spanloom {
namespace {

std::optional<double> glanced_return_of(const MovedJudge& moved, const TapedLine& taped) {
  const std::optional<MovingRig> line = moved.line(taped);
  if (!line) return std::nullopt;
  const MovedReturn seen = moved.shake(*line, ShakeSet::fast);
  return seen.shakes > 0 ? std::optional(seen.mean) : std::nullopt;
}

}  // namespace

ReturnAsTaped TapingStudy::small() const {
  std::vector<std::optional<double>> all;
  for (const CrewReturn& crew : crews) all.push_back(crew.small);
  return as_taped(all);
}

ReturnAsTaped TapingStudy::glanced() const {
  std::vector<std::optional<double>> all;
  for (const CrewReturn& crew : crews) all.push_back(crew.glanced);
  return as_taped(all);
}

std::optional<TapingStudy> study_taping(const Rig& rig, const Plan& plan, const MovedJudge& moved, const Layout& layout,
                                        const TapingStudyOptions& options) {
  check_part(options.part);
  const auto loops = LayoutJudge(rig, plan).loop_lengths(layout);
  if (!loops) return std::nullopt;
  TapingStudy study;
  for (std::size_t crew = options.part.number - 1; crew < options.crews; crew += options.part.of) study.crews.push_back({crew, {}, {}});
  std::vector<char> taped_already(study.crews.size(), 0);
  const auto tape = [&](std::size_t i) {
    CrewReturn& crew = study.crews[i];
    const TapedLine taped = taped_by(crew.crew, layout, *loops, options.errors, options.seed);
    LayoutJudge judge(rig, plan);
    crew.small = small_return_of(judge, taped);
    crew.glanced = glanced_return_of(moved, taped);
    taped_already[i] = 1;
  };
  const auto tell = [&](std::size_t done) {
    return !options.progress || options.progress(double(done) / double(study.crews.size()));
  };
  study.stopped = !in_parallel(study.crews.size(), options.threads, tape, tell);
  std::erase_if(study.crews, [&](const CrewReturn& crew) { return !taped_already[(crew.crew + 1 - options.part.number) / options.part.of]; });
  return study;
}

}  // namespace spanloom
