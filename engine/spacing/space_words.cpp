#include "spacing/space_words.h"

#include <algorithm>
#include <cmath>

#include <fmt/format.h>

#include "spacing/space_report.h"

namespace spanloom {
namespace {

constexpr double kSure = 2.0;         // standard errors
constexpr double kMuchWorse = 1.3;    // as taped over as planned

std::string percent(double share) { return fmt::format("{:.0f} %", 100.0 * share); }

std::string both(const MovedReturn& of) { return fmt::format("{} in the mean, {} at worst", percent(of.mean), percent(of.worst)); }

std::string tapes(std::size_t count) { return fmt::format("{} tape{}", count, count == 1 ? "" : "s"); }

// Standard error of a mean over crews [-].
double error_of(const ReturnAsTaped& taped) { return taped.spread / std::sqrt(double(std::max<std::size_t>(1, taped.samples))); }

// By the crews, which see the least scatter: is it better than the rig as it is?
void say_gain(SpaceReport& report, const JudgedLayout& chosen, UnitSystem units, const Rig& rig) {
  if (!chosen.moved_as_taped || !report.own.moved_as_taped) return;
  const ReturnAsTaped &with = *chosen.moved_as_taped, &without = *report.own.moved_as_taped;
  if (with.samples == 0 || without.samples == 0) return;
  std::string words = fmt::format(
      "As {} crews would tape it ({}), the chosen layout with its {} lets {} of a sideways shake come back, the rig as it is with its {} {}: "
      "first swing {}, 1.25 to 4 Hz.",
      with.samples, in_words(report.errors), tapes(chosen.tapes()), percent(with.mean), tapes(report.own.tapes()), percent(without.mean),
      quantity_text(rig.shake.swing.value, Measure::small_length, units));
  const double gain = without.mean - with.mean, error = std::hypot(error_of(with), error_of(without));
  if (gain < kSure * error) {
    words += fmt::format(" THAT IS NO DIFFERENCE ONE COULD BE SURE OF (+-{:.0f} points): the rig as it is does as well.", 100.0 * kSure * error);
  } else {
    words += fmt::format(" That is {:.0f} +-{:.0f} points less.", 100.0 * gain, 100.0 * kSure * error);
  }
  report.sentences.push_back(words);
}

void say_compared(SpaceReport& report, const JudgedLayout& chosen) {
  std::string words = fmt::format("From 0.5 to 4 Hz, {} shakes each, comes back with the chosen {}; with the rig as it is {}", report.judged_shakes,
                                  both(chosen.moved), both(report.own.moved));
  if (report.even) words += fmt::format("; evenly taped with {} {}", tapes(report.even->tapes()), both(report.even->moved));
  if (report.random) {
    words += fmt::format("; taped at random {}, from layout to layout +-{}", percent(report.random->moved.mean),
                         percent(report.random->moved_spread));
  }
  words += ".";
  if (chosen.moved.error > 0.0) {
    words += fmt::format(" All as crews tape them, no two alike, so these means are good to about +-{:.0f} points; more --effort, less.",
                         std::ceil(100.0 * kSure * chosen.moved.error));
  }
  report.sentences.push_back(words);
}

void say_trade(SpaceReport& report, const JudgedLayout& chosen) {
  if (report.points.size() < 2) return;
  const JudgedLayout& fewest = report.points.front();
  if (fewest.tapes() == chosen.tapes()) return;
  report.sentences.push_back(fmt::format("With {} only, {} comes back instead of {}: tapes against return is in the table.",
                                         tapes(fewest.tapes()), percent(fewest.moved.mean), percent(chosen.moved.mean)));
}

void say_taping(SpaceReport& report, const JudgedLayout& chosen) {
  if (!chosen.moved_as_taped || chosen.moved_as_taped->samples == 0 || !chosen.moved_glance) return;
  const ReturnAsTaped& taped = *chosen.moved_as_taped;
  std::string words = fmt::format(
      "How exact: taped just as planned {} would come back of those shakes from 1.25 Hz up; as the crews tape it {} in the mean and {} "
      "with one crew in twenty.",
      percent(*chosen.moved_glance), percent(taped.mean), percent(taped.p95));
  if (taped.p95 > kMuchWorse * *chosen.moved_glance) words += " Tape with care: the layout lives on exact lengths.";
  if (taped.taut > 0) words += fmt::format(" On {} of the lines a loop was pulled taut.", taped.taut);
  report.sentences.push_back(words);
}

void say_over(SpaceReport& report, const JudgedLayout& chosen) {
  if (chosen.moved.over.empty() && report.own.moved.over.empty()) return;
  report.sentences.push_back(fmt::format(
      "In shakes as hard as these loops fly over the main, here in {} of {} bays, with the rig as it is in {} of {}: look for wraps "
      "after a hard shake. In the gust and the bounce of `spanloom shake` {}.",
      chosen.moved.over.size(), chosen.layout.bays.size(), report.own.moved.over.size(), report.own.layout.bays.size(),
      chosen.over_in_gust.empty() ? "none does"
                                  : fmt::format("they do in {}, with the rig as it is in {}", chosen.over_in_gust.size(), report.own.over_in_gust.size())));
}

}  // namespace

void say(SpaceReport& report, const Rig& rig, UnitSystem units) {
  if (!report.chosen) {
    report.sentences.push_back("No layout was found that keeps every limit of the rig. Wider bounds, more slack or fewer limits may help; the "
                               "notes say what failed.");
    return;
  }
  const JudgedLayout& chosen = report.points[*report.chosen];
  if (report.stopped || chosen.moved.shakes == 0) {
    report.sentences.push_back(fmt::format(
        "Stopped: the best so far by small motion alone has {}, {} of small shakes comes back, with the rig as it is {}. Not judged in "
        "full-size shakes, which may say otherwise.",
        tapes(chosen.tapes()), percent(chosen.small.mean), percent(report.own.small.mean)));
    return;
  }
  say_gain(report, chosen, units, rig);
  say_compared(report, chosen);
  say_trade(report, chosen);
  say_taping(report, chosen);
  say_over(report, chosen);
}

std::string left_out_words(std::size_t layouts, const std::string& why) {
  std::string words = fmt::format("{} layout{} that the quick rules let pass {} left out, for their plan breaks a limit that the rig as "
                                  "it is keeps.", layouts, layouts == 1 ? "" : "s", layouts == 1 ? "was" : "were");
  if (!why.empty()) words += " One of them: " + why;
  return words;
}

std::string swung_over_words(std::size_t layouts) {
  return fmt::format("{} layout{} left out: a loop swings over the main in a gust or a bounce.", layouts, layouts == 1 ? " was" : "s were");
}

}  // namespace spanloom
