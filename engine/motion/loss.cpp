#include "motion/loss.h"

#include <fmt/format.h>

#include <numbers>

#include "base/input_error.h"

namespace spanloom {
namespace {

constexpr std::array<double, kBranches> kBranchFrequency = {0.5, 5.0, 50.0};  // [Hz]
constexpr double kFittedFrequency = 5.0;                                      // [Hz]
constexpr double kGreatestLoss = 0.5;

}  // namespace

std::array<double, kBranches> branch_times() {
  std::array<double, kBranches> times{};
  for (std::size_t j = 0; j < kBranches; ++j) times[j] = 1.0 / (2.0 * std::numbers::pi * kBranchFrequency[j]);
  return times;
}

double branch_share(double loss) {
  if (!(loss >= 0.0 && loss <= kGreatestLoss)) {
    throw InputError("loss", fmt::format("{:.3g} %", 100.0 * loss), "a loss per load cycle from 0 to 50 %");
  }
  // tan(delta) = g s / (1 + g c), s and c the sums of w / (1 + w^2) and w^2 / (1 + w^2), w = frequency / branch's.
  double s = 0.0, c = 0.0;
  for (const double frequency : kBranchFrequency) {
    const double w = kFittedFrequency / frequency;
    s += w / (1.0 + w * w);
    c += w * w / (1.0 + w * w);
  }
  const double tan_delta = loss / (0.5 * std::numbers::pi);
  return tan_delta / (s - tan_delta * c);
}

}  // namespace spanloom
