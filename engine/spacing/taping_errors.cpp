#include "spacing/taping_errors.h"

#include <algorithm>
#include <cmath>
#include <numeric>
#include <random>

#include <fmt/format.h>

#include "base/input_error.h"
#include "base/random_stream.h"

namespace spanloom {
namespace {

// From -1 to 1, the same with every standard library.
double draw(std::mt19937_64& random) { return 2.0 * double(random() >> 11) * 0x1.0p-53 - 1.0; }

// What loops are made of: so much for a bay and its slack, and what end hardware takes more.
struct LoopStuff {
  double per_bay = 1.0;                   // natural loop without slack over natural main [-]
  double near_end = 0.0, far_end = 0.0;   // [m]
};

LoopStuff stuff_of(const Layout& layout, const std::vector<double>& loops) {
  const std::size_t last = layout.bays.size() - 1;
  const auto plain = [&](std::size_t k) { return layout.bays[k] * (1.0 + layout.slack[k]); };
  LoopStuff stuff;
  // Where all bays are end bays their hardware counts as webbing.
  stuff.per_bay = last > 1 ? loops[1] / plain(1) : std::min(loops.front() / plain(0), loops.back() / plain(last));
  stuff.near_end = loops.front() - stuff.per_bay * plain(0);
  stuff.far_end = last > 0 ? loops.back() - stuff.per_bay * plain(last) : 0.0;
  return stuff;
}

}  // namespace

void check_errors(const TapingErrors& errors) {
  constexpr double kMost = 0.5;           // [-]
  for (const double error : {errors.arm_span, errors.backup}) {
    if (!(error >= 0.0 && error <= kMost)) throw InputError("errors", fmt::format("{:g} %", 100.0 * error), "0 to 50 %");
  }
}

std::string in_words(const TapingErrors& errors) {
  return fmt::format("arm span +-{:g} %, each loop +-{:g} %", 100.0 * errors.arm_span, 100.0 * errors.backup);
}

TapedLine taped_by(std::size_t crew, const Layout& layout, const std::vector<double>& loops, const TapingErrors& errors, std::uint64_t seed) {
  constexpr double kLeastRest = 0.5, kMostRest = 1.5;   // of the last bay as planned, and of it and the bay before it [-]
  std::mt19937_64 random = random_stream(seed, crew);
  const double span = 1.0 + errors.arm_span * draw(random);
  const std::size_t last = layout.bays.size() - 1, whole = last > 0 ? last - 1 : 0;
  const LoopStuff stuff = stuff_of(layout, loops);
  TapedLine taped;
  double left = std::accumulate(layout.bays.begin(), layout.bays.end(), 0.0);
  for (std::size_t k = 0; left > 0.0; ++k) {
    const std::size_t as = std::min(k, whole);
    double bay = span * layout.bays[as];
    const bool planned_last = k >= last && left <= span * layout.bays[last] + (kMostRest - 1.0) * bay;
    const bool nothing_left = left - bay < kLeastRest * std::min(bay, layout.bays[last]);
    if (planned_last || nothing_left) bay = left;
    const double slack = layout.slack[planned_last ? last : as];
    double loop = stuff.per_bay * bay * (1.0 + slack) + (k == 0 ? stuff.near_end : 0.0);
    if (bay == left) loop += stuff.far_end;
    taped.bays.push_back(bay);
    taped.loops.push_back(loop * (1.0 + errors.backup * draw(random)));
    left = bay == left ? 0.0 : left - bay;
  }
  return taped;
}

ReturnAsTaped as_taped(const std::vector<std::optional<double>>& of_crews) {
  ReturnAsTaped result;
  std::vector<double> returns;
  for (const std::optional<double>& returned : of_crews) {
    if (returned) returns.push_back(*returned);
    else ++result.taut;
  }
  result.samples = returns.size();
  if (returns.empty()) return result;
  result.mean = std::accumulate(returns.begin(), returns.end(), 0.0) / double(returns.size());
  double square = 0.0;
  for (const double returned : returns) square += (returned - result.mean) * (returned - result.mean);
  if (returns.size() > 1) result.spread = std::sqrt(square / double(returns.size() - 1));
  std::sort(returns.begin(), returns.end());
  result.p95 = returns[std::min(returns.size() - 1, std::size_t(std::ceil(0.95 * double(returns.size()))) - 1)];
  return result;
}

std::optional<double> small_return_of(LayoutJudge& judge, const TapedLine& line) {
  const std::optional<LayoutScore> score = judge.judge_as_cut(line.bays, line.loops);
  const bool hangs = score && std::all_of(score->drop.begin(), score->drop.end(), [](double drop) { return drop > 0.0; });
  return hangs ? std::optional(score->return_mean) : std::nullopt;
}

std::optional<ReturnAsTaped> return_as_taped(LayoutJudge& judge, const Layout& layout, const TapingErrors& errors, std::size_t samples,
                                             std::uint64_t seed) {
  if (samples == 0) throw InputError("samples", "0", "at least one");
  const std::optional<std::vector<double>> loops = judge.loop_lengths(layout);
  if (!loops) return std::nullopt;
  std::vector<std::optional<double>> of_crews;
  for (std::size_t crew = 0; crew < samples; ++crew) {
    of_crews.push_back(small_return_of(judge, taped_by(crew, layout, *loops, errors, seed)));
  }
  return as_taped(of_crews);
}

std::optional<std::vector<BayTouch>> touch_of_bays(LayoutJudge& judge, const Layout& layout) {
  std::optional<std::vector<double>> loops = judge.loop_lengths(layout);
  if (!loops) return std::nullopt;
  std::vector<BayTouch> touches;
  for (std::size_t k = 0; k < layout.bays.size(); ++k) {
    const double own = (*loops)[k];
    (*loops)[k] = own + kTouch;
    const std::optional<LayoutScore> more = judge.judge_as_cut(layout.bays, *loops);
    (*loops)[k] = own - kTouch;
    const std::optional<LayoutScore> less = judge.judge_as_cut(layout.bays, *loops);
    (*loops)[k] = own;
    if (!more || !less) return std::nullopt;
    touches.push_back({0.5 * (more->drop[k] - less->drop[k]), 0.5 * (more->ankle_margin[k] - less->ankle_margin[k]),
                       0.5 * (more->return_mean - less->return_mean)});
  }
  return touches;
}

}  // namespace spanloom
