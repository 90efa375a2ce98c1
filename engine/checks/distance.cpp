#include "checks/distance.h"

#include <fmt/format.h>

namespace spanloom {

Check distance_check(const LeastDistance& least, const DistanceLimit& against, UnitSystem units) {
  Check check;
  check.name = against.name;
  check.title = against.title;
  check.limit = against.limit.value;
  check.unit = "m";
  if (against.limit.assumed) check.assumed.push_back(assumed_length(against.key, against.limit, units));
  if (!least.found()) {
    check.computed = false;
    check.verdict = Verdict::caution;
    check.words = against.missing;
    return check;
  }
  check.value = least.value;
  check.verdict = check.value < check.limit ? Verdict::stop : Verdict::ok;
  check.words = fmt::format("Least: {}, {}.", quantity_text(least.value, Measure::length, units), least.state);
  if (check.verdict == Verdict::stop) check.words += fmt::format(" {}", against.cure);
  return check;
}

std::string assumed_length(const char* key, const Stated<double>& length, UnitSystem units) {
  return fmt::format("{} = {}", key, quantity_text(length.value, Measure::length, units));
}

void add_body_lengths(const Rig& rig, Check& check, UnitSystem units) {
  const Walker& walker = rig.walker;
  if (walker.leash.assumed) check.assumed.push_back(assumed_length("walker.leash", walker.leash, units));
  if (walker.foot_to_hip.assumed) {
    check.assumed.push_back(assumed_length("walker.foot_to_hip", walker.foot_to_hip, units));
  }
}

}  // namespace spanloom
