#include "checks/check_strength.h"

#include <algorithm>
#include <cmath>

#include <fmt/format.h>

namespace spanloom {
namespace {

std::string force_text(double force, UnitSystem units) { return quantity_text(force, Measure::force, units); }

const char* word_of(EndKind kind) {
  switch (kind) {
    case EndKind::knot: return "knot";
    case EndKind::clamp: return "clamp";
    case EndKind::sewn: return "sewing";
  }
  return "end";
}

// What the weaker end of a segment leaves of its strength. Joints at connectors are taken as the
// nearer end of the run: the file names the ends of the run only.
struct Weakest {
  double keeps = 1.0;
  std::string where;
  bool assumed = false;
};

Weakest weakest_end(const WebbingRun& run, const PieceForce& force) {
  Weakest out;
  const bool joint_near = !force.at_near_anchor, joint_far = !force.at_far_anchor;
  const auto look = [&](const WebbingEnd& end, const char* name) {
    const bool assumed = end.keeps.assumed;
    if (end.keeps.value < out.keeps || out.where.empty()) {
      out = {end.keeps.value, fmt::format("{} at the {}", word_of(end.kind.value), name), assumed};
    }
  };
  look(run.near_end, joint_near ? "joint (taken as the near end)" : "near end");
  look(run.far_end, joint_far ? "joint (taken as the far end)" : "far end");
  return out;
}

void add_ratio_limit(const Rig& rig, Check& check) {
  check.limit = rig.limits.ratio.value;
  check.unit = "-";
  if (rig.limits.ratio.assumed) check.assumed.push_back(fmt::format("limits.ratio = {:g}", check.limit));
}

// The weakest webbing of main or backup.
Check webbing_check(const Rig& rig, const Plan& plan, bool backup, bool wet, UnitSystem units) {
  Check check;
  check.name = fmt::format("{}_strength_{}", backup ? "backup" : "main", wet ? "wet" : "dry");
  check.title = fmt::format("{} webbing, {}: strength left at its ends / greatest tension",
                            backup ? "Backup" : "Main", wet ? "wet" : "dry");
  add_ratio_limit(rig, check);
  check.value = INFINITY;
  const WebbingRun& run = backup ? rig.backup.run : rig.main.run;
  const char* key = backup ? "backup" : "main";
  std::vector<std::string> assumed;
  for (const PieceForce& force : plan.forces) {
    if (force.kind != Piece::Kind::webbing || force.on_backup != backup || force.tension <= 0.0) continue;
    const Webbing& webbing = rig.webbings[run.segments[force.index].webbing];
    const Weakest end = weakest_end(run, force);
    const double left = webbing.strength * end.keeps * (wet ? webbing.wet_keeps.value : 1.0);
    const double ratio = left / force.tension;
    if (ratio >= check.value) continue;
    check.value = ratio;
    check.words = fmt::format("{}: {} left of {} ({}{}) against {} ({}).", force.name, force_text(left, units),
                              force_text(webbing.strength, units), end.where, wet ? ", wet" : "",
                              force_text(force.tension, units), force.state);
    assumed.clear();
    if (end.assumed) assumed.push_back(fmt::format("{}.near_end / far_end keeps = {:.0f} %", key, 100.0 * end.keeps));
    if (wet && webbing.wet_keeps.assumed) {
      assumed.push_back(fmt::format("webbing.{}.wet_keeps = {:.0f} %", webbing.name, 100.0 * webbing.wet_keeps.value));
    }
  }
  check.assumed.insert(check.assumed.end(), assumed.begin(), assumed.end());
  if (!std::isfinite(check.value)) {  // no webbing carries anything
    check.value = 0.0;
    check.computed = false;
    check.words = "Nothing pulls on it.";
    return check;
  }
  check.verdict = check.value < check.limit ? Verdict::stop : Verdict::ok;
  if (backup) {
    // Hanging slack it holds next to nothing, which says nothing about the day it is needed.
    check.verdict = std::max(check.verdict, Verdict::caution);
    check.words += " This is while the main holds. Its real load is a main failure, which is not computed here.";
  }
  if (check.verdict == Verdict::stop) {
    check.words += backup ? " Ask for more slack or a stronger backup." : " Rig less tension or a stronger main.";
  }
  return check;
}

const Link& link_of(const WebbingRun& run, std::size_t index) {
  if (index == 0) return run.near_hardware;
  return index == run.connectors.size() + 1 ? run.far_hardware : run.connectors[index - 1];
}

// The weakest link of main or backup; a link with no strength given leaves the check open.
std::optional<Check> link_check(const Rig& rig, const Plan& plan, bool backup, UnitSystem units) {
  Check check;
  check.name = fmt::format("{}_links", backup ? "backup" : "main");
  check.title = fmt::format("{} connectors and hardware: strength / greatest tension", backup ? "Backup" : "Main");
  add_ratio_limit(rig, check);
  check.value = INFINITY;
  const WebbingRun& run = backup ? rig.backup.run : rig.main.run;
  std::string without;
  bool any = false;
  for (const PieceForce& force : plan.forces) {
    if (force.kind != Piece::Kind::link || force.on_backup != backup) continue;
    any = true;
    const Link& link = link_of(run, force.index);
    if (!link.strength) {
      without += fmt::format("{}{}", without.empty() ? "" : ", ", force.name);
      continue;
    }
    const double ratio = *link.strength / std::max(force.tension, 1e-9);
    if (ratio >= check.value) continue;
    check.value = ratio;
    check.words = fmt::format("{}: {} against {} ({}).", force.name, force_text(*link.strength, units),
                              force_text(force.tension, units), force.state);
  }
  if (!any) return std::nullopt;
  check.verdict = check.value < check.limit ? Verdict::stop : backup ? Verdict::caution : Verdict::ok;
  if (backup) check.words += " While the main holds; a main failure is not computed here.";
  if (check.verdict == Verdict::stop) check.words += " Use a stronger one or less tension.";
  if (!without.empty()) {
    check.words += fmt::format("{}No strength given for: {}.", check.words.empty() ? "" : " ", without);
    check.assumed.push_back(fmt::format("strength of {} not given", without));
  }
  if (!std::isfinite(check.value)) {
    check.value = 0.0;
    check.computed = false;
    check.verdict = Verdict::caution;
  }
  return check;
}

Check anchor_check(const Rig& rig, const Plan& plan, bool near, UnitSystem units) {
  Check check;
  check.name = near ? "anchor_near" : "anchor_far";
  check.title = fmt::format("{} anchor: strength / greatest load", near ? "Near" : "Far");
  check.limit = rig.limits.anchor_ratio.value;
  check.unit = "-";
  if (rig.limits.anchor_ratio.assumed) {
    check.assumed.push_back(fmt::format("limits.anchor_ratio = {:g}", check.limit));
  }
  double greatest = 0.0;
  std::string state;
  const auto meet = [&](const AnchorLoad& load, const std::string& name) {
    if (norm(load.total()) > greatest) greatest = norm(load.total()), state = name;
  };
  meet(near ? plan.standing.near : plan.standing.far, "standing");
  const auto meet_all = [&](const std::vector<WalkerPlace>& places, const char* who) {
    for (const WalkerPlace& place : places) {
      meet(near ? place.near : place.far, fmt::format("{} at {}", who, quantity_text(place.position, Measure::length, units)));
    }
  };
  meet_all(plan.walker, "walker");
  meet_all(plan.extra, "walker");
  meet_all(plan.walker_other_joint, "rings locked, walker");
  meet_all(plan.rescue, "two people");
  if (plan.wind) meet_all({plan.wind->worst}, "walker in the wind");
  const std::optional<double>& strength = near ? rig.near_anchor.strength : rig.far_anchor.strength;
  if (!strength) {
    check.computed = false;
    check.verdict = Verdict::caution;
    check.words = fmt::format("It must hold {} ({}) times {:g}; its strength is not given ([anchor.{}] strength).",
                              force_text(greatest, units), state, check.limit, near ? "near" : "far");
    return check;
  }
  check.value = *strength / greatest;
  check.verdict = check.value < check.limit ? Verdict::stop : Verdict::ok;
  check.words = fmt::format("{} against {} ({}), main and backup together.{}", force_text(*strength, units),
                            force_text(greatest, units), state,
                            check.verdict == Verdict::stop ? " Build a stronger anchor or rig less tension." : "");
  return check;
}

}  // namespace

std::vector<Check> check_strength(const Rig& rig, const Plan& plan, UnitSystem units) {
  std::vector<Check> checks;
  for (const bool backup : {false, true}) {
    for (const bool wet : {false, true}) checks.push_back(webbing_check(rig, plan, backup, wet, units));
    if (auto links = link_check(rig, plan, backup, units)) checks.push_back(std::move(*links));
  }
  return checks;
}

std::vector<Check> check_anchors(const Rig& rig, const Plan& plan, UnitSystem units) {
  return {anchor_check(rig, plan, true, units), anchor_check(rig, plan, false, units)};
}

}  // namespace spanloom
