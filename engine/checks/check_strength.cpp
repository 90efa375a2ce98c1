#include "checks/check_strength.h"

#include <algorithm>
#include <cmath>

#include <fmt/format.h>

namespace spanloom {
namespace {

std::string force_text(double force, UnitSystem units) { return quantity_text(force, Measure::force, units); }

// A pull that may be next to nothing.
std::string pull_text(double force, UnitSystem units) {
  constexpr double kSmall = 1000.0;  // [N]
  return quantity_text(force, force < kSmall ? Measure::small_force : Measure::force, units);
}

const char* word_of(EndKind kind) {
  switch (kind) {
    case EndKind::knot: return "knot";
    case EndKind::clamp: return "clamp";
    case EndKind::sewn: return "sewing";
  }
  return "end";
}

// One of the two runs as the checks see it.
struct CheckedRun {
  const Rig& rig;
  const Plan& plan;
  const WebbingRun& run;
  const char* key;   // in the rig file and in the names of checks
  const char* name;  // in titles
  bool on_backup;
  UnitSystem units;
};

enum class Weather { dry, wet };

// What the weaker end of a segment leaves of its strength.
struct Weakest {
  double keeps = 1.0;
  std::string where;
};

Weakest weakest_end(const WebbingRun& run, const PieceForce& force) {
  const auto at = [](const WebbingEnd& end, const char* name) {
    return Weakest{end.keeps.value, fmt::format("{} at the {}", word_of(end.kind.value), name)};
  };
  const Weakest near = force.at_near_anchor ? at(run.near_end, "near end") : at(run.joint_end, "joint");
  const Weakest far = force.at_far_anchor ? at(run.far_end, "far end") : at(run.joint_end, "joint");
  return far.keeps < near.keeps ? far : near;
}

void add_ratio_limit(const Rig& rig, Check& check) {
  check.limit = rig.limits.ratio.value;
  check.unit = "-";
  if (rig.limits.ratio.assumed) check.assumed.push_back(fmt::format("limits.ratio = {:g}", check.limit));
}

// Every default that the strength of the run rests on, whichever end or segment is the weakest: the
// weakest would be another one if the true value were lower than our default.
void add_strength_defaults(const CheckedRun& of, Weather weather, Check& check) {
  const auto add = [&](std::string input) {
    if (std::find(check.assumed.begin(), check.assumed.end(), input) == check.assumed.end()) {
      check.assumed.push_back(std::move(input));
    }
  };
  const auto add_end = [&](const WebbingEnd& end, const char* name) {
    if (end.keeps.assumed) add(fmt::format("{}.{} keeps = {:.0f} %", of.key, name, 100.0 * end.keeps.value));
  };
  add_end(of.run.near_end, "near_end");
  add_end(of.run.far_end, "far_end");
  if (of.run.segments.size() > 1) add_end(of.run.joint_end, "joints");
  if (weather == Weather::dry) return;
  for (const Segment& segment : of.run.segments) {
    const Webbing& webbing = of.rig.webbings[segment.webbing];
    if (!webbing.wet_keeps.assumed) continue;
    add(fmt::format("webbing.{}.wet_keeps = {:.0f} %", webbing.name, 100.0 * webbing.wet_keeps.value));
  }
}

// Leaves a check without a number.
void leave_open(Check& check) {
  check.value = 0.0;
  check.computed = false;
  check.verdict = Verdict::caution;
}

// Hanging slack a backup holds next to nothing: the ratio is huge and says nothing about the day it is
// needed. It is a number only where it is too low even so.
void judge_ratio(const CheckedRun& of, const char* cure, Check& check) {
  check.verdict = check.value < check.limit ? Verdict::stop : Verdict::ok;
  if (of.on_backup) {
    check.words += " That is all it carries while the main holds. Its real load is a main failure, which is "
                   "not computed here.";
    if (check.verdict == Verdict::ok) leave_open(check);
  }
  if (check.verdict == Verdict::stop) check.words += cure;
}

// The weakest webbing of the run.
Check webbing_check(const CheckedRun& of, Weather weather) {
  const bool wet = weather == Weather::wet;
  Check check;
  check.name = fmt::format("{}_strength_{}", of.key, wet ? "wet" : "dry");
  check.title = fmt::format("{} webbing, {}: strength left at its ends / greatest tension", of.name, wet ? "wet" : "dry");
  add_ratio_limit(of.rig, check);
  add_strength_defaults(of, weather, check);
  check.value = INFINITY;
  for (const PieceForce& force : of.plan.forces) {
    if (force.kind != Piece::Kind::webbing || force.on_backup != of.on_backup || force.tension <= 0.0) continue;
    const Webbing& webbing = of.rig.webbings[of.run.segments[force.index].webbing];
    const Weakest end = weakest_end(of.run, force);
    const double left = webbing.strength * end.keeps * (wet ? webbing.wet_keeps.value : 1.0);
    if (left / force.tension >= check.value) continue;
    check.value = left / force.tension;
    check.words = fmt::format("{}: {} left of {} ({}{}) against {} ({}).", force.name, force_text(left, of.units),
                              force_text(webbing.strength, of.units), end.where, wet ? ", wet" : "",
                              pull_text(force.tension, of.units), force.state);
  }
  if (!std::isfinite(check.value)) {
    leave_open(check);
    check.words = "Nothing pulls on it.";
    return check;
  }
  judge_ratio(of, of.on_backup ? " Ask for more slack or a stronger backup." : " Rig less tension, better ends or a stronger main.",
              check);
  return check;
}

// The weakest link of the run; a link with no strength given leaves the check open.
std::optional<Check> link_check(const CheckedRun& of) {
  Check check;
  check.name = fmt::format("{}_links", of.key);
  check.title = fmt::format("{} connectors and hardware: strength / greatest tension", of.name);
  add_ratio_limit(of.rig, check);
  check.value = INFINITY;
  std::string without;
  for (const PieceForce& force : of.plan.forces) {
    if (force.kind != Piece::Kind::link || force.on_backup != of.on_backup) continue;
    const Link& link = link_of(of.run, force.index);
    if (!link.strength) {
      without += fmt::format("{}{}", without.empty() ? "" : ", ", force.name);
      continue;
    }
    const double ratio = *link.strength / std::max(force.tension, 1e-9);
    if (ratio >= check.value) continue;
    check.value = ratio;
    check.words = fmt::format("{}: {} against {} ({}).", force.name, force_text(*link.strength, of.units),
                              pull_text(force.tension, of.units), force.state);
  }
  const bool any_strength = std::isfinite(check.value);
  if (!any_strength && without.empty()) return std::nullopt;
  if (any_strength) judge_ratio(of, " Use a stronger one or less tension.", check);
  else leave_open(check);
  if (!without.empty()) {
    check.words += fmt::format("{}No strength given for: {}.", check.words.empty() ? "" : " ", without);
    check.verdict = std::max(check.verdict, Verdict::caution);
  }
  return check;
}

enum class Side { near, far };

struct GreatestLoad {
  double force = 0.0;  // [N]
  std::string state;
};

GreatestLoad greatest_load(const Plan& plan, Side side, UnitSystem units) {
  GreatestLoad out;
  const auto meet = [&](const AnchorLoad& near, const AnchorLoad& far, const std::string& state) {
    const double force = norm(side == Side::near ? near.total() : far.total());
    if (force > out.force) out = {force, state};
  };
  meet(plan.standing.near, plan.standing.far, "standing");
  const auto meet_all = [&](const std::vector<WalkerPlace>& places, const char* who) {
    for (const WalkerPlace& place : places) {
      meet(place.near, place.far, fmt::format("{} at {}", who, quantity_text(place.position, Measure::length, units)));
    }
  };
  meet_all(plan.walker, "walker");
  meet_all(plan.extra, "walker");
  meet_all(plan.walker_other_joint, "rings locked, walker");
  meet_all(plan.rescue, "two people");
  if (plan.wind) meet_all({plan.wind->worst}, "walker in the wind");
  return out;
}

Check anchor_check(const Rig& rig, const Plan& plan, Side side, UnitSystem units) {
  const bool near = side == Side::near;
  Check check;
  check.name = near ? "anchor_near" : "anchor_far";
  check.title = fmt::format("{} anchor: strength / greatest load", near ? "Near" : "Far");
  check.limit = rig.limits.anchor_ratio.value;
  check.unit = "-";
  if (rig.limits.anchor_ratio.assumed) {
    check.assumed.push_back(fmt::format("limits.anchor_ratio = {:g}", check.limit));
  }
  const GreatestLoad greatest = greatest_load(plan, side, units);
  const std::optional<double>& strength = near ? rig.near_anchor.strength : rig.far_anchor.strength;
  if (!strength) {
    leave_open(check);
    check.words = fmt::format("It must hold {} ({}) times {:g}; its strength is not given ([anchor.{}] strength).",
                              force_text(greatest.force, units), greatest.state, check.limit, near ? "near" : "far");
    return check;
  }
  check.value = *strength / greatest.force;
  check.verdict = check.value < check.limit ? Verdict::stop : Verdict::ok;
  check.words = fmt::format("{} against {} ({}), main and backup together.{}", force_text(*strength, units),
                            force_text(greatest.force, units), greatest.state,
                            check.verdict == Verdict::stop ? " Build a stronger anchor or rig less tension." : "");
  return check;
}

}  // namespace

std::vector<Check> check_strength(const Rig& rig, const Plan& plan, UnitSystem units) {
  std::vector<Check> checks;
  for (const CheckedRun& of : {CheckedRun{rig, plan, rig.main.run, "main", "Main", false, units},
                               CheckedRun{rig, plan, rig.backup.run, "backup", "Backup", true, units}}) {
    for (const Weather weather : {Weather::dry, Weather::wet}) checks.push_back(webbing_check(of, weather));
    if (auto links = link_check(of)) checks.push_back(std::move(*links));
  }
  return checks;
}

std::vector<Check> check_anchors(const Rig& rig, const Plan& plan, UnitSystem units) {
  return {anchor_check(rig, plan, Side::near, units), anchor_check(rig, plan, Side::far, units)};
}

}  // namespace spanloom
