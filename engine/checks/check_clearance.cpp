#include "checks/check_clearance.h"

#include <algorithm>
#include <functional>
#include <optional>
#include <utility>

#include <fmt/format.h>

#include "checks/distance.h"
#include "statics/clearance.h"

namespace spanloom {
namespace {

using Pick = std::function<std::optional<double>(const WalkerPlace&)>;

void meet_places(LeastDistance& least, const Plan& plan, UnitSystem units, const Pick& pick) {
  const auto all = [&](const std::vector<WalkerPlace>& places, const char* who) {
    for (const WalkerPlace& p : places) {
      least.meet(pick(p), fmt::format("{} at {}", who, quantity_text(p.position, Measure::length, units)));
    }
  };
  all(plan.walker, "walker");
  all(plan.extra, "walker");
  all(plan.walker_other_joint, "rings locked, walker");
  all(plan.rescue, "two people");
}

/// Somebody who walks the whole line.
struct Sweep {
  const char* who;
  std::vector<Vec3> feet;
};

std::vector<Sweep> sweeps_of(const Plan& plan) {
  std::vector<Sweep> sweeps{{"walker", {}}, {"rings locked, walker", {}}, {"two people", {}}};
  const auto add = [](Sweep& sweep, const std::vector<WalkerPlace>& places) {
    for (const WalkerPlace& place : places) sweep.feet.push_back(place.foot);
  };
  add(sweeps[0], plan.walker);
  add(sweeps[0], plan.extra);
  add(sweeps[1], plan.walker_other_joint);
  add(sweeps[2], plan.rescue);
  if (plan.wind) sweeps.push_back({"walker in the wind", plan.wind->feet});
  return sweeps;
}

/// The least of a point that far below the foot, over all sweeps.
LeastDistance least_of_feet(const Rig& rig, const std::vector<Sweep>& sweeps, const Stretch& within, double below,
                    UnitSystem units) {
  LeastDistance least;
  for (const Sweep& sweep : sweeps) {
    const std::optional<Clearance> here = foot_clearance(rig, sweep.feet, within);
    if (!here) continue;
    least.meet(here->distance - below, fmt::format("{}, over the ground at {} of the gap", sweep.who,
                                                   quantity_text(here->at, Measure::length, units)));
  }
  return least;
}

constexpr const char* kNoGround =
    "Not known: no ground is given ([site] ground), or the anchor zones cover the gap.";
constexpr const char* kBetween = " Between two computed places the lower foot counts.";

Check line_check(const Rig& rig, const Plan& plan, UnitSystem units) {
  LeastDistance line;
  line.meet(plan.standing.ground_clearance, "standing");
  meet_places(line, plan, units, [](const WalkerPlace& p) { return p.line_clearance; });
  if (plan.wind) line.meet(plan.wind->line_clearance, "in the wind");
  return distance_check(line, {"line_clearance", "Line and loops over the ground, outside the anchor zones",
                               rig.limits.reserve, "limits.reserve", kNoGround,
                               "Rig higher, tighter, or with less drop there."}, units);
}

Check foot_check(const Rig& rig, const std::vector<Sweep>& sweeps, UnitSystem units) {
  LeastDistance foot;
  if (const auto between = between_zones(rig)) foot = least_of_feet(rig, sweeps, *between, 0.0, units);
  Check check = distance_check(foot, {"foot_clearance", "Foot over the ground, outside the anchor zones",
                                      rig.limits.reserve, "limits.reserve", kNoGround, "Rig higher or tighter."}, units);
  if (check.computed) check.words += kBetween;
  return check;
}

Check hang_check(const Rig& rig, const Plan& plan, const std::vector<Sweep>& sweeps, UnitSystem units) {
  LeastDistance body;
  if (const auto between = between_zones(rig)) {
    body = least_of_feet(rig, sweeps, *between, plan.body_below_main, units);
  }
  Check check = distance_check(body, {"hang_clearance", "Body hanging still on the leash over the ground, outside the zones",
                                      rig.limits.reserve, "limits.reserve", kNoGround,
                                      "Rig higher or tighter, or shorten the leash."}, units);
  if (check.computed) check.words += fmt::format("{} A fall goes deeper than this still body.", kBetween);
  add_body_lengths(rig, check, units);
  return check;
}

/// "from 0.00 m to 2.55 m of the gap", over all sweeps; empty where no feet meet the ground.
std::string where_met(const Rig& rig, const Plan& plan, const std::vector<Sweep>& sweeps, const Stretch& zone,
                      UnitSystem units) {
  std::optional<Stretch> met;
  for (const Sweep& sweep : sweeps) {
    const std::optional<Stretch> here = ground_met(rig, sweep.feet, zone, plan.body_below_main);
    if (!here) continue;
    met = met ? Stretch{std::min(met->from, here->from), std::max(met->to, here->to)} : *here;
  }
  if (!met) return {};
  return fmt::format("from {} to {} of the gap", quantity_text(met->from, Measure::length, units),
                     quantity_text(met->to, Measure::length, units));
}

/// The reserve does not hold inside the zones, so zones that cover much of the gap are said.
void judge_share_of_zones(const Rig& rig, Check& check) {
  constexpr double kMuch = 1.0 / 3.0;  // ours: common practice, no source
  const double share = std::min(1.0, 2.0 * rig.limits.anchor_zone.value / rig.site.gap);
  if (share <= kMuch) return;
  check.verdict = Verdict::caution;
  check.words += fmt::format(" The anchor zones cover {:.0f} % of the gap, more than a third: the reserve holds "
                             "over the rest only.", 100.0 * share);
}

Check zone_hang_check(const Rig& rig, const Plan& plan, const std::vector<Sweep>& sweeps, UnitSystem units) {
  LeastDistance body;
  std::string met;
  for (const Stretch& zone : anchor_zones(rig)) {
    const LeastDistance here = least_of_feet(rig, sweeps, zone, plan.body_below_main, units);
    if (here.found()) body.meet(here.value, here.state);
    const std::string where = where_met(rig, plan, sweeps, zone, units);
    if (!where.empty()) met += (met.empty() ? "" : " and ") + where;
  }
  Check check = distance_check(body, {"zone_hang", "Body on the leash inside the anchor zones",
                                      Stated<double>::given(0.0), "", "Not known: no ground is given ([site] ground).", ""},
                               units);
  if (!met.empty()) {
    // Near an anchor the ground is always near: said, not stopped.
    check.verdict = Verdict::caution;
    check.words = fmt::format("A body hanging on the leash reaches the ground {}: a fall there ends on the ground. "
                              "Least: {}, {}.", met, quantity_text(body.value, Measure::length, units), body.state);
  }
  if (check.computed) check.words += kBetween;
  judge_share_of_zones(rig, check);
  add_body_lengths(rig, check, units);
  return check;
}

Check edge_check(const Rig& rig, const Plan& plan, UnitSystem units) {
  LeastDistance edge;
  edge.meet(plan.standing.zone_distance, "standing");
  meet_places(edge, plan, units, [](const WalkerPlace& p) { return p.edge_distance; });
  if (plan.wind) edge.meet(plan.wind->edge_distance, "in the wind");
  Check check = distance_check(edge, {"edge_distance", "Line and loops to edge and ground in the anchor zones",
                                      rig.limits.edge_distance, "limits.edge_distance",
                                      "Not known: give [anchor.near] edge, [anchor.far] edge and the ground.",
                                      "Raise the anchor or move it, or the webbing will rub on the ground."}, units);
  if (!check.computed) return check;
  if (check.value < 0.0) check.words += " Below 0 the line passes below the ground.";
  for (const auto& [anchor, name] : {std::pair{&rig.near_anchor, "near"}, {&rig.far_anchor, "far"}}) {
    if (anchor->edge) continue;
    check.assumed.push_back(fmt::format("anchor.{}.edge not given", name));
    check.words += fmt::format(" The distance to the {} edge is not known: give [anchor.{}] edge.", name, name);
  }
  return check;
}

}  // namespace

std::vector<Check> check_clearance(const Rig& rig, const Plan& plan, UnitSystem units) {
  const std::vector<Sweep> sweeps = sweeps_of(plan);
  std::vector<Check> checks{line_check(rig, plan, units), foot_check(rig, sweeps, units),
                            hang_check(rig, plan, sweeps, units)};
  if (rig.limits.anchor_zone.value > 0.0) checks.push_back(zone_hang_check(rig, plan, sweeps, units));
  checks.push_back(edge_check(rig, plan, units));
  // The zones are where the reserve does not hold: a zone nobody stated makes every one of them unsure.
  if (rig.limits.anchor_zone.assumed) {
    for (Check& check : checks) {
      check.assumed.push_back(assumed_length("limits.anchor_zone", rig.limits.anchor_zone, units));
    }
  }
  return checks;
}

}  // namespace spanloom
