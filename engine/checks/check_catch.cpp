#include "checks/check_catch.h"

#include <algorithm>
#include <iterator>

#include <fmt/format.h>

#include "checks/catch_checks.h"
#include "checks/catch_warnings.h"
#include "checks/catch_words.h"
#include "checks/distance.h"
#include "checks/generic_webbing.h"
#include "checks/run_strength.h"

namespace spanloom {
namespace {

bool is_of_part(const CatchReport& report) { return report.stopped || report.quick || report.search.failed > 0; }

Check search_check(const JudgedCatch& of) {
  const CatchReport& report = of.report;
  Check check{"catch_search", "Falls that gave no number", double(report.search.failed), 0.0, "falls"};
  check.at_most = true;
  check.verdict = is_of_part(report) ? Verdict::caution : Verdict::ok;
  check.words = fmt::format("{} falls computed to find the worst{}.", report.search.events,
                            report.search.told > 0
                                ? fmt::format(", {} of them once more on a finer mesh", report.search.told) : "");
  if (report.search.events == 0) leave_open(check);
  if (report.search.failed > 0) {
    check.words += " Some have no proven rest, or energy that does not add up: the worst may be among those.";
  }
  if (report.quick) {
    check.words += " A quick look: what lies between the searched places, and walkers who sit or hang when the main "
                   "fails, were not searched.";
  }
  if (report.stopped) check.words += " Stopped before the end: the worst may be among what was not done.";
  return check;
}

// Whatever says ok may not say so while the worst fall may be one without a number.
void hold_back_part(const CatchReport& report, Check& check) {
  hold_back(check);
  if (is_of_part(report) && check.verdict == Verdict::ok) check.verdict = Verdict::caution;
}

}  // namespace

void leave_without_falls(const JudgedCatch& of, FallKind kind, Check& check) {
  leave_open(check);
  const bool failure = kind == FallKind::main_failure;
  const bool none = (failure ? of.report.main_failure : of.report.leash_fall).empty();
  check.words = none ? fmt::format("Not known: no {} was computed.", failure ? "main failure" : "leash fall")
                     : "No number: nothing holds the walker.";
}

void add_fall_inputs(const JudgedCatch& of, FallKind kind, Check& check) {
  const Walker& walker = of.rig.walker;
  const auto add = [&](bool is_default, std::string input) {
    if (is_default) check.assumed.push_back(std::move(input));
  };
  add_body_lengths(of.rig, check, of.units);
  const Webbing leash = generic_leash();
  add(!walker.leash_webbing.has_value(),
      fmt::format("walker.leash_webbing = {} of {}", leash.name, quantity_text(leash.strength, Measure::force, of.units)));
  add(walker.leash_ring.assumed, fmt::format("walker.leash_ring = {}",
                                             walker.leash_ring.value == LeashRing::around_both ? "both" : "main"));
  add(walker.leash_ring_mass.assumed,
      fmt::format("walker.leash_ring_mass = {}",
                  quantity_text(walker.leash_ring_mass.value, Measure::small_mass, of.units)));
  add(walker.leash_ring_friction.assumed,
      fmt::format("walker.leash_ring_friction = {:g}", walker.leash_ring_friction.value));
  add(walker.body.assumed,
      fmt::format("walker.body = {}", walker.body.value == BodyModel::one_mass ? "one mass" : "two masses"));
  const bool taped = of.rig.backup.joint == Joint::taped;
  add(!taped && of.rig.backup.ring_friction.assumed,
      fmt::format("backup.ring_friction = {:g}", of.rig.backup.ring_friction.value));
  add(taped && kind == FallKind::main_failure && !of.report.tape_strength_known,
      "backup.tape_strength not given, so the worse of tapes that hold and tapes that tear");
}

std::vector<Check> judge_catch(const Rig& rig, const CatchReport& report, UnitSystem units) {
  const JudgedCatch of{rig, report, units};
  std::vector<Check> checks;
  for (const auto& part : {check_caught_body(of), check_caught_line(of), check_caught_anchors(of), check_caught_room(of)}) {
    checks.insert(checks.end(), part.begin(), part.end());
  }
  for (Check& check : checks) add_generic_webbings(rig, Pulling::line_and_leash, check);
  checks.push_back(search_check(of));
  for (Check& check : checks) {
    hold_back_part(report, check);
    say_break(check);
  }
  return checks;
}

std::vector<Check> CatchVerdicts::all() const {
  std::vector<Check> checks;
  std::copy_if(plan.begin(), plan.end(), std::back_inserter(checks), [this](const Check& open) {
    const auto answers = [&](const Check& fall) { return fall.computed && fall.name == "catch_" + open.name; };
    return open.computed || std::none_of(falls.begin(), falls.end(), answers);
  });
  checks.insert(checks.end(), falls.begin(), falls.end());
  return checks;
}

}  // namespace spanloom
