#include "sheet/space_text.h"

#include <algorithm>
#include <cmath>
#include <numeric>

#include <fmt/format.h>
#include <fmt/ranges.h>

#include "rig/tape_layout.h"
#include "sheet/check_pages.h"
#include "sheet/check_text.h"
#include "sheet/key_numbers.h"
#include "sheet/shake_numbers.h"
#include "sheet/text_table.h"
#include "sheet/work_list.h"
#include "spacing/space_words.h"

namespace spanloom {
namespace {

constexpr const char* kOwn = "the rig as it is";

// Bays, counted from 1, that 10 mm of backup change most in some way.
std::vector<std::size_t> touchiest(const std::vector<BayTouch>& touch, std::size_t most, double BayTouch::* of) {
  std::vector<std::size_t> bays(touch.size());
  std::iota(bays.begin(), bays.end(), std::size_t{1});
  std::stable_sort(bays.begin(), bays.end(), [&](std::size_t a, std::size_t b) {
    return std::abs(touch[a - 1].*of) > std::abs(touch[b - 1].*of);
  });
  bays.resize(std::min(most, bays.size()));
  return bays;
}

struct Shown {
  std::string kind;   // in the table
  std::string name;   // in sentences, which tell layouts of a kind apart
  const JudgedLayout& layout;
};

class Report : private PlainText {
 public:
  Report(const Rig& rig, const SpaceReport& report, const SheetInfo& info)
      : rig_(rig), report_(report), info_(info), units_(info.units),
        chosen_(report.chosen ? &report.points[*report.chosen] : nullptr) {}

  std::string write() {
    add_head();
    add_list("What it means", report_.sentences);
    add_trade_off();
    if (chosen_ != nullptr) add_called_out();
    if (proven() != nullptr) add_tape_list();
    add_taping();
    if (chosen_ != nullptr) add_practice();
    if (proven() != nullptr) add_verdict();
    add_goodness();
    add_list("Notes", report_.notes);
    if (proven() != nullptr) add_list("Our defaults, not stated in the rig file", assumed_inputs(proven()->checks));
    add_list("Cautions", cautions());
    return text();
  }

 private:
  const ProvenLayout* proven() const { return chosen_ != nullptr && report_.proven ? &*report_.proven : nullptr; }
  std::string number(double si, Measure measure) const { return number_text(si, measure, units_); }
  std::string quantity(double si, Measure measure) const { return quantity_text(si, measure, units_); }
  std::string with_unit(std::string_view head, Measure measure) const {
    return fmt::format("{} {}", head, unit_text(measure, units_));
  }
  // Every layout shown, in the order of the table.
  std::vector<Shown> shown() const;

  void add_head();
  std::string bounds_words() const;
  std::vector<std::string> row(const Shown& line) const;
  void add_trade_off();
  void add_columns();
  void add_remarks();
  void add_called_out();
  void add_tape_list();
  std::string as_taped(double planned, const ReturnAsTaped& taped) const;
  void add_as_taped(const std::string& name, const JudgedLayout& layout);
  void add_taping();
  std::string drop_change(const JudgedLayout& layout, std::size_t bay) const;
  std::string return_change(const JudgedLayout& layout, std::size_t bay) const;
  std::string touched(const JudgedLayout& layout, double BayTouch::* of, std::size_t most) const;
  void add_touch();
  void add_practice();
  void add_verdict();
  void add_goodness();

  const Rig& rig_;
  const SpaceReport& report_;
  const SheetInfo& info_;
  const UnitSystem units_;
  const JudgedLayout* chosen_;
};

std::vector<Shown> Report::shown() const {
  std::vector<Shown> layouts = {{kOwn, kOwn, report_.own}};
  const char* even = label_of(ComparedLine::even);
  if (report_.even) layouts.push_back({even, even, *report_.even});
  for (const JudgedLayout& found : report_.points) {
    const std::string tapes = count_text(static_cast<long long>(found.tapes()), "tape", "tapes");
    layouts.push_back({"found", &found == chosen_ ? "chosen" : "found, " + tapes, found});
  }
  return layouts;
}

std::string Report::bounds_words() const {
  const LayoutBounds& bounds = report_.bounds;
  const double step = length_of(bounds.step, rig_.spacing);
  const std::string bays = bounds.step == BayStep::half_arm_span
                               ? fmt::format("{:g} to {:g} arm spans", 0.5 * bounds.shortest, 0.5 * bounds.longest)
                               : fmt::format("{} to {}", number(step * bounds.shortest, Measure::length),
                                             quantity(step * bounds.longest, Measure::length));
  std::string words = fmt::format("bays of {}, slack of {:.4g} to {:.4g} %, drops up to {}, backup tension up to {}", bays,
                                  100.0 * bounds.least_slack, 100.0 * bounds.most_slack,
                                  quantity(bounds.most_drop, Measure::small_length),
                                  quantity(bounds.most_backup_tension, Measure::small_force));
  if (bounds.most_tapes < LayoutBounds{}.most_tapes) words += fmt::format(", at most {} tapes", bounds.most_tapes);
  return words;
}

void Report::add_head() {
  add_words(rig_.title);
  add_line(std::string(kTextColumns, '='));
  if (report_.quick) add_words("A QUICK LOOK: a sixth of the usual work. Do not tape by it alone.");
  add_words(fmt::format("Space: {}, {}, spanloom {}", info_.file_name, info_.date, info_.version));
  add_words(cautions().front());
  if (proven() != nullptr) {
    add_words(fmt::format("Verdict of the plan of the chosen layout: {} ({})", verdict_word(worst(proven()->checks)),
                          verdict_counts(proven()->checks)));
  }
  if (report_.stopped) {
    add_line("");
    add_words("STOPPED BEFORE THE END. Below is the best that was found until then; it is not complete, and better layouts "
              "may be among those not looked at.");
  }
  if (report_.points.empty()) {
    add_line("");
    add_words(fmt::format("NOTHING WAS FOUND THAT KEEPS EVERY LIMIT. Looked for: {}. That is no proof that there is nothing.",
                          bounds_words()));
  }
}

std::vector<std::string> Report::row(const Shown& line) const {
  const JudgedLayout& layout = line.layout;
  const auto percent_if = [](bool known, double share) { return known ? whole_percent(share) : std::string("-"); };
  const bool shaken = layout.moved.shakes > 0;
  std::vector<std::string> cells = {
      line.kind, std::to_string(layout.tapes()), percent_if(shaken, layout.moved.mean), percent_if(shaken, layout.moved.worst),
      whole_percent(layout.small.mean), percent_if(layout.small_as_taped.samples > 0, layout.small_as_taped.p95),
      layout.ankle_margin.empty() ? "-" : number(layout.least_ankle_margin, Measure::small_length)};
  if (&layout == chosen_) cells.push_back("<- chosen");
  return cells;
}

void Report::add_trade_off() {
  add_heading("Tapes against what comes back of a shake");
  TextTable table({"layout", "tapes", "full %", "worst %", "small %", "taped %", with_unit("ankle", Measure::small_length)});
  for (const Shown& line : shown()) table.add(row(line));
  if (const auto& random = report_.random) {
    table.add({"random, mean", "-", whole_percent(random->moved.mean), whole_percent(random->moved.worst),
               whole_percent(random->small.mean), "-", "-"});
  }
  add_table(table);
  add_columns();
  add_remarks();
}

void Report::add_columns() {
  const std::vector<Shake> shakes = judged_shakes(rig_);
  constexpr int kIndent = 9;
  add_line("");
  add_words(fmt::format("Percent: how much of the swing is still on the main two round trips after a sideways shake, nobody on "
                        "the line. {} shakes for each layout, {} to {} Hz.",
                        report_.judged_shakes, hertz(shakes.front().frequency), hertz(shakes.back().frequency)));
  add_labelled("full %", fmt::format("Mean of full-size shakes, so hard that the rig as it is first swings {}, each on the "
                                     "line as another crew tapes it: {}.",
                                     quantity(rig_.shake.swing.value, Measure::small_length), in_words(report_.errors)), kIndent);
  add_labelled("worst %", "The worst frequency: mean of its shakes.", kIndent);
  add_labelled("small %", "Mean of tiny swings, what a hand's tremble sends; the line as planned.", kIndent);
  add_labelled("taped %", "Tiny swings as crews tape it: one crew in twenty gets more than this. It may be below small %: hands are "
               "uneven.", kIndent);
  add_labelled("ankle", "Least ankle margin, walker at the middle of a bay.", kIndent);
  add_words("Differences of a few points are chance: loops snap tight, and no two crews tape alike.");
}

void Report::add_remarks() {
  if (const auto& random = report_.random) {
    add_words(fmt::format("random: {}, bays drawn within the same bounds, one slack for all, limits not asked. Their full-size "
                          "means typically lie {} from the mean of all.",
                          count_text(static_cast<long long>(random->count), "layout", "layouts"),
                          count_text(std::lround(100.0 * random->moved_spread), "point", "points")));
  }
  if (!report_.even && !report_.why_no_even.empty()) {
    add_words(fmt::format("{}, not computed: {}", label_of(ComparedLine::even), report_.why_no_even));
  }
  const std::vector<Shown> layouts = shown();
  if (std::any_of(layouts.begin(), layouts.end(), [](const Shown& line) { return line.layout.moved.shakes == 0; })) {
    add_words(fmt::format("\"-\": {}.", report_.stopped ? "not shaken in full size, it was stopped before"
                                                      : "no full-size shake gave a number"));
  }
  if (!report_.points.empty() && chosen_ == nullptr) add_words("None of the layouts found is chosen.");
  for (const Shown& line : layouts) {
    const MovedReturn& moved = line.layout.moved;
    if (moved.without > 0) {
      add_words(fmt::format("{}: {} of {} full-size shakes gave no number.", line.name, moved.without,
                            moved.without + moved.shakes));
    }
    const std::vector<std::size_t>& over = line.layout.over_in_gust;
    if (!over.empty()) {
      add_words(fmt::format("{}: in a gust or a walker's bounce loops swing over the main in {}.", line.name, bays_text(over)));
    }
    for (const std::string& words : line.layout.breaks) add_words(fmt::format("{} breaks a limit: {}", line.name, words));
  }
}

void Report::add_called_out() {
  add_heading("The chosen layout, as one calls it out");
  constexpr int kIndent = 12;
  if (const auto& phrase = chosen_->phrase) {
    add_labelled("Bays:", bays_in_words(*phrase, units_), kIndent);
    add_labelled("Slack:", slacks_in_words(*phrase), kIndent);
  }
  add_words("Slack is what a loop is longer than the main once that is pulled tight. On the ground the backup must be longer by "
            "the main's stretch too: lay out \"extra\" of the tape list, not the slack. What does not fit is left to the last bay, "
            "or to those in the middle and beside close bays.");
  add_labelled("Arm span:", quantity(rig_.spacing.arm_span.value, Measure::length), kIndent);
  if (const auto& close = rig_.spacing.close) {
    const CloseStretch stretch = close_stretch(*close, rig_.spacing.arm_span.value);
    add_labelled("Close bays:", fmt::format("kept as they are: {:g} of {}, from {} to {}", stretch.count,
                                            quantity(stretch.bay, Measure::length), number(stretch.start, Measure::length),
                                            quantity(stretch.end(), Measure::length)), kIndent);
  }
  add_labelled("Tapes:", std::to_string(chosen_->tapes()), kIndent);
  if (proven() != nullptr) {
    add_labelled("Backup:", fmt::format("carries at most {} while the main holds, two people and wind counted; the rig as it is {}",
                                        quantity(chosen_->backup_tension, Measure::small_force),
                                        quantity(report_.own.backup_tension, Measure::small_force)), kIndent);
  }
  if (!chosen_->moved.over.empty()) {
    add_labelled("Wraps:", fmt::format("in the full-size shakes loops fly over the main in {}; look there after a hard shake",
                                       bays_text(chosen_->moved.over)), kIndent);
  }
}

void Report::add_tape_list() {
  add_heading("Tape list of the chosen layout, from the near anchor");
  TextTable table({"bay", with_unit("tape at", Measure::length), with_unit("main", Measure::length), "spans",
                   with_unit("backup", Measure::length), with_unit("extra", Measure::small_length), "slack %",
                   with_unit("drop", Measure::small_length), with_unit("ankle", Measure::small_length)});
  const Plan& plan = proven()->plan;
  const std::vector<TapeRow> rows = tape_rows(proven()->rig, plan);
  for (std::size_t i = 0; i < rows.size(); ++i) {
    const TapeRow& tape = rows[i];
    const PlanBay& bay = plan.bays[i];
    table.add({std::to_string(tape.bay), number(tape.running, Measure::length), number(tape.main_piece, Measure::length),
               number(bay.arm_spans, Measure::arm_spans), number(tape.backup_piece, Measure::length),
               number(tape.extra_backup, Measure::small_length), number(bay.slack, Measure::share),
               number(tape.drop, Measure::small_length), number(bay.ankle_margin, Measure::small_length)});
  }
  add_table(table);
  add_words("Lay main and backup out unloaded and measure from the near connector. \"tape at\": running length of the tape "
            "behind the bay; in the last row it is the far end, no tape. \"extra\": so much longer than the main is the backup. "
            "drop: standing. ankle: walker at the middle of the bay.");
}

std::string Report::as_taped(double planned, const ReturnAsTaped& taped) const {
  const std::string as_planned = whole_percent(planned) + " % as planned";
  if (taped.samples == 0) {
    return fmt::format("{}, no number as taped{}", as_planned, taped.taut == 0 ? "" : ": none of the lines gave one");
  }
  return fmt::format("{}, {} % in the mean as taped, {} ({}{})", as_planned, whole_percent(taped.mean),
                     worst_crew(taped),
                     count_text(static_cast<long long>(taped.samples), "crew", "crews"),
                     taped.taut == 0 ? "" : fmt::format("; {} more gave no number", taped.taut));
}

void Report::add_as_taped(const std::string& name, const JudgedLayout& layout) {
  if (layout.moved_as_taped && layout.moved_glance) {
    add_labelled("-", fmt::format("{}, full-size shakes from 1.25 Hz up: {}.", name,
                                  as_taped(*layout.moved_glance, *layout.moved_as_taped)), 2);
  }
  add_labelled("-", fmt::format("{}, small shakes: {}.", name, as_taped(layout.small.mean, layout.small_as_taped)), 2);
}

void Report::add_taping() {
  const TapingErrors& errors = report_.errors;
  add_heading("How exact must taping be");
  add_words(fmt::format("Each crew's arm span is up to {:g} % longer or shorter than planned, the same all along, so that at "
                        "the far end it may leave a tape out or put one more in; each of its loops up to {:g} %, each by itself.",
                        100.0 * errors.arm_span, 100.0 * errors.backup));
  if (chosen_ != nullptr) add_as_taped("chosen", *chosen_);
  add_as_taped(kOwn, report_.own);
  add_touch();
}

std::string Report::drop_change(const JudgedLayout& layout, std::size_t bay) const {
  const BayTouch& touch = layout.touch[bay - 1];
  return fmt::format("bay {} ({}, ankle margin {})", bay, signed_text(touch.drop, Measure::small_length, units_),
                     signed_text(touch.ankle_margin, Measure::small_length, units_));
}

std::string Report::return_change(const JudgedLayout& layout, std::size_t bay) const {
  return fmt::format("bay {} ({:+.1f} points)", bay, 100.0 * layout.touch[bay - 1].returned);
}

std::string Report::touched(const JudgedLayout& layout, double BayTouch::* of, std::size_t most) const {
  std::vector<std::string> bays;
  for (const std::size_t bay : touchiest(layout.touch, most, of)) {
    bays.push_back(of == &BayTouch::drop ? drop_change(layout, bay) : return_change(layout, bay));
  }
  return fmt::format("{}", fmt::join(bays, ", "));
}

void Report::add_touch() {
  constexpr std::size_t kNamed = 3;   // of the chosen layout
  add_line("");
  add_words(fmt::format("Where {0} of backup too much in one bay does most ({0} too little does the opposite):",
                        quantity(kTouch, Measure::small_length)));
  if (chosen_ != nullptr && !chosen_->touch.empty()) {
    add_labelled("-", fmt::format("chosen, drop: {}.", touched(*chosen_, &BayTouch::drop, kNamed)), 2);
    add_labelled("-", fmt::format("chosen, small %: {}.", touched(*chosen_, &BayTouch::returned, kNamed)), 2);
  }
  for (const Shown& line : shown()) {
    if (line.layout.touch.empty()) {
      add_labelled("-", fmt::format("{}: no number, so much less pulls a loop taut.", line.name), 2);
    } else if (&line.layout != chosen_) {
      add_labelled("-", fmt::format("{}, drop: {}; small %: {}.", line.name, touched(line.layout, &BayTouch::drop, 1),
                                    touched(line.layout, &BayTouch::returned, 1)), 2);
    }
  }
}

void Report::add_practice() {
  const Practice& practice = report_.practice;
  const std::vector<std::size_t> outside(practice.outside.begin(), practice.outside.end());
  add_heading("Common practice, no source");
  add_words(fmt::format("Bays of {}. The chosen layout {}{}.", practice.words, practice.agrees ? "keeps to it" : "departs from it",
                        outside.empty() ? "" : " in " + bays_text(outside)));
}

void Report::add_verdict() {
  const std::vector<Check>& checks = proven()->checks;
  add_heading("The chosen layout, planned like any rig");
  add_words(fmt::format("Verdict: {} ({})", verdict_word(worst(checks)), verdict_counts(checks)));
  if (worst(checks) == Verdict::stop && proven()->breaks.empty()) {
    add_words("The rig as it is gets every one of these stops too, and none of them is worse here.");
  }
  for (const std::string& words : proven()->breaks) add_labelled("-", "breaks a limit: " + words, 2);
  std::vector<Check> open;
  for (const Check& check : checks) {
    if (check.verdict != Verdict::ok) open.push_back(check);
  }
  add_checks(*this, open, units_);
}

void Report::add_goodness() {
  add_heading("How good the numbers are");
  const auto add = [this](const std::string& words) { add_labelled("-", words, 2); };
  add(fmt::format("Looked for: {}.", bounds_words()));
  add(fmt::format("{} layouts judged by small motion, {} of them in full-size shakes while searching, {} shaken again in the end. "
                  "A search is no proof that nothing is better: another seed (this one: {}) may find another layout.",
                  report_.judged, report_.glanced, report_.shaken, report_.seed));
  add(fmt::format("Every full-size shake is a run of the whole line whose energy adds up to within {:g} % of what was put in. For "
                  "speed the backup is softer in it than it is; its loops hang and snap all the same. The webbing data, most of "
                  "all their loss, decide the rest.", 100.0 * kGlanceDrift));
}

}  // namespace

std::string space_text(const Rig& rig, const SpaceReport& report, const SheetInfo& info) {
  return Report(rig, report, info).write();
}

}  // namespace spanloom
