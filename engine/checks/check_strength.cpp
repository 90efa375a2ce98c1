#include "checks/check_strength.h"

#include <algorithm>
#include <iterator>

#include <fmt/format.h>

#include "checks/run_strength.h"

namespace spanloom {
namespace {

enum class OfRun { main, backup };

std::vector<PieceForce> forces_of(const Plan& plan, OfRun run) {
  std::vector<PieceForce> forces;
  std::copy_if(plan.forces.begin(), plan.forces.end(), std::back_inserter(forces),
               [&](const PieceForce& force) { return force.on_backup == (run == OfRun::backup); });
  return forces;
}

PulledRun main_of(const Rig& rig, const Plan& plan, UnitSystem units) {
  PulledRun of{rig, rig.main.run, "main", "Main", units, forces_of(plan, OfRun::main)};
  of.webbing_cure = " Rig less tension, better ends or a stronger main.";
  of.link_cure = " Use a stronger one or less tension.";
  return of;
}

PulledRun backup_of(const Rig& rig, const Plan& plan, UnitSystem units) {
  PulledRun of{rig, rig.backup.run, "backup", "Backup", units, forces_of(plan, OfRun::backup)};
  of.pull = Pull::hanging;
  of.remark = " That is all it carries while the main holds. Its real load is a main failure, which `spanloom catch` or the page "
              "computes.";
  of.webbing_cure = " Ask for more slack or a stronger backup.";
  of.link_cure = " Use a stronger one or less tension.";
  return of;
}

struct GreatestLoad {
  double force = 0.0;  // [N]
  std::string state;
};

GreatestLoad greatest_load(const Plan& plan, AnchorEnd side, UnitSystem units) {
  GreatestLoad out;
  const auto meet = [&](const AnchorLoad& near, const AnchorLoad& far, const std::string& state) {
    const double force = norm(side == AnchorEnd::near ? near.total() : far.total());
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

}  // namespace

std::vector<Check> check_strength(const Rig& rig, const Plan& plan, UnitSystem units) {
  std::vector<Check> checks = strengths(main_of(rig, plan, units));
  for (Check& check : strengths(backup_of(rig, plan, units))) checks.push_back(std::move(check));
  return checks;
}

std::vector<Check> check_anchors(const Rig& rig, const Plan& plan, UnitSystem units) {
  const GreatestLoad near = greatest_load(plan, AnchorEnd::near, units), far = greatest_load(plan, AnchorEnd::far, units);
  return {anchor_strength(rig, "near", near.force, near.state, units),
          anchor_strength(rig, "far", far.force, far.state, units)};
}

}  // namespace spanloom
