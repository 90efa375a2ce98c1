#include "checks/check_clearance.h"

#include <cmath>
#include <functional>
#include <optional>

#include <fmt/format.h>

namespace spanloom {
namespace {

struct Least {
  double value = INFINITY;
  std::string state;

  void meet(const std::optional<double>& distance, const std::string& name) {
    if (distance && *distance < value) value = *distance, state = name;
  }
  bool found() const { return std::isfinite(value); }
};

using Pick = std::function<std::optional<double>(const WalkerPlace&)>;

void meet_places(Least& least, const Plan& plan, UnitSystem units, const Pick& pick) {
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

Check distance_check(const char* name, const char* title, const Least& least, const Stated<double>& limit,
                     const char* limit_key, const char* missing, const char* cure, UnitSystem units) {
  Check check;
  check.name = name;
  check.title = title;
  check.limit = limit.value;
  check.unit = "m";
  if (limit.assumed) check.assumed.push_back(fmt::format("{} = {}", limit_key, quantity_text(limit.value, Measure::length, units)));
  if (!least.found()) {
    check.computed = false;
    check.verdict = Verdict::caution;
    check.words = missing;
    return check;
  }
  check.value = least.value;
  check.verdict = check.value < check.limit ? Verdict::stop : Verdict::ok;
  check.words = fmt::format("Least: {}, {}.", quantity_text(least.value, Measure::length, units), least.state);
  if (check.verdict == Verdict::stop) check.words += fmt::format(" {}", cure);
  return check;
}

std::optional<double> outside(const WalkerPlace& place, const std::optional<double>& distance) {
  return place.in_anchor_zone ? std::nullopt : distance;
}

}  // namespace

std::vector<Check> check_clearance(const Rig& rig, const Plan& plan, UnitSystem units) {
  const char* no_ground = "Not known: no ground is given ([site] ground), or the anchor zones cover the gap.";
  const Limits& limits = rig.limits;
  std::vector<Check> checks;

  Least line;
  line.meet(plan.standing.ground_clearance, "standing");
  meet_places(line, plan, units, [](const WalkerPlace& p) { return p.line_clearance; });
  if (plan.wind) line.meet(plan.wind->line_clearance, "in the wind");
  checks.push_back(distance_check("line_clearance", "Line and loops over the ground, outside the anchor zones", line,
                                  limits.reserve, "limits.reserve", no_ground,
                                  "Rig higher, tighter, or with less drop there.", units));
  Least foot;
  meet_places(foot, plan, units, [](const WalkerPlace& p) { return outside(p, p.ground_clearance); });
  checks.push_back(distance_check("foot_clearance", "Foot over the ground, outside the anchor zones", foot,
                                  limits.reserve, "limits.reserve", no_ground, "Rig higher or tighter.", units));
  Least body;
  meet_places(body, plan, units, [](const WalkerPlace& p) { return outside(p, p.hang_clearance); });
  if (plan.wind) body.meet(plan.wind->hang_clearance, "in the wind");
  Check hang = distance_check("hang_clearance", "Body hanging still on the leash over the ground, outside the zones",
                              body, limits.reserve, "limits.reserve", no_ground,
                              "Rig higher or tighter, or shorten the leash. A fall goes deeper than this.", units);
  if (rig.walker.leash.assumed) hang.assumed.push_back(fmt::format("walker.leash = {}", quantity_text(rig.walker.leash.value, Measure::length, units)));
  if (rig.walker.foot_to_hip.assumed) {
    hang.assumed.push_back(fmt::format("walker.foot_to_hip = {}", quantity_text(rig.walker.foot_to_hip.value, Measure::length, units)));
  }
  if (hang.computed && hang.verdict == Verdict::ok) hang.words += " A fall goes deeper than this still body.";
  checks.push_back(std::move(hang));

  Least edge;
  edge.meet(plan.standing.zone_distance, "standing");
  meet_places(edge, plan, units, [](const WalkerPlace& p) { return p.edge_distance; });
  checks.push_back(distance_check("edge_distance", "Line and loops to the edge in the anchor zones", edge,
                                  limits.edge_distance, "limits.edge_distance",
                                  "Not known: give [anchor.near] edge, [anchor.far] edge and the ground.",
                                  "Raise the anchor or move it, or the webbing will rub on the edge.", units));
  if (edge.found() && !(rig.near_anchor.edge && rig.far_anchor.edge)) {
    checks.back().assumed.push_back(rig.near_anchor.edge ? "anchor.far.edge not given" : "anchor.near.edge not given");
  }
  // The zones are where the reserve does not hold: a zone nobody stated makes the other three unsure.
  if (limits.anchor_zone.assumed) {
    for (Check& check : checks) {
      check.assumed.push_back(fmt::format("limits.anchor_zone = {}", quantity_text(limits.anchor_zone.value, Measure::length, units)));
    }
  }
  return checks;
}

}  // namespace spanloom
