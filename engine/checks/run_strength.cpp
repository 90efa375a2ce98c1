#include "checks/run_strength.h"

#include <algorithm>
#include <cmath>
#include <string_view>

#include <fmt/format.h>

#include "base/quantity_text.h"

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

// What the weaker end of a segment leaves of its strength.
struct Weakest {
  double keeps = 1.0;
  std::string where;
};

Weakest weakest_end(const WebbingRun& run, const PieceForce& segment) {
  const auto at = [](const WebbingEnd& end, const char* name) {
    return Weakest{end.keeps.value, fmt::format("{} at the {}", word_of(end.kind.value), name)};
  };
  const Weakest near = segment.at_near_anchor ? at(run.near_end, "near end") : at(run.joint_end, "joint");
  const Weakest far = segment.at_far_anchor ? at(run.far_end, "far end") : at(run.joint_end, "joint");
  return far.keeps < near.keeps ? far : near;
}

// Every default that the strength of the run rests on, whichever end or segment is the weakest: the
// weakest would be another one if the true value were lower than our default.
void add_strength_defaults(const PulledRun& of, Weather weather, Check& check) {
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

void judge_ratio(const PulledRun& of, const std::string& cure, Check& check) {
  check.verdict = check.value < check.limit ? Verdict::stop : Verdict::ok;
  check.words += of.remark;
  if (of.pull == Pull::hanging && check.verdict == Verdict::ok) leave_open(check);
  if (check.verdict == Verdict::stop) check.words += cure;
}

}  // namespace

Check webbing_strength(const PulledRun& of, Weather weather) {
  const bool wet = weather == Weather::wet;
  Check check;
  check.name = fmt::format("{}{}_strength_{}", of.check_prefix, of.key, wet ? "wet" : "dry");
  check.title = fmt::format("{} webbing, {}: strength left at its ends / greatest tension", of.name, wet ? "wet" : "dry");
  add_ratio_limit(of.rig, check);
  add_strength_defaults(of, weather, check);
  check.value = INFINITY;
  for (const PieceForce& force : of.forces) {
    if (force.kind != Piece::Kind::webbing || force.tension <= 0.0) continue;
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
  judge_ratio(of, of.webbing_cure, check);
  return check;
}

std::optional<Check> link_strength(const PulledRun& of) {
  Check check;
  check.name = fmt::format("{}{}_links", of.check_prefix, of.key);
  check.title = fmt::format("{} connectors and hardware: strength / greatest tension", of.name);
  add_ratio_limit(of.rig, check);
  check.value = INFINITY;
  std::string without;
  for (const PieceForce& force : of.forces) {
    if (force.kind != Piece::Kind::link) continue;
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
  if (any_strength) judge_ratio(of, of.link_cure, check);
  else leave_open(check);
  if (!without.empty()) {
    check.words += fmt::format("{}No strength given for: {}.", check.words.empty() ? "" : " ", without);
    check.verdict = std::max(check.verdict, Verdict::caution);
  }
  return check;
}

std::vector<Check> strengths(const PulledRun& of) {
  std::vector<Check> checks{webbing_strength(of, Weather::dry), webbing_strength(of, Weather::wet)};
  if (auto links = link_strength(of)) checks.push_back(std::move(*links));
  return checks;
}

Check anchor_strength(const Rig& rig, const char* side, double load, const std::string& state, UnitSystem units) {
  const bool near = std::string_view(side) == "near";
  Check check;
  check.name = fmt::format("anchor_{}", side);
  check.title = fmt::format("{} anchor: strength / greatest load", near ? "Near" : "Far");
  add_anchor_ratio_limit(rig, check);
  const std::optional<double>& strength = near ? rig.near_anchor.strength : rig.far_anchor.strength;
  if (!strength) {
    leave_open(check);
    check.words = fmt::format("It must hold {} ({}) times {:g}; its strength is not given ([anchor.{}] strength).",
                              force_text(load, units), state, check.limit, side);
    return check;
  }
  check.value = *strength / load;
  check.verdict = check.value < check.limit ? Verdict::stop : Verdict::ok;
  check.words = fmt::format("{} against {} ({}), main and backup together.{}", force_text(*strength, units),
                            force_text(load, units), state,
                            check.verdict == Verdict::stop ? " Build a stronger anchor or rig less tension." : "");
  return check;
}

void leave_open(Check& check) {
  check.value = 0.0;
  check.computed = false;
  check.verdict = Verdict::caution;
}

void add_ratio_limit(const Rig& rig, Check& check) {
  check.limit = rig.limits.ratio.value;
  check.unit = "-";
  if (rig.limits.ratio.assumed) check.assumed.push_back(fmt::format("limits.ratio = {:g}", check.limit));
}

void add_anchor_ratio_limit(const Rig& rig, Check& check) {
  check.limit = rig.limits.anchor_ratio.value;
  check.unit = "-";
  if (rig.limits.anchor_ratio.assumed) {
    check.assumed.push_back(fmt::format("limits.anchor_ratio = {:g}", check.limit));
  }
}

}  // namespace spanloom
