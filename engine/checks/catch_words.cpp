#include "checks/catch_words.h"

#include <algorithm>

#include <fmt/format.h>

namespace spanloom {
namespace {

bool has_rings(const Rig& rig) { return rig.backup.joint == Joint::ring; }

const char* step_words(StepOff step_off) {
  switch (step_off) {
    case StepOff::sideways: return "steps off sideways";
    case StepOff::backwards: return "steps off backwards, towards the nearer anchor";
    case StepOff::from_sitting: return "drops off from sitting";
  }
  return "falls";
}

std::string ring_words(const Rig& rig, RingRun run) {
  if (run == RingRun::runs) return "ring runs";
  return has_rings(rig) ? "ring caught between its slider rings" : "ring caught between tapes";
}

}  // namespace

const char* tapes_word(const Rig& rig, const FallResult& fall) {
  if (has_rings(rig)) return "rings";
  const bool none_holds = fall.what.tape_strength <= 0.0;
  return none_holds || fall.torn > 0 ? "tear" : "hold";
}

std::string cut_words(const FallResult& fall, UnitSystem units) {
  if (!fall.cut_m) return {};
  if (fall.cut_words.rfind("at ", 0) == 0) return fall.cut_words;
  const std::string where = "at " + quantity_text(*fall.cut_m, Measure::length, units);
  return fall.cut_words.empty() ? where : fmt::format("{} ({})", where, fall.cut_words);
}

std::string event_words(const Rig& rig, const FallResult& fall, UnitSystem units) {
  const std::string walker = fmt::format("walker at {}", quantity_text(fall.walker_m, Measure::length, units));
  const std::string lost = fall.lost ? ", nothing holds the walker" : "";
  if (fall.what.kind == FallKind::leash_fall) {
    return fmt::format("{} {}, {}{}", walker, step_words(fall.what.step_off), ring_words(rig, fall.what.ring), lost);
  }
  const std::string posture = fall.what.posture == Posture::standing ? "" : fmt::format(" {}", name_of(fall.what.posture));
  const std::string joint = has_rings(rig) ? "backup in rings" : fmt::format("tapes {}", tapes_word(rig, fall));
  return fmt::format("{}{}, main fails {}, {}{}", walker, posture, cut_words(fall, units), joint, lost);
}

bool main_tugs(const FallResult& fall) { return !fall.lost && fall.what.cut && fall.body > fall.backup; }

const FallResult* fall_at(const std::vector<FallResult>& falls, std::size_t index) {
  return index < falls.size() ? &falls[index] : nullptr;
}

const FallResult* held_fall_at(const std::vector<FallResult>& falls, std::size_t index) {
  const FallResult* fall = fall_at(falls, index);
  return fall != nullptr && !fall->lost ? fall : nullptr;
}

std::size_t lost_in(const std::vector<FallResult>& falls) {
  return std::size_t(std::count_if(falls.begin(), falls.end(), [](const FallResult& fall) { return fall.lost; }));
}

std::size_t lost_falls(const CatchReport& report) {
  return std::max(report.search.lost, lost_in(report.main_failure) + lost_in(report.leash_fall));
}

std::optional<double> clear_height_told(const CatchReport& report) {
  if (report.stopped || lost_falls(report) > 0 || !(report.clear_height_needed > 0.0)) return std::nullopt;
  return report.clear_height_needed;
}

}  // namespace spanloom
