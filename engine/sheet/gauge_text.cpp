#include "sheet/gauge_text.h"

#include <algorithm>
#include <cmath>
#include <vector>

#include <fmt/format.h>

#include "checks/verdicts.h"
#include "sheet/check_pages.h"
#include "sheet/check_text.h"
#include "sheet/key_numbers.h"
#include "sheet/text_table.h"
#include "sheet/words.h"

namespace spanloom {
namespace {

class Report : private PlainText {
 public:
  Report(const Rig& rig, const Readings& readings, const GaugeReport& report, const SheetInfo& info)
      : rig_(rig), readings_(readings), report_(report), info_(info), units_(info.units) {}

  std::string write() {
    add_head();
    add_work();
    add_methods();
    add_readings();
    add_loops();
    add_line_found();
    add_heading("Checks of the line as it hangs");
    add_checks(*this, report_.checks, units_);
    add_list("Less sure", report_.less_sure);
    add_list("Notes", report_.notes);
    add_list("Assumed of readings and line, not stated", report_.assumed);
    add_list("Our defaults, not stated in the rig file", assumed_inputs(report_.checks));
    add_list("Cautions", cautions());
    return text();
  }

 private:
  std::string number(double si, Measure measure) const { return number_text(si, measure, units_); }
  std::string force(double si) const { return quantity_text(si, Measure::force, units_); }
  std::string length(double si) const { return quantity_text(si, Measure::length, units_); }
  std::string small(double si) const { return quantity_text(si, Measure::small_length, units_); }
  std::string with_unit(std::string_view head, Measure measure) const {
    return fmt::format("{} {}", head, unit_text(measure, units_));
  }
  Measure measure_of_reading(const GaugedReading& reading) const {
    return reading.method == GaugeMethod::marks ? Measure::small_length : Measure::length;
  }
  // Pull and its uncertainty in one unit.
  std::string pull_text(double metres) const {
    return quantity_text(metres, measure_of("m", report_.pull_stretched, report_.pull), units_);
  }
  std::string value_of(const GaugedReading& reading, double value) const;

  void add_head();
  std::string answer() const;
  std::string main_to_do() const;
  /// What is left is more than chance leaves, three standard deviations of chi squared above its mean.
  bool readings_contradict() const { return report_.advice == MainAdvice::read_again; }
  std::vector<std::string> loops_to_do() const;
  std::string loops_in_short() const;
  std::string by_in_short() const;
  void add_work();
  void add_methods();
  void add_readings();
  void add_outliers();
  void add_loops();
  void add_line_found();

  const Rig& rig_;
  const Readings& readings_;
  const GaugeReport& report_;
  const SheetInfo& info_;
  const UnitSystem units_;
};

std::string Report::value_of(const GaugedReading& reading, double value) const {
  if (reading.unit == "m") return quantity_text(value, measure_of_reading(reading), units_);
  if (reading.unit == "s") return quantity_text(value, Measure::duration, units_);
  return fmt::format("{:.3f} {}", value, reading.unit);
}

std::string Report::answer() const {
  if (!report_.from_readings) {
    return fmt::format("Only drops were read: the tension is taken as planned, {}.", force(report_.planned_tension));
  }
  return fmt::format("{}, 95 % between {} and {}; planned {}.", force(report_.tension), number(report_.interval.low, Measure::force),
                     force(report_.interval.high), force(report_.planned_tension));
}

std::string Report::by_in_short() const {
  std::string words;
  for (const MethodTension& by : report_.by) {
    words += fmt::format("{}{} {}", words.empty() ? "" : ", ", name_of(by.method), force(by.tension));
  }
  return fmt::format("By method: {}; planned {}.", words.empty() ? "none" : words, force(report_.planned_tension));
}

std::string Report::main_to_do() const {
  const std::string much = fmt::format("{} of main (+-{}), as it comes through the clamp", pull_text(std::abs(report_.pull_stretched)),
                                       pull_text(report_.pull_sd));
  switch (report_.advice) {
    case MainAdvice::leave: return "Leave the main as it is.";
    case MainAdvice::pull_in: return fmt::format("Pull in {}.", much);
    case MainAdvice::let_out: return fmt::format("Let out {}.", much);
    case MainAdvice::measure_more:
    case MainAdvice::read_again: break;
  }
  return "Measure more before you touch the main: the tension is not known well enough.";
}

std::vector<std::string> Report::loops_to_do() const {
  std::vector<std::string> all;
  for (const GaugedLoop& loop : report_.loops) {
    if (!loop.retape) continue;
    all.push_back(fmt::format("Bay {}: {} {} of backup{}{}.", loop.bay + 1, loop.let_in < 0.0 ? "take out" : "let in",
                              small(std::abs(loop.let_in)), loop.why.empty() ? "" : ": ", loop.why));
  }
  return all;
}

std::string Report::loops_in_short() const {
  std::string bays;
  int count = 0;
  for (const GaugedLoop& loop : report_.loops) {
    if (loop.retape) bays += fmt::format("{}{}", count++ > 0 ? ", " : "", loop.bay + 1);
  }
  return count == 0 ? "" : fmt::format(" Retape the {} of bay{} {}.", count > 1 ? "loops" : "loop", count > 1 ? "s" : "", bays);
}

void Report::add_head() {
  add_words(rig_.title);
  add_line(std::string(kTextColumns, '='));
  if (readings_contradict()) {
    add_words("THE READINGS CONTRADICT EACH OTHER: read again before you touch anything.");
    add_words(by_in_short());
  } else {
    add_words(answer());
    add_words(main_to_do() + loops_in_short());
  }
  add_words(fmt::format("Verdict of the line as it hangs: {} ({}){}", verdict_word(worst(report_.checks)), verdict_counts(report_.checks),
                        report_.less_sure.empty() ? "" : "; worse at an end of the 95 %: see Less sure"));
  add_line("");
  add_words(fmt::format("Gauge: {}, {}, spanloom {}", info_.file_name, info_.date, info_.version));
  if (!readings_.title.empty()) add_words(fmt::format("Readings: {}", readings_.title));
  add_words(cautions().front());
}

void Report::add_work() {
  std::vector<std::string> work;
  if (readings_contradict()) {
    add_heading("What to do");
    add_words("Read again, and something else besides, until the readings agree within their uncertainties. Until then leave main and "
              "loops as they are.");
    return;
  }
  for (const GaugedReading& reading : report_.readings) {
    if (reading.left_out) work.push_back(fmt::format("Read again: {}. It was left out; the rest of this list counts on the others.", reading.words));
  }
  std::string main = main_to_do();
  if (report_.advice == MainAdvice::pull_in || report_.advice == MainAdvice::let_out) {
    main += fmt::format(" Unloaded that is {} of webbing. The tapes stay where they are on the main.", pull_text(std::abs(report_.pull)));
  }
  work.push_back(std::move(main));
  for (std::string& loop : loops_to_do()) work.push_back(std::move(loop));
  if (work.size() > 1 || report_.advice != MainAdvice::leave) work.push_back("Then read again, and gauge again.");
  add_heading("What to do, in this order");
  for (std::size_t i = 0; i < work.size(); ++i) add_labelled(fmt::format("{}.", i + 1), work[i], 3);
}

void Report::add_methods() {
  if (report_.by.empty()) return;
  add_heading("Tension by method");
  TextTable table({"method", unit_text(Measure::force, units_), "+-", "readings"});
  for (const MethodTension& by : report_.by) {
    const auto of_it = [&](const GaugedReading& reading) { return reading.method == by.method && !reading.left_out; };
    table.add({name_of(by.method), number(by.tension, Measure::force), number(by.sd, Measure::force),
               std::to_string(std::count_if(report_.readings.begin(), report_.readings.end(), of_it))});
  }
  table.add({"all together", number(report_.tension, Measure::force), number(report_.tension_sd, Measure::force),
             std::to_string(std::count_if(report_.readings.begin(), report_.readings.end(),
                                          [](const GaugedReading& reading) { return !reading.left_out; }))});
  add_table(table);
  add_words("Of the main at the near anchor, standing. +-: one standard deviation; within twice that it is in 95 of 100 cases.");
}

void Report::add_readings() {
  if (report_.readings.empty()) return;
  add_heading("Readings");
  TextTable table({"what", "read", "+-", "line", "off", unit_text(Measure::force, units_)});
  for (const GaugedReading& reading : report_.readings) {
    std::vector<std::string> row = {reading.words, value_of(reading, reading.read), value_of(reading, reading.sd),
                                    reading.fitted ? value_of(reading, *reading.fitted) : "-", fmt::format("{:+.1f}", reading.off),
                                    reading.tension ? number(*reading.tension, Measure::force) : "-"};
    if (reading.left_out) row.push_back("out");
    table.add(std::move(row));
  }
  add_table(table);
  add_words("line: what the line at the tension found should read. off: the reading against what all others foretell, in standard "
            "deviations. Last: the tension from this reading alone.");
  if (report_.freedom > 0) {
    add_words(fmt::format("Sum of squares of what is left: {:.1f}, with {} more than needed; about as much is usual, twice as much is "
                          "not.", report_.misfit, count_text(report_.freedom, "reading", "readings")));
  }
  add_outliers();
  for (const GaugedReading& reading : report_.readings) {
    for (const std::string& note : reading.notes) add_labelled("-", fmt::format("{}: {}", reading.words, note), 2);
  }
}

void Report::add_outliers() {
  for (const GaugedReading& reading : report_.readings) {
    if (!reading.left_out) continue;
    add_labelled("-", fmt::format("LEFT OUT: {}: read {}, {:.1f} standard deviations off what the others foretell. A miscount is likely; "
                                  "if it reads the same again, another reading or the rig file is wrong.",
                                  reading.words, value_of(reading, reading.read), std::abs(reading.off)), 2);
  }
}

void Report::add_loops() {
  if (report_.loops.empty()) return;
  const std::string unit = unit_text(Measure::small_length, units_);
  add_heading(fmt::format("Loops as they hang, {}", unit));
  TextTable table({"bay", "planned drop", "read", "found", "+-", "let in", "+-", "slack %"});
  for (const GaugedLoop& loop : report_.loops) {
    std::vector<std::string> row = {std::to_string(loop.bay + 1), number(loop.planned_drop, Measure::small_length),
                                    loop.read_drop ? number(*loop.read_drop, Measure::small_length) : "-",
                                    number(loop.drop, Measure::small_length), number(loop.drop_sd, Measure::small_length),
                                    number(loop.let_in, Measure::small_length), number(loop.length_sd, Measure::small_length),
                                    number(loop.slack, Measure::share)};
    if (loop.retape) row.push_back("retape");
    table.add(std::move(row));
  }
  add_table(table);
  add_words("let in: backup that the loop lacks for the planned length, below 0: has too much. What hangs otherwise only because "
            "the tension does needs no new tape.");
}

void Report::add_line_found() {
  add_heading("The line found, against the rig file");
  add_labelled("mass of webbing", fmt::format("{} times", number(report_.mass_factor, Measure::ratio)), 24);
  add_labelled("stretch at a tension", fmt::format("{} times", number(report_.stretch_factor, Measure::ratio)), 24);
  add_labelled("gap", fmt::format("{}, in the file {}", length(report_.gap), length(rig_.site.gap)), 24);
  add_labelled("main, unloaded", length(report_.main_length), 24);
}

}  // namespace

std::string gauge_text(const Rig& rig, const Readings& readings, const GaugeReport& report, const SheetInfo& info) {
  return Report(rig, readings, report, info).write();
}

}  // namespace spanloom
