#include "checks/catch_warnings.h"

#include <algorithm>
#include <string_view>

#include <fmt/format.h>

#include "checks/catch_words.h"

namespace spanloom {
namespace {

struct Strength {
  std::string_view check;
  const char* breaks;                     // said where the force is greater
  std::string_view instead;               // another check that says the same, and worse
  const char* cannot = "";                // said where legs cannot hold at all
};

constexpr const char* kOfTheNear = "THE LEGS OF THE NEAR ANCHOR CANNOT HOLD";
constexpr const char* kOfTheFar = "THE LEGS OF THE FAR ANCHOR CANNOT HOLD";

constexpr Strength kStrengths[] = {
    {"catch_leash_strength", "THE LEASH BREAKS", ""},
    {"catch_backup_strength_dry", "THE BACKUP BREAKS", ""},
    {"catch_backup_strength_wet", "THE BACKUP BREAKS WHEN WET", "catch_backup_strength_dry"},
    {"catch_backup_links", "HARDWARE OF THE BACKUP BREAKS", ""},
    {"catch_main_strength_dry", "THE MAIN BREAKS", ""},
    {"catch_main_strength_wet", "THE MAIN BREAKS WHEN WET", "catch_main_strength_dry"},
    {"catch_main_links", "HARDWARE OF THE MAIN BREAKS", ""},
    {"catch_anchor_near", "THE NEAR ANCHOR BREAKS", ""},
    {"catch_points_near", "A POINT OF THE NEAR ANCHOR BREAKS", "", kOfTheNear},
    {"catch_point_gone_near", "A POINT OF THE NEAR ANCHOR BREAKS ONCE ANOTHER IS GONE", "catch_points_near"},
    {"catch_anchor_far", "THE FAR ANCHOR BREAKS", ""},
    {"catch_points_far", "A POINT OF THE FAR ANCHOR BREAKS", "", kOfTheFar},
    {"catch_point_gone_far", "A POINT OF THE FAR ANCHOR BREAKS ONCE ANOTHER IS GONE", "catch_points_far"},
};

const Strength* strength_of(const Check& check) {
  const auto found = std::find_if(std::begin(kStrengths), std::end(kStrengths),
                                  [&](const Strength& strength) { return strength.check == check.name; });
  return found == std::end(kStrengths) ? nullptr : &*found;
}

// Without a number, only legs that cannot hold are a stop.
bool cannot_hold(const Check& check) {
  const Strength* strength = strength_of(check);
  return strength != nullptr && *strength->cannot != '\0' && !check.computed && check.verdict == Verdict::stop;
}

void add_breaks(const std::vector<Check>& checks, std::vector<std::string>& warnings) {
  for (const Check& check : checks) {
    const Strength* strength = strength_of(check);
    if (cannot_hold(check)) warnings.push_back(fmt::format("{}: {}", strength->cannot, check.words));
    if (!breaks(check)) continue;
    const bool said = std::any_of(checks.begin(), checks.end(), [&](const Check& other) {
      return other.name == strength->instead && breaks(other);
    });
    if (!said) warnings.push_back(fmt::format("{}: {}", strength->breaks, check.words));
  }
}

}  // namespace

bool breaks(const Check& check) { return strength_of(check) != nullptr && check.computed && check.value < 1.0; }

bool any_breaks(const std::vector<Check>& checks) {
  return std::any_of(checks.begin(), checks.end(), [](const Check& check) { return breaks(check) || cannot_hold(check); });
}

void say_break(Check& check) {
  if (breaks(check)) check.words += " It breaks: what is told of the time after that does not hold.";
}

std::vector<std::string> catch_warnings(const Rig& rig, const CatchReport& report, const std::vector<Check>& checks,
                                        UnitSystem units) {
  std::vector<std::string> warnings;
  if (const std::size_t lost = lost_falls(report); lost > 0) {
    warnings.push_back(fmt::format("NOTHING HOLDS THE WALKER in {} of the falls computed: the leash ring runs off the "
                                   "broken main.", lost));
  }
  add_breaks(checks, warnings);
  const auto add_ground = [&](const std::vector<FallResult>& falls, std::size_t index, const char* kind) {
    const FallResult* fall = held_fall_at(falls, index);
    if (fall == nullptr || !fall->clearance || *fall->clearance >= 0.0) return;
    warnings.push_back(fmt::format("THE WALKER HITS THE GROUND in a {}: {}. After that the numbers go on as if there were "
                                   "none.", kind, event_words(rig, *fall, units)));
  };
  add_ground(report.main_failure, report.worst_failure.clearance, "main failure");
  add_ground(report.leash_fall, report.worst_leash_fall.clearance, "leash fall");
  return warnings;
}

}  // namespace spanloom
