#include "checks/verdicts.h"

#include <algorithm>

#include <fmt/format.h>

#include "checks/check_clearance.h"
#include "checks/check_layout.h"
#include "checks/check_strength.h"
#include "checks/generic_webbing.h"

namespace spanloom {
namespace {

// Two people, and the wind where there is one, load most of what is checked while anybody is on the line.
bool rests_on_people(const std::string& name) {
  static const std::vector<std::string> kNot = {"least_drop", "ankle_margin", "spacing", "rings"};
  return std::find(kNot.begin(), kNot.end(), name) == kNot.end();
}

void add_people(const Rig& rig, Check& check) {
  if (!rests_on_people(check.name)) return;
  if (rig.walker.rescuer_mass.assumed) {
    check.assumed.push_back(fmt::format("walker.rescuer_mass = {:g} kg", rig.walker.rescuer_mass.value));
  }
  if (rig.wind && rig.walker.drag_area.assumed) {
    check.assumed.push_back(fmt::format("walker.drag_area = {:g} m2", rig.walker.drag_area.value));
  }
}

}  // namespace

std::vector<Check> judge(const Rig& rig, const Plan& plan, UnitSystem units) {
  std::vector<Check> checks;
  const auto add = [&](std::vector<Check> more) {
    std::move(more.begin(), more.end(), std::back_inserter(checks));
  };
  add(check_strength(rig, plan, units));
  add(check_anchors(rig, plan, units));
  add(check_clearance(rig, plan, units));
  add(check_loops(rig, plan, units));
  add(check_practice(rig, plan, units));
  for (Check& check : checks) {
    add_people(rig, check);
    // What common practice says of the bays is all that no force or shape of the line enters.
    if (check.name != "spacing") add_generic_webbings(rig, Pulling::line, check);
    hold_back(check);
  }
  return checks;
}

void hold_back(Check& check) {
  const bool rests_on_guess = !check.assumed.empty() || !check.computed;
  if (rests_on_guess && check.verdict == Verdict::ok) check.verdict = Verdict::caution;
}

Verdict worst(const std::vector<Check>& checks) {
  Verdict worst = Verdict::ok;
  for (const Check& check : checks) worst = std::max(worst, check.verdict);
  return worst;
}

const std::vector<std::string>& cautions(Falls falls) {
  static const std::vector<std::string> kAlways = {
      "This is a planning aid, not a certificate.",
      "Forces are computed for the webbing data given. Aged, wet, dirty or other webbing behaves otherwise.",
      "Have the rig and its anchors checked by a competent rigger before anyone clips in.",
      "Follow local rules, and the wishes of the owner of the rock, the tree and the land.",
      "Use certified gear within its rating.",
  };
  static const auto with = [](const char* last) {
    std::vector<std::string> all = kAlways;
    all.emplace_back(last);
    return all;
  };
  static const std::vector<std::string> kLeftOut = with(
      "Falls and main failure are not in this report; `spanloom catch` or the page computes them. Flutter and twist of the webbing "
      "are in none of the numbers.");
  static const std::vector<std::string> kComputed = with(
      "Not computed: flutter and twist of the webbing, the body hitting the line, and whatever parts a walker from the "
      "leash.");
  return falls == Falls::computed ? kComputed : kLeftOut;
}

}  // namespace spanloom
