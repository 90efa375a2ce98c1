#include "events/anchor_states.h"

#include <fmt/format.h>

namespace spanloom {
namespace {

// Each leg by itself where it is worse.
void take_worse(std::optional<LegsUnderLoad>& worst, const std::optional<LegsUnderLoad>& other) {
  if (!worst || !other) {
    worst.reset();
    return;
  }
  for (std::size_t leg = 0; leg < worst->legs.size(); ++leg) {
    if (other->legs[leg].tension > worst->legs[leg].tension) worst->legs[leg] = other->legs[leg];
  }
  if (norm(other->shift) > norm(worst->shift)) worst->shift = other->shift;
  if (other->residual > worst->residual) worst->residual = other->residual;
}

void load(AnchorState& state, const AnchorSpec& anchor, const Vec3& force, bool first) {
  LegsOutcome all = load_legs(anchor, force);
  if (!all.loads && state.why.empty()) state.why = all.why_not;
  state.cannot_hold = state.cannot_hold || all.cannot_hold;
  if (first) state.legs = all.loads;
  else take_worse(state.legs, all.loads);
  for (std::size_t gone = 0; gone < anchor.points.size() && anchor.points.size() > 1; ++gone) {
    const std::optional<LegsUnderLoad> rest = load_legs(anchor, force, gone).loads;
    if (first) state.without.push_back(rest);
    else take_worse(state.without[gone], rest);
  }
}

// @param forces  of one state that can come in several ways [N]
AnchorState state_of(const AnchorSpec& anchor, std::string name, const std::vector<Vec3>& forces) {
  AnchorState state;
  state.state = std::move(name);
  bool first = true;
  for (const Vec3& force : forces) {
    if (norm(force) > norm(state.force)) state.force = force;
    if (!anchor.points.empty()) load(state, anchor, force, first);
    first = false;
  }
  return state;
}

const WalkerPlace* greatest_of(const std::vector<const std::vector<WalkerPlace>*>& lists, bool near) {
  const WalkerPlace* worst = nullptr;
  const auto load = [near](const WalkerPlace& place) { return norm(near ? place.near.total() : place.far.total()); };
  for (const auto* places : lists) {
    for (const WalkerPlace& place : *places) {
      if (!worst || load(place) > load(*worst)) worst = &place;
    }
  }
  return worst;
}

// A fall to one side may as well go to the other.
std::vector<Vec3> to_both_sides(const std::vector<FallResult>& falls, bool near) {
  std::vector<Vec3> forces;
  for (const FallResult& fall : falls) {
    if (fall.lost) continue;
    const Vec3& force = near ? fall.near : fall.far;
    forces.push_back(force);
    if (force.y != 0.0) forces.push_back({force.x, -force.y, force.z});
  }
  return forces;
}

}  // namespace

std::vector<AnchorState> anchor_states(const Rig& rig, const Plan& plan, const CatchReport& report, AnchorEnd end, UnitSystem units) {
  const bool near = end == AnchorEnd::near;
  const AnchorSpec& anchor = near ? rig.near_anchor : rig.far_anchor;
  std::vector<AnchorState> states;
  states.push_back(state_of(anchor, "standing", {near ? plan.standing.near.total() : plan.standing.far.total()}));
  const auto add_place = [&](const char* who, const WalkerPlace* place) {
    if (!place) return;
    states.push_back(state_of(anchor, fmt::format("{} at {}", who, quantity_text(place->position, Measure::length, units)),
                              {near ? place->near.total() : place->far.total()}));
  };
  add_place("walker", greatest_of({&plan.walker, &plan.extra, &plan.walker_other_joint}, near));
  add_place("two people", greatest_of({&plan.rescue}, near));
  if (plan.wind) add_place("wind, walker", &plan.wind->worst);
  const auto add_falls = [&](const char* name, const std::vector<FallResult>& falls) {
    const std::vector<Vec3> forces = to_both_sides(falls, near);
    if (!forces.empty()) states.push_back(state_of(anchor, name, forces));
  };
  add_falls("leash fall", report.leash_fall);
  add_falls("main failure", report.main_failure);
  return states;
}

}  // namespace spanloom
