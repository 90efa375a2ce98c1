#include "hauling/hauling_report.h"

#include <algorithm>
#include <cmath>

#include <fmt/format.h>

#include "base/constants.h"
#include "base/input_error.h"
#include "rig/find_problems.h"

namespace spanloom {
namespace {

const std::vector<double> kSettlingTimes{3600.0, 3.0 * 3600.0, 12.0 * 3600.0, 24.0 * 3600.0};  // [s]

constexpr double kSameTension = 1e-6;  // of it: what a solved tension may miss

std::string force_text(double force, UnitSystem units) { return quantity_text(force, Measure::force, units); }

double bend_ratio(const HaulingOptions& options) {
  return options.bend ? capstan_ratio(options.bend->friction.value, options.bend->angle) : 1.0;
}

std::vector<PulleySet> sets_of(const HaulingOptions& options) {
  std::vector<PulleySet> sets = options.sets.empty() ? common_sets() : options.sets;
  for (PulleySet& set : sets) {
    set.leaves = options.leaves;
    set.efficiency = options.efficiency.value;
  }
  return sets;
}

// Rounding must not ask for one person or one haul more.
int whole_up(double count) { return static_cast<int>(std::clamp(std::ceil(count * (1.0 - 1e-9)), 1.0, 1e6)); }

// The most that the anchor of the set, of the first one where sets are chained, has to carry. Where the rope leaves the moving
// block that is the whole load, once the rope is tied off there; where it leaves the fixed one, load and rope while hauling.
double anchor_load(const PulleySet& set, double load) {
  if (set.leaves == RopeLeaves::moving_block) return load;
  PulleySet first = set;
  first.parts.resize(1);
  return load + load / hauling_ratio(first);
}

SetAtWork at_work(const PulleySet& set, const HaulingReport& report, const HaulingOptions& options) {
  SetAtWork out{.set = set, .ratio = hauling_ratio(set)};
  PulleySet bushings = set;
  bushings.efficiency = kBushingEfficiency;
  out.hand = report.load / out.ratio;
  out.hand_on_bushings = report.load / hauling_ratio(bushings);
  out.people = whole_up(out.hand / options.person_force.value);
  out.rope = rope_ratio(set) * report.steps.back().travel;
  out.anchor = anchor_load(set, report.load);
  out.holding = report.standing / bend_ratio(options) / holding_ratio(set);
  PulleySet smooth = set;
  smooth.efficiency = 1.0;
  out.holding_at_most = report.standing / holding_ratio(smooth);
  return out;
}

// Stretch and energy of the standing main, bar by bar.
LettingDown let_down(const Rig& rig, const StandingRig& standing, const PullStep& last) {
  LettingDown out{.let_out = last.pulled, .travel = last.travel};
  const Line& line = standing.mesh.line;
  for (std::size_t k = 0; k < line.bays(); ++k) {
    Vec3 force = standing.standing.near_force[2 * k];
    const ChainRange range = line.main_chain(k);
    for (std::size_t bar = range.first; bar < range.first + range.count; ++bar) {
      const StretchCurve& law = line.laws[line.law[bar]];
      const double stretch = law.stretch_at(norm(force)).stretch;
      out.stretch += line.length[bar] * stretch;
      out.stored += line.length[bar] * law.energy(stretch);
      force -= line.load[bar];
    }
  }
  out.same_fall = out.stored / (rig.walker.mass * kGravity);
  return out;
}

void note_ground(HaulingReport& report, UnitSystem units) {
  const auto lies = [](const PullStep& step) { return step.ground_clearance && *step.ground_clearance < 0.0; };
  const PullStep& first = report.steps.front();
  if (!lies(first)) return;
  const auto free = std::find_if_not(report.steps.begin(), report.steps.end(), lies);
  report.notes.push_back(
      fmt::format("Hand-tight the line would hang {} into the ground: line or loops lie on it, {}. While they do, less "
                  "than told here has to be pulled through.",
                  quantity_text(-*first.ground_clearance, Measure::length, units),
                  free == report.steps.end()
                      ? "even when standing"
                      : fmt::format("and come free before {} is reached", force_text(free->tension_near, units))));
}

void note_extrapolation(const Rig& rig, HaulingReport& report, UnitSystem units) {
  for (const Segment& segment : rig.main.run.segments) {
    const Webbing& webbing = rig.webbings[segment.webbing];
    if (report.standing <= webbing.curve.last_measured_tension()) continue;
    report.notes.push_back(
        fmt::format("{} is pulled past its last measured point, {}; the curve goes on by its last slope.", webbing.name,
                    force_text(webbing.curve.last_measured_tension(), units)));
    return;
  }
}

}  // namespace

std::vector<PulleySet> common_sets() { return {{.parts = {3}}, {.parts = {5}}, {.parts = {3, 3}}}; }

void check(const HaulingOptions& options) {
  std::vector<Problem> problems;
  const auto tried = [&](const auto& part) {
    try {
      part();
    } catch (const InputError& error) {
      problems.insert(problems.end(), error.problems().begin(), error.problems().end());
    }
  };
  const auto above_zero = [&](const char* key, double value, const char* unit) {
    if (value > 0.0) return;
    problems.push_back({key, fmt::format("{:g} {}", value, unit), fmt::format("above 0 {}", unit), ""});
  };
  const auto at_least = [&](const char* key, double value, double least, const char* unit) {
    if (value >= least && std::isfinite(value)) return;
    problems.push_back({key, fmt::format("{:g} {}", value, unit), fmt::format("{:g} {} or more", least, unit), ""});
  };
  const std::vector<PulleySet> sets = sets_of(options);
  tried([&] { check(sets.front()); });
  for (std::size_t i = 1; i < sets.size(); ++i) {
    if (problems.empty()) tried([&] { check(sets[i]); });
  }
  tried([&] { bend_ratio(options); });
  at_least("person_force", options.person_force.value, 10.0, "N");
  if (options.reach) at_least("reach", *options.reach, 0.05, "m");
  if (options.step) above_zero("step", *options.step, "N");
  if (options.creep) tried([&] { check_creep(*options.creep); });
  if (!problems.empty()) throw InputError(std::move(problems));
}

HaulingOutcome make_hauling_report(const Rig& rig, const HaulingOptions& options) {
  check(options);
  if (std::vector<Problem> problems = find_problems(rig); !problems.empty()) throw InputError(std::move(problems));
  const StandingOutcome found = find_natural_lengths(rig, MeshOptions{}, options.units);
  if (!found.rig) return {std::nullopt, found.why.words};
  HaulingReport report;
  report.hand_tight = rig.main.hand_tight.value;
  report.standing = norm(found.rig->standing.near_force.front());
  if (report.hand_tight >= report.standing * (1.0 - kSameTension)) {
    return {std::nullopt,
            fmt::format("hand-tight ({}) is not below the standing tension ({}): there is nothing to pull through",
                        force_text(report.hand_tight, options.units), force_text(report.standing, options.units))};
  }
  auto steps =
      pull_steps(rig, *found.rig, pulling_tensions(report.hand_tight, report.standing, options.step, options.units));
  if (!steps) {
    return {std::nullopt,
            fmt::format("no hanging line was found at the hand-tight tension of {}: a line this heavy pulls harder by "
                        "its own weight; state a higher [main] hand_tight",
                        force_text(report.hand_tight, options.units))};
  }
  report.steps = std::move(*steps);
  report.load = report.standing * bend_ratio(options);
  if (options.reach) report.hauls = whole_up(report.steps.back().travel / *options.reach);
  for (const PulleySet& set : sets_of(options)) report.sets.push_back(at_work(set, report, options));
  if (options.creep) {
    auto settling = settle_by_creep(rig, *found.rig, *options.creep, kSettlingTimes);
    if (!settling) {
      return {std::nullopt, "no proven rest was found for the line as it creeps: see whether the creep is right"};
    }
    report.settling = std::move(*settling);
  }
  report.down = let_down(rig, *found.rig, report.steps.back());
  note_ground(report, options.units);
  note_extrapolation(rig, report, options.units);
  return {std::move(report), ""};
}

}  // namespace spanloom
