// Room for falls: height over the ground, and walls.
#include <algorithm>
#include <utility>

#include <fmt/format.h>

#include "checks/catch_checks.h"
#include "checks/catch_words.h"
#include "checks/distance.h"

namespace spanloom {
namespace {

const char* name_of(FallKind kind) { return kind == FallKind::main_failure ? "main failure" : "leash fall"; }

// Why no fall of a list has a height over the ground.
std::string why_no_ground(const JudgedCatch& of, const std::vector<FallResult>& falls, FallKind kind) {
  if (falls.empty()) return fmt::format("Not known: no {} was computed.", name_of(kind));
  if (of.rig.site.ground.empty()) return "Not known: no ground is given ([site] ground).";
  if (lost_in(falls) == falls.size()) return "No number: nothing holds the walker.";
  const bool all_in_zones = std::all_of(falls.begin(), falls.end(),
                                        [](const FallResult& fall) { return fall.lost || fall.in_anchor_zone; });
  return all_in_zones ? "Not known: every walker who is told started in an anchor zone, where no height is told."
                      : "Not known: the ground that is given does not reach below these falls ([site] ground).";
}

Check ground_check(const JudgedCatch& of, FallKind kind) {
  const bool failure = kind == FallKind::main_failure;
  const std::vector<FallResult>& falls = failure ? of.report.main_failure : of.report.leash_fall;
  const FallResult* lowest =
      held_fall_at(falls, failure ? of.report.worst_failure.clearance : of.report.worst_leash_fall.clearance);
  LeastDistance least;
  if (lowest != nullptr) least.meet(lowest->clearance, event_words(of.rig, *lowest, of.units));
  const std::string missing = why_no_ground(of, falls, kind);
  const DistanceLimit limit{failure ? "catch_ground_main_failure" : "catch_ground_leash_fall",
                            failure ? "Main failure: feet over the ground" : "Leash fall: feet over the ground",
                            of.rig.limits.reserve, "limits.reserve", missing.c_str(),
                            failure ? "Rig higher, or give less slack and look at the force then."
                                    : "Rig higher or tighter, or shorten the leash."};
  Check check = distance_check(least, limit, of.units);
  if (check.computed && check.value < 0.0) {
    check.words += " Below 0 the walker hits the ground; after that the numbers go on as if there were none.";
  }
  if (check.computed) check.words += " Not told for walkers who start in an anchor zone: the ground is near there.";
  // In a zone no height is told, so a zone nobody stated makes the number unsure.
  if (of.rig.limits.anchor_zone.assumed) {
    check.assumed.push_back(assumed_length("limits.anchor_zone", of.rig.limits.anchor_zone, of.units));
  }
  add_fall_inputs(of, kind, check);
  return check;
}

// What is below the feet is beside the hip as soon as they are under it.
bool is_the_ground_hit(const FallResult* fall) {
  return fall != nullptr && fall->wall && *fall->wall <= 0.0 && fall->clearance && *fall->clearance < 0.0;
}

// Of two as near, the one that meets a wall is told: the ground has a check of its own.
const FallResult* nearest_to_wall(const CatchReport& report) {
  const FallResult* nearest = nullptr;
  const auto nearer = [](const FallResult& a, const FallResult& b) {
    return *a.wall != *b.wall ? *a.wall < *b.wall : is_the_ground_hit(&b) && !is_the_ground_hit(&a);
  };
  for (const auto* falls : {&report.main_failure, &report.leash_fall}) {
    for (const FallResult& fall : *falls) {
      if (!fall.lost && fall.wall && (nearest == nullptr || nearer(fall, *nearest))) nearest = &fall;
    }
  }
  return nearest;
}

const char* cure_of_wall(const FallResult* fall) {
  if (is_the_ground_hit(fall)) {
    return "It is the ground that the feet of this fall hit, as the check of feet over the ground says: one cure for both.";
  }
  if (fall != nullptr && fall->what.kind == FallKind::leash_fall) {
    return "A shorter leash, anchors farther out, or a line rigged higher where it is ground that rises.";
  }
  return "Less backup slack near the anchors, anchors farther out, or a line rigged higher where it is ground that rises.";
}

Check wall_check(const JudgedCatch& of) {
  const FallResult* nearest = nearest_to_wall(of.report);
  LeastDistance least;
  if (nearest != nullptr) {
    least.meet(nearest->wall, fmt::format("{}, moving towards it at {}", event_words(of.rig, *nearest, of.units),
                                          quantity_text(nearest->wall_speed, Measure::speed, of.units)));
  }
  const DistanceLimit limit{"catch_wall", "Hip to ground or wall beside it, any fall", of.rig.limits.wall_reserve,
                            "limits.wall_reserve",
                            "Not known: no ground and no wall are given ([site] ground, [anchor.near] wall), or none is "
                            "beside the falls that are told.",
                            cure_of_wall(nearest)};
  Check check = distance_check(least, limit, of.units);
  if (check.computed && !is_the_ground_hit(nearest)) {
    if (check.value <= 0.0) {
      check.words += " The walker swings into it; after that the numbers go on as if it were not there.";
    }
    check.words += " It counts from the hip: half a body's width is not in it.";
  }
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
