#include "survey/weighted_mean.h"

#include <algorithm>
#include <cmath>
#include <string>

#include "base/input_error.h"

namespace spanloom {
namespace {

void check(const std::vector<Reading>& readings) {
  if (readings.empty()) throw InputError("readings", "none", "at least one reading");
  for (const Reading& r : readings) {
    if (!std::isfinite(r.value)) throw InputError("readings", "a reading that is no number", "a finite reading");
    if (!(r.sd > 0.0) || !std::isfinite(r.sd)) {
      throw InputError("readings", std::to_string(r.sd), "a standard deviation above 0");
    }
  }
}

double median(const std::vector<Reading>& readings) {
  std::vector<double> values;
  for (const Reading& r : readings) values.push_back(r.value);
  std::sort(values.begin(), values.end());
  const std::size_t half = values.size() / 2;
  return values.size() % 2 == 1 ? values[half] : values[half - 1] + 0.5 * (values[half] - values[half - 1]);
}

/// Mean of those kept.
WeightedMean mean_of_kept(const std::vector<Reading>& kept) {
  double weights = 0.0, sum = 0.0, least = kept.front().sd;
  const double first = kept.front().value;
  for (const Reading& r : kept) {
    const double weight = 1.0 / (r.sd * r.sd);
    weights += weight;
    sum += weight * (r.value - first);
    least = std::min(least, r.sd);
  }
  WeightedMean mean{first + sum / weights, 0.0, {}, false};
  double misfit = 0.0;
  for (const Reading& r : kept) misfit += std::pow((r.value - mean.value) / r.sd, 2);
  const double freedom = std::max(1.0, static_cast<double>(kept.size()) - 1.0);
  const double birge = std::sqrt(std::max(1.0, misfit / freedom));
  mean.sd = std::max(std::sqrt(1.0 / weights) * birge, kLeastPartOfOne * least);
  return mean;
}

bool far_apart(const std::vector<Reading>& readings) {
  for (std::size_t i = 0; i < readings.size(); ++i) {
    for (std::size_t j = 0; j < i; ++j) {
      const double apart = std::abs(readings[i].value - readings[j].value);
      if (apart > kOutlierSds * std::hypot(readings[i].sd, readings[j].sd)) return true;
    }
  }
  return false;
}

}  // namespace

WeightedMean weighted_mean(const std::vector<Reading>& readings) {
  check(readings);
  const double middle = median(readings);
  std::vector<Reading> kept;
  std::vector<std::size_t> left_out;
  for (std::size_t i = 0; i < readings.size(); ++i) {
    const bool outlier = readings.size() >= 3 && std::abs(readings[i].value - middle) > kOutlierSds * readings[i].sd;
    if (outlier) left_out.push_back(i);
    else kept.push_back(readings[i]);
  }
  const bool majority = 2 * kept.size() > readings.size();
  if (!majority) {
    kept = readings;
    left_out.clear();
  }
  WeightedMean mean = mean_of_kept(kept);
  mean.left_out = std::move(left_out);
  mean.torn = !majority || (readings.size() < 3 && far_apart(kept));
  return mean;
}

WeightedMean mean_of(const std::vector<double>& values, double sd) {
  std::vector<Reading> readings;
  for (const double value : values) readings.push_back({value, sd});
  return weighted_mean(readings);
}

}  // namespace spanloom
