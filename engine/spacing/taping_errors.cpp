#include "spacing/taping_errors.h"

#include <algorithm>
#include <cmath>
#include <numeric>
#include <random>

#include "base/input_error.h"

namespace spanloom {
namespace {

// From -1 to 1, the same with every standard library.
double draw(std::mt19937_64& random) { return 2.0 * double(random() >> 11) * 0x1.0p-53 - 1.0; }

struct AsTaped { std::vector<double> bays, loops; };

// One crew's line. Empty where its last bay would be gone.
std::optional<AsTaped> tape(const Layout& layout, const std::vector<double>& loops, const TapingErrors& errors, std::mt19937_64& random) {
  constexpr double kShortestRest = 0.2;  // of the last bay as planned [-]
  AsTaped taped{layout.bays, loops};
  const double span = 1.0 + errors.arm_span * draw(random);
  double left = std::accumulate(layout.bays.begin(), layout.bays.end(), 0.0);
  for (std::size_t k = 0; k < taped.bays.size(); ++k) {
    const bool last = k + 1 == taped.bays.size();
    taped.bays[k] = last ? left : span * layout.bays[k];
    left -= taped.bays[k];
    // What of the loop follows the bay, end hardware not among it.
    taped.loops[k] += (taped.bays[k] / layout.bays[k] - 1.0) * std::min(loops[k], layout.bays[k] * (1.0 + layout.slack[k]));
    taped.loops[k] *= 1.0 + errors.backup * draw(random);
  }
  if (taped.bays.back() < kShortestRest * layout.bays.back()) return std::nullopt;
  return taped;
}

}  // namespace

std::optional<ReturnAsTaped> return_as_taped(LayoutJudge& judge, const Layout& layout, const TapingErrors& errors, std::size_t samples,
                                             std::uint64_t seed) {
  if (samples == 0) throw InputError("samples", "0", "at least one");
  const std::optional<std::vector<double>> loops = judge.loop_lengths(layout);
  if (!loops) return std::nullopt;
  std::mt19937_64 random(seed);
  std::vector<double> returns;
  ReturnAsTaped result;
  for (std::size_t i = 0; i < samples; ++i) {
    const std::optional<AsTaped> taped = tape(layout, *loops, errors, random);
    const std::optional<LayoutScore> score = taped ? judge.judge_as_cut(taped->bays, taped->loops) : std::nullopt;
    const bool hangs = score && std::all_of(score->drop.begin(), score->drop.end(), [](double drop) { return drop > 0.0; });
    if (hangs) returns.push_back(score->return_mean);
    else ++result.taut;
  }
  result.samples = returns.size();
  if (returns.empty()) return result;
  result.mean = std::accumulate(returns.begin(), returns.end(), 0.0) / double(returns.size());
  std::sort(returns.begin(), returns.end());
  result.p95 = returns[std::min(returns.size() - 1, std::size_t(std::ceil(0.95 * double(returns.size()))) - 1)];
  return result;
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
