#include "webbing/pull_test_cycles.h"

#include <algorithm>
#include <cmath>

namespace spanloom {
namespace {

// Indices where the tension turns, a least one first.
std::vector<std::size_t> turning_points(std::span<const PullSample> samples, double threshold) {
  std::vector<std::size_t> turns;
  std::size_t least = 0, greatest = 0;  // since the last turn
  const auto at = [&](std::size_t i) { return samples[i].tension; };
  for (std::size_t i = 0; i < samples.size(); ++i) {
    const bool rising = turns.size() % 2 == 1;  // towards a greatest tension
    if (at(i) < at(least)) least = i;
    if (at(i) > at(greatest)) greatest = i;
    if (!rising && at(i) > at(least) + threshold) {
      turns.push_back(least);
      greatest = i;
    } else if (rising && at(i) < at(greatest) - threshold) {
      turns.push_back(greatest);
      least = i;
    }
  }
  if (!turns.empty()) turns.push_back(turns.size() % 2 == 1 ? greatest : least);
  return turns;
}

}  // namespace

std::vector<LoadCycle> split_into_cycles(std::span<const PullSample> samples, double threshold) {
  const std::vector<std::size_t> turns = turning_points(samples, threshold);
  std::vector<LoadCycle> cycles;
  for (std::size_t i = 0; i + 1 < turns.size(); i += 2) {
    cycles.push_back({turns[i], turns[i + 1], i + 2 < turns.size() ? turns[i + 2] : turns[i + 1]});
  }
  return cycles;
}

double stretch_without_load(std::span<const PullSample> branch, double window) {
  constexpr std::size_t kFewest = 5;
  std::vector<PullSample> low(branch.begin(), branch.end());
  std::sort(low.begin(), low.end(), [](const PullSample& a, const PullSample& b) { return a.tension < b.tension; });
  std::size_t count = std::min(kFewest, low.size());
  const double reach = low[0].tension + std::max(window, low[0].tension);  // a line is not carried on farther than it is long
  while (count < low.size() && low[count].tension <= reach) ++count;
  double tension = 0.0, stretch = 0.0;
  for (std::size_t i = 0; i < count; ++i) {
    tension += low[i].tension / static_cast<double>(count);
    stretch += low[i].stretch / static_cast<double>(count);
  }
  double both = 0.0, square = 0.0;
  for (std::size_t i = 0; i < count; ++i) {
    both += (low[i].tension - tension) * (low[i].stretch - stretch);
    square += (low[i].tension - tension) * (low[i].tension - tension);
  }
  const double compliance = square > 0.0 ? std::max(both / square, 0.0) : 0.0;
  return stretch - compliance * tension;
}

double work_along(std::span<const PullSample> samples) {
  double work = 0.0;
  for (std::size_t i = 1; i < samples.size(); ++i) {
    work += 0.5 * (samples[i - 1].tension + samples[i].tension) * (samples[i].stretch - samples[i - 1].stretch);
  }
  return work;
}

}  // namespace spanloom
