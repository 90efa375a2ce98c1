#include "hauling/pulley_set.h"

#include <cmath>
#include <numbers>

#include <fmt/format.h>

#include "base/input_error.h"

namespace spanloom {
namespace {

// What n parts carry for a hand force of 1 when each sheave hands on `per_sheave` of the force.
double carried(int parts, RopeLeaves leaves, double per_sheave) {
  double sum = 0.0, part = leaves == RopeLeaves::fixed_block ? per_sheave : 1.0;
  for (int i = 0; i < parts; ++i, part *= per_sheave) sum += part;
  return sum;
}

double carried(const PulleySet& set, double per_sheave) {
  check(set);
  double ratio = 1.0;
  for (const int parts : set.parts) ratio *= carried(parts, set.leaves, per_sheave);
  return ratio;
}

}  // namespace

void check(const PulleySet& set) {
  std::vector<Problem> problems;
  if (set.parts.empty() || set.parts.size() > kMostSets) {
    problems.push_back({"parts", fmt::format("{} sets", set.parts.size()), fmt::format("1 to {} sets", kMostSets), ""});
  }
  for (const int parts : set.parts) {
    if (parts >= 1 && parts <= kMostParts) continue;
    problems.push_back(
        {"parts", fmt::format("{}", parts), fmt::format("1 to {} parts of rope at the moving block", kMostParts), ""});
  }
  if (!(set.efficiency > 0.0 && set.efficiency <= 1.0)) {
    problems.push_back({"efficiency", fmt::format("{:g} %", 100.0 * set.efficiency), "above 0 %, at most 100 %",
                        "say how much of the force one sheave hands on"});
  }
  if (!problems.empty()) throw InputError(std::move(problems));
}

double hauling_ratio(const PulleySet& set) { return carried(set, set.efficiency); }

double holding_ratio(const PulleySet& set) { return carried(set, 1.0 / set.efficiency); }

int rope_ratio(const PulleySet& set) {
  int ratio = 1;
  for (const int parts : set.parts) ratio *= parts;
  return ratio;
}

double capstan_ratio(double friction, double angle) {
  constexpr double kMostTurns = 8.0 * std::numbers::pi;
  if (!(friction >= 0.0 && friction <= 1.0)) throw InputError("bend_friction", fmt::format("{:g}", friction), "0 to 1");
  if (!(angle >= 0.0 && angle <= kMostTurns * (1.0 + 1e-12))) {
    throw InputError("bend", fmt::format("{:g} deg", angle * 180.0 / std::numbers::pi),
                     "0 deg to 1440 deg, four turns");
  }
  return std::exp(friction * angle);
}

}  // namespace spanloom
