#include "spacing/space_words.h"

#include <algorithm>
#include <cmath>

#include <fmt/format.h>

#include "spacing/space_report.h"

namespace spanloom {
namespace {

constexpr double kSure = 2.0;         // standard errors
constexpr std::size_t kFewCrews = 3;  // of fewer nothing is said
constexpr double kMuchWorse = 1.3;    // as taped over as planned

std::string both(const MovedReturn& of) { return fmt::format("{} in the mean, {} at worst", percent(of.mean), percent(of.worst)); }

std::string tapes(std::size_t count) { return fmt::format("{} tape{}", count, count == 1 ? "" : "s"); }

// Standard error of a mean over crews [-].
double error_of(const ReturnAsTaped& taped) { return taped.spread / std::sqrt(double(std::max<std::size_t>(1, taped.samples))); }

std::string points(double share) { return fmt::format("{:.0f}", 100.0 * share); }

// By the crews, which see the least scatter: is it better than the rig as it is? The plain answer stands first.
void say_gain(SpaceReport& report, const JudgedLayout& chosen, UnitSystem units, const Rig& rig) {
  if (!chosen.moved_as_taped || !report.own.moved_as_taped) return;
  const ReturnAsTaped &with = *chosen.moved_as_taped, &without = *report.own.moved_as_taped;
  if (with.samples < kFewCrews || without.samples < kFewCrews) return;
  const double gain = without.mean - with.mean, sure = kSure * std::hypot(error_of(with), error_of(without));
  const char* answer = gain >= sure    ? "WITH THE CHOSEN LAYOUT LESS COMES BACK"
                       : gain > -sure ? "NO DIFFERENCE ONE COULD BE SURE OF: KEEP THE RIG AS IT IS"
                                      : "THE CHOSEN LAYOUT IS WORSE: KEEP THE RIG AS IT IS";
  report.sentences.push_back(fmt::format(
      "{}. As {} crews would tape it ({}), the chosen layout with its {} lets {} of a sideways shake come back, the rig as it is with its {} "
      "{}: {} +-{} points {} (first swing {}, 1.25 to 4 Hz).",
      answer, with.samples, in_words(report.errors), tapes(chosen.tapes()), percent(with.mean), tapes(report.own.tapes()),
      percent(without.mean), points(std::abs(gain)), points(sure), gain < 0.0 ? "more" : "less",
      quantity_text(rig.shake.swing.value, Measure::small_length, units)));
}

void say_compared(SpaceReport& report, const JudgedLayout& chosen) {
  std::string words = fmt::format("With the slow shakes too, from 0.5 to 4 Hz, {} shakes each by other crews, comes back with the chosen {}; with "
                                  "the rig as it is {}", report.judged_shakes, both(chosen.moved), both(report.own.moved));
  double error = std::max(chosen.moved.error, report.own.moved.error);
  if (report.even) {
    words += fmt::format("; evenly taped with {} {}", tapes(report.even->tapes()), both(report.even->moved));
    error = std::max(error, report.even->moved.error);
  }
  if (report.random) {
    words += fmt::format("; taped at random {}, from layout to layout +-{}", percent(report.random->moved.mean),
                         percent(report.random->moved_spread));
  }
  words += error > 0.0 ? fmt::format(". These means are good to about +-{:.0f} points: where they and the crews disagree, go by the crews. A "
                                     "greater --effort makes both better.", std::ceil(100.0 * kSure * error))
                       : ". Of one round of shakes only: how good these means are is not known.";
  report.sentences.push_back(words);
}

void say_trade(SpaceReport& report, const JudgedLayout& chosen) {
  const JudgedLayout& fewest = report.points.front();
  const double more = fewest.moved.mean - chosen.moved.mean;
  if (fewest.tapes() == chosen.tapes() || more < kSure * std::hypot(fewest.moved.error, chosen.moved.error)) return;
  report.sentences.push_back(fmt::format("With {} only, {} comes back instead of {}: tapes against return is in the table.",
                                         tapes(fewest.tapes()), percent(fewest.moved.mean), percent(chosen.moved.mean)));
}

void say_taping(SpaceReport& report, const JudgedLayout& chosen) {
  if (!chosen.moved_as_taped || chosen.moved_as_taped->samples < kFewCrews || !chosen.moved_glance) return;
  const ReturnAsTaped& taped = *chosen.moved_as_taped;
  std::string words = fmt::format("How exact: taped just as planned {} would come back of the shakes from 1.25 Hz up; as the crews tape it {} in "
                                  "the mean, {}.", percent(*chosen.moved_glance), percent(taped.mean), worst_crew(taped));
  if (taped.p95 > kMuchWorse * *chosen.moved_glance) words += " Tape with care: the layout lives on exact lengths.";
  report.sentences.push_back(words);
  if (chosen.taut_crews == 0) return;
  report.sentences.push_back(fmt::format(
      "A LOOP IS PULLED TAUT on the lines of {} of these crews, with the rig as it is on {}: tape more exactly than that, or give the bays "
      "with the least drop more slack.", chosen.taut_crews, report.own.taut_crews));
}

void say_over(SpaceReport& report, const JudgedLayout& chosen) {
  if (chosen.moved.over.empty() && report.own.moved.over.empty()) return;
  report.sentences.push_back(fmt::format(
      "In shakes as hard as these loops fly over the main, here in {} of {} bays, with the rig as it is in {} of {}: look for wraps "
      "after a hard shake. In a gust and a walker's bounce, where they could be computed, {}.",
      chosen.moved.over.size(), chosen.layout.bays.size(), report.own.moved.over.size(), report.own.layout.bays.size(),
      chosen.over_in_gust.empty() ? "none does"
                                  : fmt::format("they do in {}, with the rig as it is in {}", chosen.over_in_gust.size(),
                                                report.own.over_in_gust.size())));
}

}  // namespace

std::string percent(double share) { return fmt::format("{:.0f} %", 100.0 * share); }

void say(SpaceReport& report, const Rig& rig, UnitSystem units) {
  if (!report.chosen && report.stopped) {
    report.sentences.push_back("Stopped before any layout was found that keeps every limit of the rig.");
    return;
  }
  if (!report.chosen) {
    report.sentences.push_back("No layout was found that keeps every limit of the rig. Wider bounds, more slack or fewer limits may help; the "
                               "notes say what failed.");
    return;
  }
  const JudgedLayout& chosen = report.points[*report.chosen];
  if (chosen.moved.shakes == 0) {
    report.sentences.push_back(fmt::format(
        "Stopped: the best so far by small motion alone has {}, {} of small shakes comes back, with the rig as it is {}. Not judged in "
        "full-size shakes, which may say otherwise.",
        tapes(chosen.tapes()), percent(chosen.small.mean), percent(report.own.small.mean)));
    return;
  }
  if (report.stopped) report.sentences.push_back("Stopped while crews were taping: how sure the gain is was not computed.");
  say_gain(report, chosen, units, rig);
  say_compared(report, chosen);
  say_trade(report, chosen);
  say_taping(report, chosen);
  say_over(report, chosen);
}

std::string left_out_words(std::size_t layouts, const std::string& why) {
  std::string words = fmt::format("{} layout{} that the quick rules let pass {} left out, for their plan breaks a limit that the rig as "
                                  "it is keeps, or they have none.", layouts, layouts == 1 ? "" : "s", layouts == 1 ? "was" : "were");
  if (!why.empty()) words += " One of them: " + why;
  return words;
}

std::string none_kept_words() {
  return "None of the layouts looked at keeps all limits by the quick rules: ankle margin, least and most drop, room over the ground, backup "
         "tension, number of tapes.";
}

std::string not_so_few_words(std::size_t asked, std::size_t fewest) {
  return fmt::format("No layout shown has {} or fewer; the fewest, {}, is chosen. --most-tapes searches below.", tapes(asked), fewest);
}

std::string worst_crew(const ReturnAsTaped& taped) {
  constexpr std::size_t kTwenty = 20;   // of fewer, one in twenty is the worst
  return taped.samples < kTwenty ? fmt::format("at most {}", percent(taped.p95)) : fmt::format("more than {} with one crew in twenty", percent(taped.p95));
}

std::string swung_over_words(std::size_t layouts) {
  return fmt::format("{} layout{} left out: a loop swings over the main in a gust or a bounce.", layouts, layouts == 1 ? " was" : "s were");
}

}  // namespace spanloom
