#include "checks/check_layout.h"

#include <algorithm>
#include <cmath>

#include <fmt/format.h>

namespace spanloom {
namespace {

// Common practice, no published source: bays of 1 to 3 arm spans under 100 m, 2 to 4 above; about 1.5 to
// 1.8 m on a line of 15 m (we take lines up to 20 m); half to one arm span where tricks are done.
struct Practice {
  double least, most;  // [m]
  std::string words;
};

Practice practice_for(double gap, double arm_span) {
  if (gap <= 20.0) return {1.5, 1.8, "1.5 to 1.8 m on lines of about 15 m"};
  if (gap < 100.0) return {arm_span, 3.0 * arm_span, "1 to 3 arm spans under 100 m"};
  return {2.0 * arm_span, 4.0 * arm_span, "2 to 4 arm spans from 100 m on"};
}

bool is_close_bay(const Rig& rig, const PlanBay& bay) {
  if (!rig.spacing.close) return false;
  const double wanted = rig.spacing.close->arm_spans;
  const double middle = bay.tape_s - 0.5 * bay.main_natural;
  return std::abs(bay.arm_spans - wanted) < 0.01 &&
         std::abs(middle - rig.spacing.close->centre) < 0.5 * rig.spacing.close->length + bay.main_natural;
}

std::string list(const std::vector<int>& numbers) {
  std::string out;
  const std::size_t shown = std::min<std::size_t>(numbers.size(), 8);
  for (std::size_t i = 0; i < shown; ++i) out += fmt::format("{}{}", i == 0 ? "" : ", ", numbers[i]);
  if (shown < numbers.size()) out += fmt::format(" and {} more", numbers.size() - shown);
  return out;
}

Check drop_check(const Rig& rig, const Plan& plan) {
  const auto least = std::min_element(plan.bays.begin(), plan.bays.end(),
                                      [](const PlanBay& a, const PlanBay& b) { return a.drop < b.drop; });
  Check check{"least_drop", "Least drop of a loop, standing", least->drop, rig.limits.least_drop.value, "m"};
  if (rig.limits.least_drop.assumed) {
    check.assumed.push_back(fmt::format("limits.least_drop = {:.0f} mm, our default", 1000.0 * check.limit));
  }
  check.verdict = check.value < check.limit ? Verdict::stop : Verdict::ok;
  check.words = fmt::format("Bay {} hangs {:.0f} mm.", least->number, 1000.0 * least->drop);
  if (check.verdict == Verdict::stop) {
    check.words += " A short bay needs much more slack for the same drop: give it more, or a drop of its own.";
  }
  return check;
}

Check ankle_check(const Rig& rig, const Plan& plan) {
  const PlanBay& bay = plan.bays[plan.worst_ankle_bay];
  Check check{"ankle_margin", "Least ankle margin, walker in the middle of the bay", bay.ankle_margin,
              rig.limits.least_ankle_margin.value, "m"};
  if (rig.limits.least_ankle_margin.assumed) {
    check.assumed.push_back(fmt::format("limits.least_ankle_margin = {:.0f} mm", 1000.0 * check.limit));
  }
  check.verdict = check.value < check.limit ? Verdict::stop : Verdict::ok;
  check.words = fmt::format("Bay {}: {:.0f} mm.", bay.number, 1000.0 * bay.ankle_margin);
  if (bay.ankle_margin < 0.0) check.words += " The backup rides up at the ankles there.";
  if (check.verdict == Verdict::stop) check.words += " Make that bay shorter or its loop slacker.";
  return check;
}

Check backup_check(const Rig& rig, const Plan& plan) {
  Check check{"backup_tension", "Greatest backup tension while the main holds", plan.standing.backup_tension_max,
              rig.limits.backup_tension.value, "N"};
  if (rig.limits.backup_tension.assumed) {
    check.assumed.push_back(fmt::format("limits.backup_tension = {:.0f} N", check.limit));
  }
  std::string where = "standing";
  for (const PieceForce& force : plan.forces) {
    if (force.on_backup && force.tension > check.value) check.value = force.tension, where = force.state;
  }
  check.verdict = check.value < check.limit ? Verdict::ok : Verdict::stop;
  check.words = fmt::format("{:.0f} N, {}.", check.value, where);
  if (check.verdict == Verdict::stop) check.words += " The backup carries load where it should hang: more slack there.";
  return check;
}

Check ring_check(const Plan& plan) {
  Check check{"rings", "Rings free against rings locked: greatest difference of sag", 0.0, 0.0, "m"};
  double backup = 0.0;
  for (std::size_t i = 0; i < plan.walker.size(); ++i) {
    check.value = std::max(check.value, std::abs(plan.walker[i].sag - plan.walker_other_joint[i].sag));
    backup = std::max(backup, plan.walker_other_joint[i].backup_tension_max - plan.walker[i].backup_tension_max);
  }
  check.verdict = Verdict::caution;
  check.words = fmt::format(
      "Friction leaves the line between the two: sag differs by up to {:.0f} mm, backup tension by up to {:.0f} N.",
      1000.0 * check.value, backup);
  return check;
}

Check curve_check(const Rig& rig, const Plan& plan) {
  Check check{"measured_curve", "Greatest tension / last measured point of its curve", 0.0, 1.0, "-"};
  std::string worst;
  for (const PieceForce& force : plan.forces) {
    if (force.kind != Piece::Kind::webbing) continue;
    const WebbingRun& run = force.on_backup ? rig.backup.run : rig.main.run;
    const double last = rig.webbings[run.segments[force.index].webbing].curve.last_measured_tension();
    if (force.tension / last <= check.value) continue;
    check.value = force.tension / last;
    worst = fmt::format("{}: {:.2f} kN of {:.2f} kN measured ({}).", force.name, force.tension / 1000.0,
                        last / 1000.0, force.state);
  }
  check.verdict = check.value > 1.0 ? Verdict::caution : Verdict::ok;
  check.words = worst;
  if (check.value > 1.0) check.words += " Beyond it the last slope is used: measure the webbing further.";
  return check;
}

Check spacing_check(const Rig& rig, const Plan& plan) {
  const Practice practice = practice_for(rig.site.gap, rig.spacing.arm_span.value);
  std::vector<int> outside;
  constexpr double kHairs = 0.01;  // [m]
  for (const PlanBay& bay : plan.bays) {
    const bool fits = bay.main_natural >= practice.least - kHairs && bay.main_natural <= practice.most + kHairs;
    const bool close_fits = is_close_bay(rig, bay) && bay.arm_spans > 0.49 && bay.arm_spans < 1.01;
    if (!fits && !close_fits) outside.push_back(bay.number);
  }
  Check check{"spacing", "Bays outside common practice", double(outside.size()), 0.0, "bays"};
  if (rig.spacing.arm_span.assumed) {
    check.assumed.push_back(fmt::format("spacing.arm_span = {:g} m", rig.spacing.arm_span.value));
  }
  check.verdict = outside.empty() ? Verdict::ok : Verdict::caution;
  check.words = fmt::format("Common practice, no source: {}, half to 1 arm span in close bays.", practice.words);
  if (!outside.empty()) check.words += fmt::format(" Outside it: bay {}.", list(outside));
  return check;
}

}  // namespace

std::vector<Check> check_loops(const Rig& rig, const Plan& plan) {
  std::vector<Check> checks{drop_check(rig, plan), ankle_check(rig, plan), backup_check(rig, plan)};
  if (!plan.walker_other_joint.empty()) checks.push_back(ring_check(plan));
  return checks;
}

std::vector<Check> check_practice(const Rig& rig, const Plan& plan) {
  return {curve_check(rig, plan), spacing_check(rig, plan)};
}

}  // namespace spanloom
