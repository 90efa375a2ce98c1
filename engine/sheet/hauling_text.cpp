#include "sheet/hauling_text.h"

#include <cmath>
#include <numbers>

#include <fmt/format.h>

#include "checks/generic_webbing.h"
#include "sheet/key_numbers.h"
#include "sheet/text_table.h"
#include "sheet/words.h"

namespace spanloom {
namespace {

std::string in_percent(double share) { return fmt::format("{:g} %", std::round(1e4 * share) / 100.0); }

std::string hours_text(double seconds) { return fmt::format("{:g} h", seconds / 3600.0); }

class Report : private PlainText {
 public:
  Report(const Rig& rig, const HaulingReport& report, const HaulingOptions& options, const std::vector<Check>& checks,
         const SheetInfo& info)
      : rig_(rig), report_(report), options_(options), checks_(checks), info_(info), units_(info.units) {}

  std::string write() {
    add_head();
    add_steps();
    add_sets();
    add_settling();
    add_way_down();
    add_list("Notes", report_.notes);
    add_list("Assumed", assumed());
    add_list("Cautions", all_cautions());
    return text();
  }

 private:
  void add_head();
  void add_steps();
  void add_sets();
  void add_settling();
  void add_way_down();
  std::vector<std::string> assumed() const;
  static std::vector<std::string> all_cautions();

  std::string force(double value) const { return quantity_text(value, Measure::force, units_); }
  std::string small_force(double value) const { return quantity_text(value, Measure::small_force, units_); }
  std::string length(double value) const { return quantity_text(value, Measure::length, units_); }
  std::string number(double value, Measure measure) const { return number_text(value, measure, units_); }
  std::string head(const char* words, Measure measure) const {
    return fmt::format("{} {}", words, unit_text(measure, units_));
  }

  const Rig& rig_;
  const HaulingReport& report_;
  const HaulingOptions& options_;
  const std::vector<Check>& checks_;
  const SheetInfo& info_;
  const UnitSystem units_;
};

void Report::add_head() {
  add_words(rig_.title);
  add_line(std::string(kTextColumns, '='));
  add_words(fmt::format("Tensioning: {}, {}, spanloom {}", info_.file_name, info_.date, info_.version));
  add_words(cautions().front());
  add_words(fmt::format("Verdict of the plan: {} ({})", verdict_word(worst(checks_)), verdict_counts(checks_)));
}

void Report::add_steps() {
  const PullStep& last = report_.steps.back();
  add_heading("Pulling up, the backup hung");
  add_words(
      fmt::format("From hand-tight at {} to standing at {}: {} of main to pull through, {} of it as it passes the "
                  "clamp, stretched.",
                  force(report_.hand_tight), force(report_.standing), length(last.pulled), length(last.travel)));
  add_line("");
  const bool ground = last.ground_clearance.has_value(), one = report_.sets.size() == 1;
  std::vector<std::string> heads{head("tension", Measure::force), head("pulled", Measure::length),
                                 head("at clamp", Measure::length), head("sag", Measure::length),
                                 head("far end", Measure::force)};
  if (ground) heads.push_back(head("ground", Measure::length));
  if (one) heads.push_back(head("hand", Measure::small_force));
  TextTable table(heads);
  for (const PullStep& step : report_.steps) {
    std::vector<std::string> cells{number(step.tension_near, Measure::force), number(step.pulled, Measure::length),
                                   number(step.travel, Measure::length), number(step.sag, Measure::length),
                                   number(step.tension_far, Measure::force)};
    if (ground) cells.push_back(step.ground_clearance ? number(*step.ground_clearance, Measure::length) : "-");
    if (one) cells.push_back(number(report_.sets[0].hand * step.tension_near / report_.standing, Measure::small_force));
    table.add(std::move(cells));
  }
  add_table(table);
  add_line("");
  add_words(
      fmt::format("tension: of the main at the near anchor. pulled: as on the unloaded webbing. sag: at the middle, "
                  "below the straight line between the anchors.{}",
                  ground ? " ground: least height of line and loops above it, outside the anchor zones." : ""));
}

void Report::add_sets() {
  add_heading("With a pulley set");
  TextTable table({"parts", "load/hand", head("hand", Measure::small_force), "people", head("rope", Measure::length),
                   head("anchor", Measure::force), head("to hold", Measure::small_force)});
  for (const SetAtWork& at : report_.sets) {
    table.add({parts_words(at.set), fmt::format("{:.2f}", at.ratio), number(at.hand, Measure::small_force),
               std::to_string(at.people), number(at.rope, Measure::length), number(at.anchor, Measure::force),
               number(at.holding_at_most, Measure::small_force)});
  }
  add_table(table);
  add_line("");
  const bool fixed = options_.leaves == RopeLeaves::fixed_block;
  add_words(fmt::format(
      "The set has to pull {} at the end{}. parts: of rope at the moving block, the rope leaving the {} block. Each "
      "sheave hands on {} of the force. people: of {} each. rope: through the hand, in all. anchor: the most that "
      "the anchor of the (first) set carries, hauling or with the rope tied off there. to hold: in the hand while letting out "
      "from standing, where nothing rubs; friction helps.",
      force(report_.load),
      options_.bend ? fmt::format(", over bends of {:.0f} deg in all", options_.bend->angle * 180.0 / std::numbers::pi)
                    : "",
      fixed ? "fixed" : "moving", in_percent(options_.efficiency.value), small_force(options_.person_force.value)));
  if (options_.efficiency.assumed) {
    const SetAtWork& first = report_.sets.front();
    add_words(fmt::format("On plain bushings ({} a sheave, assumed) the hand force with {} is {} in place of {}.",
                          in_percent(kBushingEfficiency), parts_words(first.set), small_force(first.hand_on_bushings),
                          small_force(first.hand)));
  }
  if (report_.hauls) {
    add_words(fmt::format(
        "At {} of travel a haul: {}, so the set is reset {} on the way. Each time a clamp holds the line alone.",
        length(*options_.reach), count_text(*report_.hauls, "haul", "hauls"),
        count_text(*report_.hauls - 1, "time", "times")));
  }
}

void Report::add_settling() {
  if (report_.settling.empty()) return;
  add_heading("Left alone, the webbing creeps");
  TextTable table({"after", head("tension", Measure::force), head("sag", Measure::length), "creep %",
                   head("pull in", Measure::small_length)});
  for (const Settled& at : report_.settling) {
    table.add({hours_text(at.time), number(at.tension, Measure::force), number(at.sag, Measure::length),
               fmt::format("{:.2f}", 100.0 * at.creep), number(at.pull_in, Measure::small_length)});
  }
  add_table(table);
  add_line("");
  add_words(
      fmt::format("For creep of {} per factor of ten in time, counted from one minute after {} is reached, less as the "
                  "tension falls. pull in: of main, to stand at {} again, the backup left as it hangs.",
                  in_percent(*options_.creep), force(report_.standing), force(report_.standing)));
}

void Report::add_way_down() {
  const LettingDown& down = report_.down;
  const PullStep& slack = report_.steps.front();
  add_heading("Letting down");
  std::vector<std::string> entries;
  entries.push_back(fmt::format(
      "First take the load: a brake or clamp opens once the set pulls all of {} (the hand forces above). Then let "
      "out through the brake, never by opening a clamp under load.",
      force(report_.load)));
  entries.push_back(fmt::format(
      "Until hand-tight {} have to be let out, {} as they pass the clamp{}.", length(down.let_out), length(down.travel),
      report_.hauls ? fmt::format(": {} with this reach", count_text(*report_.hauls, "set-length", "set-lengths"))
                    : ""));
  entries.push_back(fmt::format(
      "Hand-tight the line hangs {} below the straight line between the anchors{}.", length(slack.sag),
      slack.ground_clearance ? fmt::format(", {} above the ground at the least", length(*slack.ground_clearance))
                             : ""));
  entries.push_back(fmt::format(
      "Let go, the main springs back: it stands {} longer than it is unloaded, and has {:.0f} J in it, as much as the "
      "walker falling {}. Nobody in line with it, nobody below.",
      length(down.stretch), down.stored, length(down.same_fall)));
  for (const std::string& entry : entries) add_labelled("-", entry, 2);
}

std::vector<std::string> Report::assumed() const {
  std::vector<std::string> out;
  if (rig_.main.hand_tight.assumed) {
    out.push_back(fmt::format("hand-tight at {}: state [main] hand_tight", force(report_.hand_tight)));
  }
  Check generic;
  add_generic_webbings(rig_, Pulling::line, generic);
  for (std::string& webbing : generic.assumed) out.push_back(std::move(webbing));
  if (options_.sets.empty()) out.push_back("the pulley sets: give yours with --parts");
  if (options_.efficiency.assumed) {
    out.push_back(
        fmt::format("{} of the force from sheave to sheave, as on ball bearings (common practice, no source): give "
                    "yours with --efficiency",
                    in_percent(options_.efficiency.value)));
  }
  if (options_.person_force.assumed) {
    out.push_back(fmt::format("{} a person (common practice, no source): --person-force",
                              small_force(options_.person_force.value)));
  }
  if (options_.bend && options_.bend->friction.assumed) {
    out.push_back(fmt::format("friction of {:g} on the bends (middle of 0.1 to 0.2, from memory): --bend-friction",
                              options_.bend->friction.value));
  }
  return out;
}

std::vector<std::string> Report::all_cautions() {
  std::vector<std::string> out = cautions();
  out.push_back(
      "Pulley set, grip, brake and rope have limits of their own, which are not checked here: what they are rated for, "
      "how hot webbing gets when it slips. A line grip slips or cuts above its rating.");
  out.push_back(
      "Hand forces are for clean, dry gear in line; mud, ice, twisted rope and poor angles add to them. Measure the "
      "tension, do not count on the hand.");
  return out;
}

}  // namespace

std::string parts_words(const PulleySet& set) {
  std::string words;
  for (const int parts : set.parts) words += (words.empty() ? "" : " x ") + std::to_string(parts);
  return words + (words == "1" ? " part" : " parts");
}

std::string hauling_text(const Rig& rig, const HaulingReport& report, const HaulingOptions& options,
                         const std::vector<Check>& checks, const SheetInfo& info) {
  return Report(rig, report, options, checks, info).write();
}

}  // namespace spanloom
