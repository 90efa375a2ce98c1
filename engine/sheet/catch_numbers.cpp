#include "sheet/catch_numbers.h"

#include <algorithm>
#include <optional>

#include <fmt/format.h>

#include "checks/catch_warnings.h"
#include "checks/catch_words.h"

namespace spanloom {
namespace {

std::string length_text(double si, UnitSystem units) { return quantity_text(si, Measure::length, units); }
std::string force_text(double si, UnitSystem units) { return quantity_text(si, Measure::force, units); }

/// What a number is read from, and how.
enum class Needs { held, any };
using Read = std::optional<double> (*)(const FallResult&);
struct Row {
  const char* label;
  Measure measure;
  std::size_t CatchReport::Worst::*index;
  Needs needs;                            // forces on the line are there for a lost walker too
  Read read;
};

const Row kRows[] = {
    {"Fall of the body", Measure::length, &CatchReport::Worst::fall, Needs::held,
     [](const FallResult& f) { return std::optional(f.fall); }},
    {"Force on the body", Measure::force, &CatchReport::Worst::body, Needs::held,
     [](const FallResult& f) { return std::optional(f.body); }},
    {"Tension of the backup", Measure::force, &CatchReport::Worst::backup, Needs::any,
     [](const FallResult& f) { return std::optional(f.backup); }},
    {"Load on the near anchor", Measure::force, &CatchReport::Worst::near, Needs::any,
     [](const FallResult& f) { return std::optional(norm(f.near)); }},
    {"Load on the far anchor", Measure::force, &CatchReport::Worst::far, Needs::any,
     [](const FallResult& f) { return std::optional(norm(f.far)); }},
    {"Feet over the ground", Measure::length, &CatchReport::Worst::clearance, Needs::held,
     [](const FallResult& f) { return f.clearance; }},
    {"Hip to a wall or ground beside it", Measure::length, &CatchReport::Worst::wall, Needs::held,
     [](const FallResult& f) { return f.wall; }},
};

struct Cell {
  std::string number = "-", at;
};

Cell cell_of(const Rig& rig, const std::vector<FallResult>& falls, const CatchReport::Worst& worst, const Row& row,
             UnitSystem units) {
  const std::size_t index = worst.*row.index;
  const FallResult* fall = row.needs == Needs::held ? held_fall_at(falls, index) : fall_at(falls, index);
  const std::optional<double> value = fall == nullptr ? std::nullopt : row.read(*fall);
  if (!value) return {};
  return {quantity_text(*value, row.measure, units), event_words(rig, *fall, units)};
}

constexpr const char* kOnlyIfNothingBreaks = " This holds only if nothing breaks, and something does: see above.";

std::string fall_sentence(const Rig& rig, const std::vector<FallResult>& falls, const CatchReport::Worst& worst,
                          std::size_t lost, UnitSystem units) {
  const FallResult* deepest = held_fall_at(falls, worst.fall);
  const FallResult* hardest = held_fall_at(falls, worst.body);
  if (deepest == nullptr || hardest == nullptr) return {};
  const bool failure = deepest->what.kind == FallKind::main_failure;
  std::string words = fmt::format("{} the walker drops up to {}{} ({}).",
                                  failure ? "When the main fails," : "In a leash fall", length_text(deepest->fall, units),
                                  lost > 0 ? ", where the walker is held at all" : "",
                                  event_words(rig, *deepest, units));
  words += fmt::format(" The body feels up to {}", force_text(hardest->body, units));
  words += hardest == deepest ? " then." : fmt::format(" ({}).", event_words(rig, *hardest, units));
  return words;
}

std::string line_sentence(const Rig& rig, const CatchReport& report, UnitSystem units) {
  const FallResult* backup = fall_at(report.main_failure, report.worst_failure.backup);
  std::string words;
  if (backup != nullptr) {
    words = fmt::format("The backup carries up to {} ({}).", force_text(backup->backup, units),
                        event_words(rig, *backup, units));
  }
  const auto anchor = [&](std::size_t CatchReport::Worst::*index, Vec3 FallResult::*load, const char* name) {
    const FallResult* worst = fall_at(report.main_failure, report.worst_failure.*index);
    const FallResult* leash = fall_at(report.leash_fall, report.worst_leash_fall.*index);
    if (worst == nullptr || (leash != nullptr && norm(leash->*load) > norm(worst->*load))) worst = leash;
    if (worst == nullptr) return;
    words += fmt::format("{}The {} anchor carries up to {}, in a {}.", words.empty() ? "" : " ", name,
                         force_text(norm(worst->*load), units),
                         worst->what.kind == FallKind::main_failure ? "main failure" : "leash fall");
  };
  anchor(&CatchReport::Worst::near, &FallResult::near, "near");
  anchor(&CatchReport::Worst::far, &FallResult::far, "far");
  return words;
}

}  // namespace

std::vector<std::string> catch_sentences(const Rig& rig, const CatchReport& report, const std::vector<Check>& checks,
                                         UnitSystem units) {
  std::vector<std::string> sentences = catch_warnings(rig, report, checks, units);
  if (report.stopped) return sentences;
  const char* unless = any_breaks(checks) ? kOnlyIfNothingBreaks : "";
  const auto add = [&](const std::string& words, const char* behind) {
    if (!words.empty()) sentences.push_back(words + behind);
  };
  // The search counts lost walkers of both kinds; nobody is lost from a main that holds.
  const std::size_t lost_from_main = lost_in(report.leash_fall), lost = lost_falls(report) - lost_from_main;
  add(fall_sentence(rig, report.main_failure, report.worst_failure, lost, units), unless);
  add(fall_sentence(rig, report.leash_fall, report.worst_leash_fall, lost_from_main, units), unless);
  add(line_sentence(rig, report, units), unless);
  add("Clear height needed: " + clear_height_words(rig, report, units) + ".", clear_height_told(report) ? unless : "");
  return sentences;
}

std::vector<FallNumber> fall_numbers(const Rig& rig, const CatchReport& report, UnitSystem units) {
  std::vector<FallNumber> numbers;
  for (const Row& row : kRows) {
    const Cell failure = cell_of(rig, report.main_failure, report.worst_failure, row, units);
    const Cell leash = cell_of(rig, report.leash_fall, report.worst_leash_fall, row, units);
    numbers.push_back({row.label, failure.number, failure.at, leash.number, leash.at});
  }
  return numbers;
}

std::string clear_height_words(const Rig& rig, const CatchReport& report, UnitSystem units) {
  if (lost_falls(report) > 0) return "none is enough, since nothing holds the walker in some of the falls";
  const std::optional<double> needed = clear_height_told(report);
  if (!needed) return "not known, no fall gave one";
  return fmt::format(
      "{} below the standing main with nobody on it, the reserve of {} included; the most is needed with the walker at "
      "{}",
      length_text(*needed, units), length_text(rig.limits.reserve.value, units), length_text(report.clear_height_at, units));
}

std::string falls_in_a_line(const CatchReport& report, const std::vector<Check>& checks, UnitSystem units) {
  const FallResult* greatest = nullptr;
  double load = 0.0;
  for (const auto* falls : {&report.main_failure, &report.leash_fall}) {
    for (const FallResult& fall : *falls) {
      const double more = std::max(norm(fall.near), norm(fall.far));
      if (more > load) load = more, greatest = &fall;
    }
  }
  const std::optional<double> needed = clear_height_told(report);
  const std::string height = lost_falls(report) > 0 ? "not known, NOTHING HOLDS THE WALKER"
                             : needed               ? length_text(*needed, units)
                                                    : "not known";
  std::string words = fmt::format("Falls: {}clear height needed {}", any_breaks(checks) ? "SOMETHING BREAKS; " : "", height);
  if (greatest == nullptr) return words + ".";
  return words + fmt::format("; an anchor carries up to {} ({}).", force_text(load, units),
                             greatest->what.kind == FallKind::main_failure ? "main failure" : "leash fall");
}

const char* quick_catch_words() {
  return "QUICK LOOK: what lies between the searched places, and walkers who sit or hang when the main fails, were not "
         "searched; the worst may be there. What other backup slack would change is not computed.";
}

std::vector<std::string> search_sentences(const CatchReport& report) {
  const FallSearch& search = report.search;
  std::vector<std::string> sentences = search.words;
  std::string counted = fmt::format("{} falls computed to find the worst", search.events);
  counted += search.failed == 0
                 ? "; the energy adds up in every one of them."
                 : fmt::format("; {} of them gave no number (no proven rest, or energy that does not add up).", search.failed);
  sentences.push_back(std::move(counted));
  if (search.told > 0) {
    sentences.push_back(
        fmt::format("{} of the worst computed once more on a finer mesh, which changed the greatest force on "
                    "the body by {:+.1f} % and the deepest fall by {:+.1f} %.",
                    search.told, 100.0 * search.mesh_change_body, 100.0 * search.mesh_change_fall));
  }
  return sentences;
}

}  // namespace spanloom
