#include "events/anchor_states.h"

#include <fmt/format.h>

namespace spanloom {
namespace {

AnchorState state_of(const AnchorSpec& anchor, std::string name, const Vec3& force) {
  AnchorState state;
  state.state = std::move(name);
  state.force = force;
  if (anchor.points.empty()) return state;
  LegsOutcome all = load_legs(anchor, force);
  state.legs = std::move(all.loads);
  state.why = std::move(all.why_not);
  for (std::size_t gone = 0; gone < anchor.points.size() && anchor.points.size() > 1; ++gone) {
    state.without.push_back(load_legs(anchor, force, gone).loads);
  }
  return state;
}

}  // namespace

std::vector<AnchorState> anchor_states(const Rig& rig, const Plan& plan, const CatchReport& report, AnchorEnd end, UnitSystem units) {
  const bool near = end == AnchorEnd::near;
  const AnchorSpec& anchor = near ? rig.near_anchor : rig.far_anchor;
  const auto at = [&](double along) { return quantity_text(along, Measure::length, units); };
  std::vector<AnchorState> states;
  states.push_back(state_of(anchor, "standing", near ? plan.standing.near.total() : plan.standing.far.total()));
  const WalkerPlace* worst = nullptr;
  const auto load = [near](const WalkerPlace& place) { return near ? place.near.total() : place.far.total(); };
  for (const auto* places : {&plan.walker, &plan.extra, &plan.walker_other_joint}) {
    for (const WalkerPlace& place : *places) {
      if (!worst || norm(load(place)) > norm(load(*worst))) worst = &place;
    }
  }
  if (worst) states.push_back(state_of(anchor, "walker at " + at(worst->position), load(*worst)));
  const auto add_fall = [&](const char* name, const std::vector<FallResult>& falls, std::size_t index) {
    if (falls.empty() || falls[index].lost) return;
    states.push_back(state_of(anchor, name, near ? falls[index].near : falls[index].far));
  };
  add_fall("leash fall", report.leash_fall, near ? report.worst_leash_fall.near : report.worst_leash_fall.far);
  add_fall("main failure", report.main_failure, near ? report.worst_failure.near : report.worst_failure.far);
  return states;
}

}  // namespace spanloom
