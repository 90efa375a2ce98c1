// Anchors in falls: each as a whole, its points with all of them there, and with one of them gone.
#include <algorithm>
#include <cmath>
#include <optional>
#include <string_view>

#include <fmt/format.h>

#include "checks/catch_checks.h"
#include "checks/catch_words.h"
#include "checks/run_strength.h"

namespace spanloom {
namespace {

struct Side {
  const char* key;                        // in the rig file: "near"
  const char* name;                       // in titles: "Near"
  const AnchorSpec& anchor;
  const std::vector<AnchorState>& states;
};

const Vec3& load_of(const Side& side, const FallResult& fall) {
  return std::string_view(side.key) == "near" ? fall.near : fall.far;
}

Check whole_check(const JudgedCatch& of, const Side& side) {
  const bool near = std::string_view(side.key) == "near";
  const CatchReport& report = of.report;
  const FallResult* worst = fall_at(report.main_failure, near ? report.worst_failure.near : report.worst_failure.far);
  const FallResult* other = fall_at(report.leash_fall, near ? report.worst_leash_fall.near : report.worst_leash_fall.far);
  const auto load = [&](const FallResult* fall) { return fall == nullptr ? 0.0 : norm(load_of(side, *fall)); };
  if (load(other) > load(worst)) worst = other;
  Check check;
  if (load(worst) > 0.0) {
    check = anchor_strength(of.rig, side.key, load(worst), event_words(of.rig, *worst, of.units), of.units);
  } else {
    add_anchor_ratio_limit(of.rig, check);
    leave_without_falls(of, FallKind::main_failure, check);
  }
  check.name = fmt::format("catch_anchor_{}", side.key);
  check.title = fmt::format("{} anchor: strength / greatest load in any fall", side.name);
  add_fall_inputs(of, FallKind::main_failure, check);
  return check;
}

// The point with the least strength over its load, over all states and losses that were met.
class WeakestPoint {
 public:
  WeakestPoint(const Side& side, UnitSystem units) : side_(side), units_(units) {}

  /// @param gone  the point that is not there, in words behind the state
  void meet(const LegsUnderLoad& load, const std::string& state, const std::string& gone) {
    for (std::size_t i = 0; i < load.legs.size() && i < side_.anchor.points.size(); ++i) {
      const std::optional<double>& strength = side_.anchor.points[i].strength;
      if (!strength || !(load.legs[i].tension > 0.0)) continue;
      const double ratio = *strength / load.legs[i].tension;
      if (ratio >= least_) continue;
      least_ = ratio;
      words_ = fmt::format("{}: {} against {} ({}{}).", side_.anchor.points[i].name,
                           quantity_text(*strength, Measure::force, units_),
                           quantity_text(load.legs[i].tension, Measure::force, units_), state, gone);
    }
  }
  bool found() const { return std::isfinite(least_); }
  double least() const { return least_; }
  const std::string& words() const { return words_; }

 private:
  const Side& side_;
  UnitSystem units_;
  double least_ = INFINITY;
  std::string words_;
};

// What is common to both checks of points; the limit is set by the caller.
Check points_check(const JudgedCatch& of, const Side& side, const char* name, const char* title) {
  Check check;
  check.name = fmt::format("catch_{}_{}", name, side.key);
  check.title = fmt::format("{} anchor: {}", side.name, title);
  add_anchor_ratio_limit(of.rig, check);
  const AnchorSpec& anchor = side.anchor;
  if (anchor.legs.assumed) check.assumed.push_back(fmt::format("anchor.{}.legs = fixed", side.key));
  if (anchor.leg_stiffness.assumed) {
    check.assumed.push_back(fmt::format("anchor.{}.leg_stiffness = {}", side.key,
                                        quantity_text(anchor.leg_stiffness.value, Measure::force, of.units)));
  }
  add_fall_inputs(of, FallKind::main_failure, check);
  return check;
}

void set_number(const WeakestPoint& weakest, Check& check) {
  if (weakest.found()) {
    check.value = weakest.least();
    check.words = weakest.words();
  } else {
    leave_open(check);
  }
}

// No number where the legs cannot hold a force at all: then the points carry nothing, and the rig hangs on nothing.
// @return whether that is so
bool stop_legs(const Side& side, Check& check) {
  std::string words;
  for (const AnchorState& state : side.states) {
    if (state.cannot_hold) words += fmt::format("{}{} ({})", words.empty() ? "" : "; ", state.state, state.why);
  }
  if (words.empty()) return false;
  leave_open(check);
  check.verdict = Verdict::stop;
  check.words = fmt::format("The legs cannot hold the line: {}. Place the points so that the legs pull against it.", words);
  return true;
}

// Points nobody gave a strength, and states that gave no loads, keep a check from saying ok.
void add_unknown(const Side& side, Check& check) {
  const auto add = [&check](const std::string& words) {
    check.words += (check.words.empty() ? "" : " ") + words;
    check.verdict = std::max(check.verdict, Verdict::caution);
  };
  std::string without;
  for (const AnchorPoint& point : side.anchor.points) {
    if (!point.strength) without += fmt::format("{}{}", without.empty() ? "" : ", ", point.name);
  }
  if (!without.empty()) add(fmt::format("No strength given for: {}.", without));
  for (const AnchorState& state : side.states) {
    if (!state.legs) add(fmt::format("No loads on the points, {}: {}.", state.state, state.why));
  }
  if (side.states.empty()) add("Not known: no loads on this anchor were computed.");
}

Check all_there_check(const JudgedCatch& of, const Side& side) {
  Check check = points_check(of, side, "points", "strength of each point / its greatest load in any state");
  if (stop_legs(side, check)) return check;
  WeakestPoint weakest(side, of.units);
  for (const AnchorState& state : side.states) {
    if (state.legs) weakest.meet(*state.legs, state.state, "");
  }
  set_number(weakest, check);
  if (weakest.found()) check.verdict = check.value < check.limit ? Verdict::stop : Verdict::ok;
  if (check.verdict == Verdict::stop) check.words += " Use a stronger point, or spread the load over more.";
  add_unknown(side, check);
  return check;
}

// States without an answer to the loss of a point, as "left bolt gone, main failure".
std::string losses_not_held(const Side& side) {
  std::string words;
  for (const AnchorState& state : side.states) {
    for (std::size_t i = 0; state.legs && i < state.without.size() && i < side.anchor.points.size(); ++i) {
      if (state.without[i]) continue;
      words += fmt::format("{}{} gone, {}", words.empty() ? "" : "; ", side.anchor.points[i].name, state.state);
    }
  }
  return words;
}

Check one_gone_check(const JudgedCatch& of, const Side& side) {
  Check check = points_check(of, side, "point_gone", "strength of the points left / their load, one point gone");
  if (stop_legs(side, check)) return check;
  const double wanted = check.limit;
  check.limit = 1.0;
  WeakestPoint weakest(side, of.units);
  for (const AnchorState& state : side.states) {
    for (std::size_t i = 0; i < state.without.size() && i < side.anchor.points.size(); ++i) {
      if (!state.without[i]) continue;
      weakest.meet(*state.without[i], state.state, fmt::format(", {} gone", side.anchor.points[i].name));
    }
  }
  set_number(weakest, check);
  if (side.anchor.points.size() == 1) {
    check.words = "One point alone: nothing takes over when it goes.";
    return check;
  }
  if (weakest.found()) {
    check.verdict = check.value < 1.0 ? Verdict::stop : check.value < wanted ? Verdict::caution : Verdict::ok;
    if (check.verdict == Verdict::caution) {
      check.words += fmt::format(" It holds, with less than the {:g} asked of a whole anchor.", wanted);
    }
  }
  if (const std::string lost = losses_not_held(side); !lost.empty()) {
    check.verdict = Verdict::stop;
    check.words += fmt::format("{}The others do not take over: {}.", check.words.empty() ? "" : " ", lost);
  }
  if (check.verdict == Verdict::stop) check.words += " Add a point, or place them so that each stands in for another.";
  add_unknown(side, check);
  return check;
}

}  // namespace

std::vector<Check> check_caught_anchors(const JudgedCatch& of) {
  std::vector<Check> checks;
  const Side near{"near", "Near", of.rig.near_anchor, of.report.near};
  const Side far{"far", "Far", of.rig.far_anchor, of.report.far};
  for (const Side* side : {&near, &far}) {
    checks.push_back(whole_check(of, *side));
    if (side->anchor.points.empty()) continue;
    checks.push_back(all_there_check(of, *side));
    checks.push_back(one_gone_check(of, *side));
  }
  return checks;
}

}  // namespace spanloom
