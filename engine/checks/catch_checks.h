// The parts of judge_catch(), and what they share.
#pragma once

#include <string>
#include <vector>

#include "checks/verdicts.h"
#include "events/catch_report.h"

namespace spanloom {

struct JudgedCatch {
  const Rig& rig;
  const CatchReport& report;
  UnitSystem units;
};

/// What a check says and stays when no fall gave it a number.
void leave_without_falls(const JudgedCatch& of, FallKind kind, Check& check);
/// Enters every input of a fall that is our default among the assumed.
void add_fall_inputs(const JudgedCatch& of, FallKind kind, Check& check);

/// Whether anything holds the walker, force on the body, the leash.
std::vector<Check> check_caught_body(const JudgedCatch& of);
/// Backup in a main failure, main in a leash fall.
std::vector<Check> check_caught_line(const JudgedCatch& of);
/// Anchors as wholes and their points, all there and one gone.
std::vector<Check> check_caught_anchors(const JudgedCatch& of);
/// Ground and walls.
std::vector<Check> check_caught_room(const JudgedCatch& of);

}  // namespace spanloom
