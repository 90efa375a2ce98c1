#include "answers/motion_answers.h"

#include <algorithm>
#include <cmath>
#include <stdexcept>

#include "answers/asked_rig.h"
#include "answers/plan_answers.h"
#include "checks/catch_words.h"
#include "checks/check_catch.h"
#include "events/anchor_states.h"
#include "events/catch_report.h"
#include "events/fall.h"
#include "events/fall_line.h"
#include "files/catch_json.h"
#include "motion/shake_film.h"

namespace spanloom {
namespace {

constexpr double kFallFrame = 0.02;          // run_fall() keeps the line at multiples of this [s]

MovingRig demanded(MovingOutcome outcome) {
  if (!outcome.rig) throw NoAnswer(outcome.why);
  return std::move(*outcome.rig);
}

/// The line that a shake is of, as `spanloom shake` compares them.
MovingRig line_of(const Json& files, const std::string& which) {
  const RigFile file = asked_rig(files);
  MovingRig rig = demanded(moving_rig(file.rig));
  if (which == "rig") return rig;
  if (which == "even") return demanded(evenly_taped(rig));
  if (which == "bare") return demanded(without_loops(rig));
  throw std::invalid_argument("no line " + which);
}

Shake asked_shake(const Json& asked, const Rig& rig) {
  return {asked.at("frequency_Hz"), asked.at("place"),
          asked.at("direction") == "up" ? ShakeDirection::up : ShakeDirection::sideways, rig.shake.swing.value};
}

ShakeResult shaken(const MovingRig& line, const Shake& shake) {
  ShakeOutcome outcome = run_shake(line, shake);
  if (!outcome.result) throw NoAnswer(outcome.why.words);
  return std::move(*outcome.result);
}

Json over(const std::vector<LoopSwing>& loops) {
  Json out = Json::array();
  for (std::size_t k = 0; k < loops.size(); ++k) {
    if (loops[k].passes_over) out.push_back(k + 1);
  }
  return out;
}

Json numbers_of(const ShakeResult& result) {
  return {{"return_", finite(result.returned)},
          {"energy_share", finite(result.energy_share)},
          {"place_m", finite(result.place_m)},
          {"force_N", finite(result.force)},
          {"swing_m", finite(result.swing)},
          {"round_trip_s", finite(result.round_trip)},
          {"late_from_s", finite(result.late_from())},
          {"late_window_s", finite(result.late_window())},
          {"drift", finite(result.ledger.drift / result.ledger.put_in)},
          {"over", over(result.loops)}};
}

void add(std::vector<float>& column, const Vec3& p) {
  for (const double value : {p.x, p.y, p.z}) column.push_back(float(value));
}

std::vector<float> floats(const std::vector<double>& values) { return {values.begin(), values.end()}; }

/// The bar of webbing of the main nearest to a place.
std::size_t bar_near(const MovingRig& rig, double along) {
  const EndBars ends = end_bars(rig);
  std::size_t best = ends.main_near;
  for (std::size_t bar = ends.main_near; bar <= ends.main_far; ++bar) {
    if (std::abs(cut_place(rig, bar).along - along) < std::abs(cut_place(rig, best).along - along)) best = bar;
  }
  return best;
}

FallCase asked_fall(const Json& asked, const MovingRig& rig) {
  FallCase what;
  what.walker = rig.node_near(asked.at("walker_m"));
  what.step_off = asked.at("step_off") == "backwards" ? StepOff::backwards : StepOff::sideways;
  if (asked.at("kind") == "leash fall") {
    what.kind = FallKind::leash_fall;
    return what;
  }
  what.kind = FallKind::main_failure;
  what.cut = bar_near(rig, asked.at("cut_m"));
  const bool tear = asked.at("tapes") == "tear" && rig.rig.backup.joint == Joint::taped;
  what.tape_strength = tear ? rig.rig.backup.tape_strength.value_or(0.0) : kTapesHold;
  return what;
}

/// Forces stand whether the walker is held or not; the rest means something only where they are.
/// @param longest  that it was followed for at most [s]
Json numbers_of(const Rig& rig, const FallResult& fall, double longest) {
  const auto if_held = [&](double value) { return fall.lost ? Json(nullptr) : Json(finite(value)); };
  return {{"walker_m", finite(fall.walker_m)},
          {"cut_m", optional(fall.cut_m)},
          {"lost", fall.lost},
          {"fall_m", if_held(fall.fall)},
          {"body_N", if_held(fall.body)},
          {"backup_N", finite(fall.backup)},
          {"main_N", finite(fall.main)},
          {"near_N", finite(norm(fall.near))},
          {"far_N", finite(norm(fall.far))},
          {"clearance_m", fall.lost ? Json(nullptr) : optional(fall.clearance)},
          {"clear_height_m", if_held(fall.clear_height)},
          {"lowest_at_m", if_held(fall.lowest_at)},
          {"lowest_time_s", if_held(fall.lowest_time)},
          {"torn", fall.torn},
          {"tapes", fall.what.kind == FallKind::leash_fall ? Json(nullptr) : Json(tapes_word(rig, fall))},
          {"cut_short", !fall.lost && fall.time >= longest},
          {"in_anchor_zone", fall.in_anchor_zone},
          {"drift", fall.turned_over > 0.0 ? finite(fall.ledger.drift / fall.turned_over) : 0.0}};
}

/// The checks of a report that has this one fall: what it alone says.
std::vector<Check> checks_of(const Rig& rig, const Plan& plan, const FallResult& fall, UnitSystem units) {
  CatchReport report;
  (fall.what.kind == FallKind::main_failure ? report.main_failure : report.leash_fall) = {fall};
  report.tape_strength_known = rig.backup.tape_strength.has_value();
  report.search.events = 1;
  report.search.lost = fall.lost ? 1 : 0;
  report.near = anchor_states(rig, plan, report, AnchorEnd::near, units);
  report.far = anchor_states(rig, plan, report, AnchorEnd::far, units);
  std::vector<Check> checks = judge_catch(rig, report, units);
  std::erase_if(checks, [](const Check& check) {
    const bool says_nothing = !check.computed && check.verdict != Verdict::stop;
    return says_nothing || check.name == "catch_search";
  });
  return checks;
}

/// Leash force at the time of each frame; the path lies at equal times of its own.
std::vector<float> leash_by_frame(const FallResult& fall) {
  std::vector<float> out;
  std::size_t at = 0;
  for (const FallFrame& frame : fall.frames) {
    // The greatest since the frame before, so that no peak falls between two frames.
    double greatest = 0.0;
    for (; at < fall.path.size() && fall.path[at].time <= frame.time + 1e-9; ++at) greatest = std::max(greatest, fall.path[at].leash);
    out.push_back(float(greatest));
  }
  return out;
}

}  // namespace

std::string shake_answer(const Json& args) {
  const Json& asked = args.at("shake");
  const MovingRig line = line_of(args.at("files"), asked.at("line"));
  return numbers_of(shaken(line, asked_shake(asked, line.rig))).dump();
}

std::string shake_film_answer(const Json& args, const Tell& tell, Films& films) {
  const Json& asked = args.at("shake");
  const MovingRig line = line_of(args.at("files"), asked.at("line"));
  const ShakeFilmOutcome outcome = film_shake(
      line, asked_shake(asked, line.rig), {.duration = args.at("seconds"), .frame_every = args.at("frame_s"), .progress = tell});
  if (!outcome.film) throw NoAnswer(outcome.why);
  const ShakeFilm& film = *outcome.film;
  for (const auto& frame : film.places) {
    for (std::size_t i = 0; i < frame.size(); ++i) add(films[i < film.main_nodes ? "main" : "backup"], frame[i]);
  }
  films["backup"];  // empty without loops
  films["swing_m"] = floats(film.swing);
  films["at_place_m"] = floats(film.at_place);
  films["energy"] = floats(film.energy);
  return Json{{"numbers", numbers_of(film.result)},
              {"frame_s", film.frame_every},
              {"frames", film.places.size()},
              {"main_nodes", film.main_nodes},
              {"backup_nodes", line.line.backup_nodes()},
              {"tapes", line.tape_node}}.dump();
}

std::string fall_film_answer(const Json& args, Films& films) {
  const Json& asked = args.at("fall");
  const RigFile file = asked_rig(args.at("files"));
  const UnitSystem units = asked_units(args.at("units"));
  const Plan plan = planned(file.rig, {.units = units});
  const MovingRig line = demanded(moving_rig(file.rig, kToldMesh));
  const FallOutcome outcome = run_fall(line, asked_fall(asked, line), {.frame_every = kFallFrame, .longest = asked.at("seconds")});
  if (!outcome.result) throw NoAnswer(outcome.why);
  const FallResult& fall = *outcome.result;
  Json cut_after = Json::array();
  for (const FallFrame& frame : fall.frames) {
    for (const Vec3& node : frame.main) add(films["main"], node);
    for (const Vec3& node : frame.backup) add(films["backup"], node);
    for (const Vec3& point : {frame.hip, frame.ring}) add(films["body"], point);
    cut_after.push_back(frame.cut_after);
  }
  films["leash_N"] = leash_by_frame(fall);
  const bool any = !fall.frames.empty();
  return Json{{"numbers", numbers_of(file.rig, fall, asked.at("seconds"))},
              {"checks", checks_json(checks_of(file.rig, plan, fall, units))},
              {"frame_s", kFallFrame},
              {"frames", fall.frames.size()},
              {"main_nodes", any ? fall.frames[0].main.size() : 0},
              {"backup_nodes", any ? fall.frames[0].backup.size() : 0},
              {"cut_after", std::move(cut_after)},
              {"body_limit_N", file.rig.limits.body_force.value},
              {"body_limit_assumed", file.rig.limits.body_force.assumed},
              {"leash_m", file.rig.walker.leash.value},
              {"foot_to_hip_m", file.rig.walker.foot_to_hip.value}}.dump();
}

std::string falls_answer(const Json& args, const Tell& tell) {
  const RigFile file = asked_rig(args.at("files"));
  const UnitSystem units = asked_units(args.at("units"));
  const Plan plan = planned(file.rig, {.units = units});
  CatchReportOptions options;
  options.quick = true;
  options.units = units;
  options.progress = [&](std::size_t done, std::size_t all) {
    tell(done, all);
    return true;
  };
  const CatchReportOutcome outcome = make_catch_report(file.rig, plan, options);
  if (!outcome.report) throw NoAnswer(outcome.why);
  return catch_json(file.rig, *outcome.report, {judge(file.rig, plan, units), judge_catch(file.rig, *outcome.report, units)});
}

}  // namespace spanloom
