#include "checks/check_layout.h"

#include <algorithm>
#include <cmath>

#include <fmt/format.h>

namespace spanloom {
namespace {

std::string text(double si, Measure measure, UnitSystem units) { return quantity_text(si, measure, units); }

std::string list(const std::vector<int>& numbers) {
  std::string out;
  const std::size_t shown = std::min<std::size_t>(numbers.size(), 8);
  for (std::size_t i = 0; i < shown; ++i) out += fmt::format("{}{}", i == 0 ? "" : ", ", numbers[i]);
  if (shown < numbers.size()) out += fmt::format(" and {} more", numbers.size() - shown);
  return out;
}

Check drop_check(const Rig& rig, const Plan& plan, UnitSystem units) {
  const auto least = std::min_element(plan.bays.begin(), plan.bays.end(),
                                      [](const PlanBay& a, const PlanBay& b) { return a.drop < b.drop; });
  Check check{"least_drop", "Least drop of a loop, standing", least->drop, rig.limits.least_drop.value, "m"};
  if (rig.limits.least_drop.assumed) {
    check.assumed.push_back(fmt::format("limits.least_drop = {}, our default", text(check.limit, Measure::small_length, units)));
  }
  check.verdict = check.value < check.limit ? Verdict::stop : Verdict::ok;
  check.words = fmt::format("Bay {} hangs {}.", least->number, text(least->drop, Measure::small_length, units));
  if (check.verdict == Verdict::stop) {
    check.words += rig.backup.joint == Joint::ring
                       ? " Rings let the backup run out of a short bay: leave its ring out, tape it, or give all bays more."
                       : " A short bay needs much more slack for the same drop: give it more, or a drop of its own.";
  }
  return check;
}

Check ankle_check(const Rig& rig, const Plan& plan, UnitSystem units) {
  const PlanBay& bay = plan.bays[plan.worst_ankle_bay];
  Check check{"ankle_margin", "Least ankle margin, walker in the middle of the bay", bay.ankle_margin,
              rig.limits.least_ankle_margin.value, "m"};
  if (rig.limits.least_ankle_margin.assumed) {
    check.assumed.push_back(fmt::format("limits.least_ankle_margin = {}", text(check.limit, Measure::small_length, units)));
  }
  check.verdict = check.value < check.limit ? Verdict::stop : Verdict::ok;
  check.words = fmt::format("Bay {}: {}.", bay.number, text(bay.ankle_margin, Measure::small_length, units));
  if (bay.ankle_margin < 0.0) check.words += " The backup rides up at the ankles there.";
  if (check.verdict == Verdict::stop) check.words += " Make that bay shorter or its loop slacker.";
  return check;
}

Check backup_check(const Rig& rig, const Plan& plan, UnitSystem units) {
  Check check{"backup_tension", "Greatest backup tension while the main holds", plan.standing.backup_tension_max,
              rig.limits.backup_tension.value, "N"};
  if (rig.limits.backup_tension.assumed) {
    check.assumed.push_back(fmt::format("limits.backup_tension = {}", text(check.limit, Measure::small_force, units)));
  }
  std::string where = "standing";
  check.at_most = true;
  for (const PieceForce& force : plan.forces) {
    if (force.on_backup && force.tension > check.value) check.value = force.tension, where = force.state;
  }
  check.verdict = check.value < check.limit ? Verdict::ok : Verdict::stop;
  check.words = fmt::format("{}, {}.", text(check.value, Measure::small_force, units), where);
  if (check.verdict == Verdict::stop) check.words += " The backup carries load where it should hang: more slack there.";
  return check;
}

Check ring_check(const Plan& plan, UnitSystem units) {
  Check check{"rings", "Rings free against rings locked: greatest difference of sag", 0.0, 0.0, "m"};
  check.at_most = true;
  double backup = 0.0;
  for (std::size_t i = 0; i < plan.walker.size(); ++i) {
    check.value = std::max(check.value, std::abs(plan.walker[i].sag - plan.walker_other_joint[i].sag));
    backup = std::max(backup, plan.walker_other_joint[i].backup_tension_max - plan.walker[i].backup_tension_max);
  }
  check.verdict = Verdict::caution;
  check.words = fmt::format(
      "Friction leaves the line between the two: sag differs by up to {}, backup tension by up to {}.",
      text(check.value, Measure::small_length, units), text(backup, Measure::small_force, units));
  return check;
}

Check curve_check(const Rig& rig, const Plan& plan, UnitSystem units) {
  Check check{"measured_curve", "Greatest tension / last measured point of its curve", 0.0, 1.0, "-"};
  check.at_most = true;
  std::string worst;
  for (const PieceForce& force : plan.forces) {
    if (force.kind != Piece::Kind::webbing) continue;
    const WebbingRun& run = force.on_backup ? rig.backup.run : rig.main.run;
    const double last = rig.webbings[run.segments[force.index].webbing].curve.last_measured_tension();
    if (force.tension / last <= check.value) continue;
    check.value = force.tension / last;
    worst = fmt::format("{}: {} of {} measured ({}).", force.name, text(force.tension, Measure::force, units),
                        text(last, Measure::force, units), force.state);
  }
  check.verdict = check.value > 1.0 ? Verdict::caution : Verdict::ok;
  check.words = worst.empty() ? "The curves are straight lines that were given no end." : worst;
  if (check.value > 1.0) check.words += " Beyond it the last slope is used: measure the webbing further.";
  return check;
}

Check spacing_check(const Rig& rig, const Plan& plan, UnitSystem units) {
  const CommonPractice practice = common_practice(rig.site.gap, rig.spacing.arm_span.value, units);
  const std::vector<int> outside = bays_outside(practice, plan);
  Check check{"spacing", "Bays outside common practice", double(outside.size()), 0.0, "bays"};
  check.at_most = true;
  if (rig.spacing.arm_span.assumed) {
    check.assumed.push_back(fmt::format("spacing.arm_span = {}", text(rig.spacing.arm_span.value, Measure::length, units)));
  }
  check.verdict = outside.empty() ? Verdict::ok : Verdict::caution;
  check.words = fmt::format("Common practice, no source: {}, half to 1 arm span in close bays.", practice.words);
  if (!outside.empty()) check.words += fmt::format(" Outside it: bay {}.", list(outside));
  return check;
}

}  // namespace

CommonPractice common_practice(double gap, double arm_span, UnitSystem units) {
  if (gap <= 20.0) return {1.5, 1.8, fmt::format("{} to {} on lines of about {}", text(1.5, Measure::length, units),
                                  text(1.8, Measure::length, units), text(15.0, Measure::length, units))};
  if (gap < 100.0) return {arm_span, 3.0 * arm_span, fmt::format("1 to 3 arm spans under {}", text(100.0, Measure::length, units))};
  return {2.0 * arm_span, 4.0 * arm_span, fmt::format("2 to 4 arm spans from {} on", text(100.0, Measure::length, units))};
}

std::vector<int> bays_outside(const CommonPractice& practice, const Plan& plan) {
  std::vector<int> outside;
  constexpr double kHairs = 0.01;  // [m]
  for (const PlanBay& bay : plan.bays) {
    const bool fits = bay.main_natural >= practice.least - kHairs && bay.main_natural <= practice.most + kHairs;
    const bool close_fits = bay.close && bay.arm_spans > 0.49 && bay.arm_spans < 1.01;
    if (!fits && !close_fits) outside.push_back(bay.number);
  }
  return outside;
}

std::vector<Check> check_loops(const Rig& rig, const Plan& plan, UnitSystem units) {
  std::vector<Check> checks{drop_check(rig, plan, units), ankle_check(rig, plan, units), backup_check(rig, plan, units)};
  if (!plan.walker_other_joint.empty()) checks.push_back(ring_check(plan, units));
  return checks;
}

std::vector<Check> check_practice(const Rig& rig, const Plan& plan, UnitSystem units) {
  return {curve_check(rig, plan, units), spacing_check(rig, plan, units)};
}

}  // namespace spanloom
