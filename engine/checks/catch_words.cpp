#include "checks/catch_words.h"

#include <fmt/format.h>

namespace spanloom {

const char* tapes_word(const FallResult& fall) {
  const bool none_holds = fall.what.tape_strength <= 0.0;
  return none_holds || fall.torn > 0 ? "tear" : "hold";
}

std::string cut_words(const FallResult& fall, UnitSystem units) {
  if (!fall.cut_m) return {};
  if (fall.cut_words.rfind("at ", 0) == 0) return fall.cut_words;
  const std::string where = "at " + quantity_text(*fall.cut_m, Measure::length, units);
  return fall.cut_words.empty() ? where : fmt::format("{} ({})", where, fall.cut_words);
}

std::string event_words(const FallResult& fall, UnitSystem units) {
  const std::string walker = fmt::format("walker at {}", quantity_text(fall.walker_m, Measure::length, units));
  const std::string lost = fall.lost ? ", nothing holds the walker" : "";
  if (fall.what.kind == FallKind::main_failure) {
    const char* posture = fall.what.posture == Posture::standing ? "" : name_of(fall.what.posture);
    return fmt::format("{}{}{}, main fails {}, tapes {}{}", walker, *posture == '\0' ? "" : " ", posture,
                       cut_words(fall, units), tapes_word(fall), lost);
  }
  const char* step = fall.what.step_off == StepOff::sideways    ? "steps off sideways"
                     : fall.what.step_off == StepOff::backwards ? "steps off backwards"
                                                                : "drops off from sitting";
  const char* ring = fall.what.ring == RingRun::runs ? "ring runs" : "ring caught between tapes";
  return fmt::format("{} {}, {}{}", walker, step, ring, lost);
}

const FallResult* fall_at(const std::vector<FallResult>& falls, std::size_t index) {
  return index < falls.size() ? &falls[index] : nullptr;
}

const FallResult* held_fall_at(const std::vector<FallResult>& falls, std::size_t index) {
  const FallResult* fall = fall_at(falls, index);
  return fall != nullptr && !fall->lost ? fall : nullptr;
}

}  // namespace spanloom
