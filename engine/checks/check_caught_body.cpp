// Whether anything holds the walker, what the catch puts on the body, and what the leash has left.
#include <algorithm>

#include <fmt/format.h>

#include "checks/catch_checks.h"
#include "checks/catch_words.h"
#include "checks/run_strength.h"

namespace spanloom {
namespace {

Check held_check(const JudgedCatch& of) {
  const std::size_t count = lost_falls(of.report);
  Check check{"catch_held", "Falls in which nothing holds the walker", double(count), 0.0, "falls"};
  check.at_most = true;
  const Stated<LeashRing>& ring = of.rig.walker.leash_ring;
  if (ring.assumed) check.assumed.push_back("walker.leash_ring = both");
  if (ring.value == LeashRing::around_main) {
    check.verdict = Verdict::stop;
    check.words = "The leash ring runs around the main alone: when the main breaks, the ring runs off its end and nothing "
                  "holds the walker. Put the ring around main and backup.";
    return check;
  }
  if (count == 0) {
    check.words = "The leash ring runs around main and backup, and stayed on them in every fall told here.";
    if (of.report.main_failure.empty() || of.report.leash_fall.empty()) leave_open(check);
    return check;
  }
  const auto& falls = lost_in(of.report.main_failure) > 0 ? of.report.main_failure : of.report.leash_fall;
  const auto first = std::find_if(falls.begin(), falls.end(), [](const FallResult& fall) { return fall.lost; });
  check.verdict = Verdict::stop;
  check.words = "The leash ring leaves the line";
  check.words += first == falls.end() ? ", and nothing holds the walker."
                                      : fmt::format(": {}.", event_words(of.rig, *first, of.units));
  return check;
}

const char* cure_of(FallKind kind, const FallResult& worst) {
  if (main_tugs(worst)) return " Tie the hardware of the main back to something sound, so that it does not fly.";
  return kind == FallKind::main_failure ? " A backup or a leash that stretches more catches softer."
                                        : " A shorter leash, or one that stretches more, catches softer.";
}

Check body_check(const JudgedCatch& of, FallKind kind) {
  const bool failure = kind == FallKind::main_failure;
  Check check{failure ? "catch_body_main_failure" : "catch_body_leash_fall",
              fmt::format("{}: greatest force on the body", failure ? "Main failure" : "Leash fall"), 0.0,
              of.rig.limits.body_force.value, "N"};
  check.at_most = true;
  if (of.rig.limits.body_force.assumed) {
    check.assumed.push_back("limits.body_force = " + quantity_text(check.limit, Measure::force, of.units));
  }
  add_fall_inputs(of, kind, check);
  const FallResult* worst = failure ? held_fall_at(of.report.main_failure, of.report.worst_failure.body)
                                    : held_fall_at(of.report.leash_fall, of.report.worst_leash_fall.body);
  if (worst == nullptr) {
    leave_without_falls(of, kind, check);
    return check;
  }
  check.value = worst->body;
  check.verdict = check.value > check.limit ? Verdict::stop : Verdict::ok;
  check.words = fmt::format("{}: {}. 6 kN is what EN 355 lets an energy absorber put on a body in work at height; it is "
                            "borrowed to compare with, no figure is published for highlines.",
                            quantity_text(worst->body, Measure::force, of.units), event_words(of.rig, *worst, of.units));
  if (main_tugs(*worst)) {
    check.words += " The body feels more than the backup carries: the loose main tugs at the leash ring as it shoots "
                   "through. How hard is a matter of chance.";
  }
  if (check.verdict == Verdict::stop) check.words += cure_of(kind, *worst);
  return check;
}

Check leash_check(const JudgedCatch& of) {
  Check check;
  check.name = "catch_leash_strength";
  check.title = "Leash: strength left at its ends / greatest force on the body in any fall";
  add_ratio_limit(of.rig, check);
  const Walker& walker = of.rig.walker;
  if (walker.leash_keeps.assumed) {
    check.assumed.push_back(fmt::format("walker.leash_keeps = {:.0f} %", 100.0 * walker.leash_keeps.value));
  }
  add_fall_inputs(of, FallKind::main_failure, check);
  const FallResult* greatest = held_fall_at(of.report.main_failure, of.report.worst_failure.body);
  const FallResult* leash_fall = held_fall_at(of.report.leash_fall, of.report.worst_leash_fall.body);
  if (greatest == nullptr || (leash_fall != nullptr && leash_fall->body > greatest->body)) greatest = leash_fall;
  if (greatest == nullptr || !(greatest->body > 0.0)) {
    leave_without_falls(of, FallKind::leash_fall, check);
    return check;
  }
  const Webbing webbing = walker.leash_webbing ? of.rig.webbings[*walker.leash_webbing] : generic_leash();
  const double left = webbing.strength * walker.leash_keeps.value;
  check.value = left / greatest->body;
  check.verdict = check.value < check.limit ? Verdict::stop : Verdict::ok;
  check.words = fmt::format("{}: {} left of {} against {} ({}).", webbing.name,
                            quantity_text(left, Measure::force, of.units),
                            quantity_text(webbing.strength, Measure::force, of.units),
                            quantity_text(greatest->body, Measure::force, of.units), event_words(of.rig, *greatest, of.units));
  if (check.verdict == Verdict::stop) check.words += " Use a stronger leash or better ends.";
  return check;
}

}  // namespace

std::vector<Check> check_caught_body(const JudgedCatch& of) {
  return {held_check(of), body_check(of, FallKind::main_failure), body_check(of, FallKind::leash_fall), leash_check(of)};
}

}  // namespace spanloom
