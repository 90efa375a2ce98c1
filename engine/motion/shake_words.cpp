#include "motion/shake_words.h"

#include <algorithm>
#include <cmath>
#include <numbers>

#include <fmt/format.h>
#include <fmt/ranges.h>

namespace spanloom {
namespace {

// Loops snap, so that differences of a hair change a return: less than this is no difference.
constexpr double kNoDifference = 0.03;        // of a mean over frequencies and places
constexpr double kNoDifferenceAtOne = 0.08;   // of a mean over the places at one frequency
constexpr double kEven = 0.05;                // bays and drops that differ less are called even
constexpr double kAlikeDrops = 0.15;
constexpr double kNearlyLevel = 75.0 / 180.0 * std::numbers::pi;  // [rad]

int percent(double share) { return int(std::lround(100.0 * share)); }

std::string places_from_near(const ShakeResult& result, UnitSystem units) {
  return fmt::format("{} from the near anchor ({} % of the gap)", quantity_text(result.place_m, Measure::length, units),
                     percent(result.shake.place));
}

// Mean of a line's returns over the places at one frequency; empty if one is missing.
std::optional<double> mean_at(const ShakeReport& report, ComparedLine line, double frequency, ShakeDirection direction) {
  const std::optional<ReturnOverPlaces> over = report.over_places(line, frequency, direction);
  if (!over || over->places != report.places.size()) return std::nullopt;
  return over->mean;
}

const ComparedState* state_of(const ShakeReport& report, ComparedLine line) {
  for (const ComparedState& state : report.lines) {
    if (state.line == line && state.there) return &state;
  }
  return nullptr;
}

void say_shake(ShakeReport& report, const MovingRig& rig, UnitSystem units) {
  double hardest = 0.0;
  for (const ReportedShake& shake : report.shakes) {
    if (shake.line == ComparedLine::rig) hardest = std::max(hardest, shake.result.force);
  }
  report.sentences.push_back(fmt::format(
      "Each shake: one push to and fro at 15, 35 or 50 % of the gap with 0.5 to 4 Hz, so hard that the line first swings {} "
      "there (at most {}), nobody on the line. Return: how much it swings two round trips ({:.2f} s) later, against while it was shaken.",
      quantity_text(rig.rig.shake.swing.value, Measure::small_length, units), quantity_text(hardest, Measure::force, units),
      2.0 * rig.round_trip));
}

void say_worst(ShakeReport& report, UnitSystem units) {
  if (!report.worst) return;
  const ReportedShake& worst = report.shakes[*report.worst];
  const ShakeResult& result = worst.result;
  const Shake& shake = result.shake;
  std::string words = fmt::format("{}: shaken {} at {:.3g} Hz, {}, {} % returns", report.quick ? "Most returns here" : "Worst",
                                  name_of(shake.direction), shake.frequency, places_from_near(result, units), percent(result.returned));
  if (result.returned > 1.0) {
    words += fmt::format(" (more than 100 %: the swing was still spreading along the line; {} % of the energy is left)", percent(result.energy_share));
  }
  const ReportedShake* even = report.find(ComparedLine::even, shake.frequency, shake.place, shake.direction);
  const ReportedShake* bare = report.find(ComparedLine::bare, shake.frequency, shake.place, shake.direction);
  if (even != nullptr) words += fmt::format("; evenly taped {} %", percent(even->result.returned));
  if (bare != nullptr) words += fmt::format("; without loops {} %", percent(bare->result.returned));
  report.sentences.push_back(words + ".");
  if (!worst.settling) return;
  report.sentences.push_back(worst.settling->settles
      ? fmt::format("There the line takes {:.1f} s after that shake to stay below a twentieth of its first swing.", worst.settling->time)
      : fmt::format("There the line does not stay below a twentieth of its first swing within {:.0f} s after that shake.", kLongestSettling));
}

bool is_even(const ShakeReport& report) { return report.unevenness.bays < kEven && report.unevenness.drops < kEven; }

void say_against_even(ShakeReport& report, ShakeDirection direction) {
  const ComparedState *rig = state_of(report, ComparedLine::rig), *even = state_of(report, ComparedLine::even);
  const ComparedState* bare = state_of(report, ComparedLine::bare);
  const bool sideways = direction == ShakeDirection::sideways;
  if (sideways && rig != nullptr) {
    report.headline = fmt::format("Shaken sideways, over all frequencies and places {} % comes back.", percent(rig->mean_sideways));
  }
  if (rig == nullptr || even == nullptr) return;
  const double ours = sideways ? rig->mean_sideways : rig->mean_up, theirs = sideways ? even->mean_sideways : even->mean_up;
  std::string words = fmt::format("Shaken {}, over all frequencies and places {} % comes back", name_of(direction), percent(ours));
  const double gain = theirs - ours;
  if (std::abs(gain) < kNoDifference) {
    words += fmt::format(", as on the same line evenly taped ({} %)", percent(theirs));
    words += is_even(report) ? ": it is evenly taped as it is" : ": in the mean this spacing makes no difference";
  } else {
    words += fmt::format(", {} than on the same line evenly taped ({} %)", gain > 0.0 ? "less" : "more", percent(theirs));
  }
  if (bare != nullptr) words += fmt::format("; without loops {} %", percent(sideways ? bare->mean_sideways : bare->mean_up));
  report.sentences.push_back(words + ".");
  if (sideways) report.headline = report.sentences.back();
  if (is_even(report)) return;
  std::vector<std::string> same, more;
  for (const double frequency : report.frequencies) {
    const auto a = mean_at(report, ComparedLine::rig, frequency, direction);
    const auto b = mean_at(report, ComparedLine::even, frequency, direction);
    if (!a || !b) continue;
    if (*a - *b >= kNoDifferenceAtOne) more.push_back(fmt::format("{:.3g}", frequency));
    else if (*b - *a < kNoDifferenceAtOne) same.push_back(fmt::format("{:.3g}", frequency));
  }
  if (!more.empty()) report.sentences.push_back(fmt::format("Shaken {}, more than evenly taped comes back at {} Hz.", name_of(direction), fmt::join(more, ", ")));
  if (!same.empty()) {
    report.sentences.push_back(fmt::format("Shaken {}, it makes no difference (less than {} points) at {} Hz.", name_of(direction),
                                           percent(kNoDifferenceAtOne), fmt::join(same, ", ")));
  }
}

void say_unevenness(ShakeReport& report) {
  std::string words = fmt::format("Bays typically differ by {} % from their mean, drops by {} %.", percent(report.unevenness.bays), percent(report.unevenness.drops));
  words += report.unevenness.drops < kAlikeDrops
      ? " Loops of one drop swing alike however unlike their bays. To let less come back, give neighbouring bays different drops (drop "
        "or slack may be a list, one for each bay) and shake again."
      : " It is the differing drops that spread how the loops swing.";
  report.sentences.push_back(words);
}

// "the loop of bay 4 passes", "the loops of bays 4, 7 pass", "24 of 32 loops pass".
std::string which(const std::vector<std::size_t>& bays, std::size_t all, const char* one, const char* many) {
  constexpr std::size_t kMostNamed = 6;
  if (bays.size() == 1) return fmt::format("the loop of bay {} {}", bays[0], one);
  if (bays.size() > kMostNamed) return fmt::format("{} of {} loops {}", bays.size(), all, many);
  return fmt::format("the loops of bays {} {}", fmt::join(bays, ", "), many);
}

// The slowest sideways shake of the rig in which a loop passes over [Hz].
std::optional<double> slowest_over(const ShakeReport& report) {
  std::optional<double> slowest;
  for (const ReportedShake& shake : report.shakes) {
    const ShakeResult& result = shake.result;
    if (shake.line != ComparedLine::rig || result.shake.direction != ShakeDirection::sideways) continue;
    const bool over = std::any_of(result.loops.begin(), result.loops.end(), [](const LoopSwing& loop) { return loop.passes_over; });
    if (over && (!slowest || result.shake.frequency < *slowest)) slowest = result.shake.frequency;
  }
  return slowest;
}

void say_swings(ShakeReport& report) {
  for (const SwingCase& swing : report.swings) {
    if (swing.why_not) {
      report.notes.push_back(fmt::format("{}: swing of the loops not computed: {}.", swing.what, *swing.why_not));
      continue;
    }
    if (swing.loops.empty()) continue;
    const SwungLoops swung = swung_loops(swing);
    const int degrees = int(std::lround(swung.greatest * 180.0 / std::numbers::pi));
    std::string words = fmt::format("{} the loop of bay {} swings farthest, {} degrees from hanging (90: level with the main)",
                                    swing.what, swung.greatest_bay, degrees);
    if (!swung.over.empty()) words += fmt::format("; {} over the main and may wrap it", which(swung.over, swing.loops.size(), "passes", "pass"));
    else if (!swung.far.empty()) words += fmt::format("; {} above the main but none passes over", which(swung.far, swing.loops.size(), "rises", "rise"));
    else if (swung.greatest > kNearlyLevel) words += "; it comes nearly level, little is missing";
    else words += "; none rises above the main";
    if (const auto from = swing.name == "shakes" ? slowest_over(report) : std::nullopt) {
      words += fmt::format(", the first at {:.3g} Hz", *from);
    }
    report.swing_sentences.push_back(words + ".");
  }
}

void note_assumptions(ShakeReport& report, const MovingRig& rig, UnitSystem units) {
  const Rig& asked = rig.rig;
  if (asked.shake.swing.assumed) {
    report.notes.push_back(fmt::format("First swing of {} assumed: [shake] swing is not given.",
                                       quantity_text(asked.shake.swing.value, Measure::small_length, units)));
  }
  if (asked.shake.bounce.assumed && !report.swings.empty() && report.swings.back().name == "bounce") {
    report.notes.push_back(fmt::format("Bounce of {} assumed: [shake] bounce is not given.",
                                       quantity_text(asked.shake.bounce.value, Measure::small_length, units)));
  }
  for (const Webbing& webbing : asked.webbings) {
    if (webbing.generic) {
      report.notes.push_back(fmt::format("{}: generic handbook data of its fibre, not of this webbing.", webbing.name));
    }
    if (!webbing.loss) {
      report.notes.push_back(fmt::format("{}: no loss given, so none is computed; a real webbing calms the line more.", webbing.name));
    }
    if (webbing.thickness.assumed || webbing.width.assumed) {
      report.notes.push_back(fmt::format("{}: width or thickness is a default; air drag rests on it.", webbing.name));
    }
  }
  if (asked.backup.joint == Joint::ring) {
    report.notes.push_back("Slider rings: the backup is held at every ring where it hangs when standing; it does not run in motion.");
  }
  for (const ComparedState& state : report.lines) {
    if (!state.there) report.notes.push_back(fmt::format("Compared line \"{}\" left out: {}.", name_of(state.line), state.why_not));
  }
  report.notes.push_back(fmt::format("Loops snap tight and slack: two shakes that differ by a hair may return some 10 points more or less, "
                                     "means over all shakes differ by less than {} points. Compare the means first.", percent(kNoDifference)));
  report.notes.push_back("Flutter and twist of the webbing are not computed.");
  if (report.stopped) report.notes.push_back("Stopped before the end: these are the shakes that were done.");
}

}  // namespace

void say(ShakeReport& report, const MovingRig& rig, UnitSystem units) {
  if (!report.stopped) {  // from half the shakes nothing follows
    say_shake(report, rig, units);
    say_against_even(report, ShakeDirection::sideways);
    say_against_even(report, ShakeDirection::up);
    say_worst(report, units);
    say_unevenness(report);
    say_swings(report);
  }
  note_assumptions(report, rig, units);
}

}  // namespace spanloom
