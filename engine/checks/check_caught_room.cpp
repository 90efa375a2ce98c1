// Room for falls: height over the ground, and walls.
#include <utility>

#include <fmt/format.h>

#include "checks/catch_checks.h"
#include "checks/catch_words.h"
#include "checks/distance.h"

namespace spanloom {
namespace {

Check ground_check(const JudgedCatch& of, FallKind kind) {
  const bool failure = kind == FallKind::main_failure;
  const FallResult* lowest = failure ? held_fall_at(of.report.main_failure, of.report.worst_failure.clearance)
                                     : held_fall_at(of.report.leash_fall, of.report.worst_leash_fall.clearance);
  LeastDistance least;
  if (lowest != nullptr) least.meet(lowest->clearance, event_words(*lowest, of.units));
  const DistanceLimit limit{failure ? "catch_ground_main_failure" : "catch_ground_leash_fall",
                            failure ? "Main failure: feet over the ground" : "Leash fall: feet over the ground",
                            of.rig.limits.reserve, "limits.reserve",
                            "Not known: no ground is given ([site] ground), or nothing holds the walker.",
                            failure ? "Rig higher, or give less slack and look at the force then."
                                    : "Rig higher or tighter, or shorten the leash."};
  Check check = distance_check(least, limit, of.units);
  if (check.computed && check.value < 0.0) check.words += " Below 0 the walker hits the ground.";
  if (check.computed) check.words += " Walkers inside the anchor zones are not computed: the ground is near there.";
  // The zones are where no walker is put, so a zone nobody stated makes the number unsure.
  if (of.rig.limits.anchor_zone.assumed) {
    check.assumed.push_back(assumed_length("limits.anchor_zone", of.rig.limits.anchor_zone, of.units));
  }
  add_fall_inputs(of, kind, check);
  return check;
}

Check wall_check(const JudgedCatch& of) {
  LeastDistance least;
  for (const auto* falls : {&of.report.main_failure, &of.report.leash_fall}) {
    for (const FallResult& fall : *falls) {
      if (fall.lost) continue;
      least.meet(fall.wall, fmt::format("{}, moving towards it at {}", event_words(fall, of.units),
                                        quantity_text(fall.wall_speed, Measure::speed, of.units)));
    }
  }
  const DistanceLimit limit{"catch_wall", "Body to ground or wall beside it, any fall", of.rig.limits.wall_reserve,
                            "limits.wall_reserve",
                            "Not known: no ground and no wall are given ([site] ground, [anchor.near] wall).",
                            "A walker who swings in hits it: less slack near the anchors, or an anchor farther out."};
  Check check = distance_check(least, limit, of.units);
  for (const auto& [anchor, name] : {std::pair{&of.rig.near_anchor, "near"}, {&of.rig.far_anchor, "far"}}) {
    if (!anchor->wall && check.computed) check.assumed.push_back(fmt::format("anchor.{}.wall not given", name));
  }
  add_fall_inputs(of, FallKind::main_failure, check);
  return check;
}

}  // namespace

std::vector<Check> check_caught_room(const JudgedCatch& of) {
  return {ground_check(of, FallKind::main_failure), ground_check(of, FallKind::leash_fall), wall_check(of)};
}

}  // namespace spanloom
