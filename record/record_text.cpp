#include "record/record_text.h"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include "record/check_entry.h"
#include "sheet/key_numbers.h"
#include "sheet/text_table.h"
#include "sheet/words.h"

namespace spanloom {
namespace {

constexpr int kIndent = 18;  // under the words of an entry

std::string with(const char* before, const std::string& words) { return words.empty() ? "" : before + words; }

/// What each kind of entry says of itself, without the webbings and rigs that it names.
class DetailWords {
 public:
  explicit DetailWords(UnitSystem units) : units_(units) {}

  std::string operator()(const LoggedWebbing& w) const {
    std::string words = fmt::format("webbing {} ({}", w.name, w.kind);
    if (w.length) words += ", " + quantity_text(*w.length, Measure::length, units_);
    if (w.strength) words += ", strength " + force(*w.strength);
    if (w.new_on) words += ", new on " + day_text(*w.new_on);
    return words + ")";
  }
  std::string operator()(const LoggedRig& r) const {
    return fmt::format("rig \"{}\"{}: gap {}, standing {}, with a walker up to {} by the plan", r.title,
                       with(" at ", r.place), quantity_text(r.gap, Measure::length, units_), force(r.tension_near),
                       force(r.walker_tension_max));
  }
  std::string operator()(const TimeHung& h) const {
    std::string words =
        h.range ? fmt::format("hung {} to {}: ", day_text(h.range->from), day_text(h.range->to)) : "hung: ";
    words += fmt::format("{}, {} of sun, {}", count_text(h.days, "day", "days"),
                         measure_text(h.sun, RuleMeasure::sun, units_), count_text(h.wet_days, "wet day", "wet days"));
    return words + (h.tension ? ", up to " + force(*h.tension) : ", greatest tension not known");
  }
  std::string operator()(const LoggedEvent& e) const {
    return (e.what == EventKind::other ? "event" : name_of(e.what)) +
           std::string(e.force ? ", up to " + force(*e.force) : ", force not known");
  }
  std::string operator()(const Measured& m) const {
    std::vector<std::string> methods;
    for (const GaugedBy& by : m.by) methods.push_back(by.method);
    return fmt::format("tension gauged at {} +- {} (1 sd){}", force(m.tension), force(m.tension_sd),
                       methods.empty() ? "" : fmt::format(" by {}", fmt::join(methods, ", ")));
  }
  std::string operator()(const Rule& r) const {
    return fmt::format("rule: {} at most {}{}", title_of(r.measure), measure_text(r.limit, r.measure, units_),
                       r.kind ? ", kind " + *r.kind : "");
  }
  std::string operator()(const Retired&) const { return "retired"; }
  std::string operator()(const Note&) const { return "note"; }

 private:
  std::string force(double newtons) const { return quantity_text(newtons, Measure::force, units_); }
  UnitSystem units_;
};

std::string webbing_names(const Entry& entry, const Record& record) {
  std::string all;
  for (const EntryWebbing& link : entry.webbings) {
    all += with(", ", name_of_webbing(link.webbing, record)).substr(all.empty() ? 2 : 0);
    if (link.role) all += fmt::format(" as {}", name_of(*link.role));
  }
  return all;
}

void add_entry(const Entry& entry, const Record& record, UnitSystem units, PlainText& text) {
  text.add_labelled(fmt::format("{:>5} {} ", entry.number, day_text(entry.day)), entry_words(entry, record, units),
                    kIndent);
}

void add_sums(const WebbingUse& use, UnitSystem units, PlainText& text) {
  const auto row = [&](RuleMeasure measure, double value) {
    text.add_labelled(fmt::format("{:<18}", title_of(measure)), measure_text(value, measure, units), kIndent);
  };
  row(RuleMeasure::days_hung, use.days);
  row(RuleMeasure::sun, use.sun);
  row(RuleMeasure::wet_days, use.wet_days);
  row(RuleMeasure::falls, use.falls);
  std::string force =
      use.force ? fmt::format("{} (entry {})", quantity_text(*use.force, Measure::force, units), use.force_entry)
                : "none on record";
  if (use.without_force > 0)
    force += fmt::format("; not known for {}", count_text(use.without_force, "entry", "entries"));
  text.add_labelled(fmt::format("{:<18}", title_of(RuleMeasure::force)), force, kIndent);
}

void add_rules(const WebbingReport& report, UnitSystem units, PlainText& text) {
  TextTable table({"", "verdict", "used", "limit", "used up", "entry"});
  for (const RuleUse& rule : report.rules) {
    const Check& check = rule.check;
    const auto value = [&](double number) { return measure_text(number, rule.measure, units); };
    table.add({check.title, verdict_word(check.verdict), check.computed ? value(check.value) : "not known",
               value(check.limit), check.computed ? quantity_text(rule.share, Measure::share, units) : "not known",
               std::to_string(rule.rule)});
  }
  text.add_table(table);
  for (const RuleUse& rule : report.rules) {
    if (!rule.check.words.empty())
      text.add_words(fmt::format("Rule {}, {}: {}", rule.rule, rule.check.title, rule.check.words));
  }
}

}  // namespace

std::string entry_words(const Entry& entry, const Record& record, UnitSystem units) {
  std::string words = std::visit(DetailWords(units), entry.detail);
  words += with("; ", webbing_names(entry, record));
  if (entry.rig) words += fmt::format("; on rig {}", *entry.rig);
  if (!entry.words.empty()) words += ". " + entry.words;
  if (entry.strike)
    words = fmt::format("STRUCK OUT on {}: {} [it said: {}]", day_text(entry.strike->day), entry.strike->reason, words);
  return words;
}

std::string webbing_text(const WebbingReport& report, const Record& record, UnitSystem units) {
  PlainText text;
  const auto& webbing = std::get<LoggedWebbing>(report.webbing->detail);
  text.add_words("Record of " + std::visit(DetailWords(units), report.webbing->detail));
  text.add_labelled(fmt::format("{:<8}", verdict_word(report.verdict)), report.words, 8);
  text.add_heading("History");
  for (const Entry* entry : report.history) add_entry(*entry, record, units, text);
  text.add_heading("So far");
  add_sums(report.use, units, text);
  if (!report.rules.empty()) {
    text.add_heading("Rules that you set for " + webbing.name);
    add_rules(report, units, text);
  }
  text.add_list("Look at this", report.remarks);
  return text.text();
}

std::string list_text(const std::vector<WebbingReport>& reports, const Record& record, UnitSystem units) {
  PlainText text;
  TextTable webbings({"Webbing", "days", "sun", "wet", "falls", "verdict"});
  for (const WebbingReport& report : reports) {
    const auto& webbing = std::get<LoggedWebbing>(report.webbing->detail);
    const WebbingUse& use = report.use;
    webbings.add({fmt::format("{} ({})", webbing.name, webbing.kind), std::to_string(use.days),
                  measure_text(use.sun, RuleMeasure::sun, units), std::to_string(use.wet_days),
                  std::to_string(use.falls),
                  report.retired != nullptr ? "retired"
                  : report.rules.empty()    ? "no rule"
                                            : verdict_word(report.verdict)});
  }
  text.add_heading("Webbings");
  if (reports.empty()) text.add_words("None yet: `spanloom log webbing` adds one.");
  if (!reports.empty()) text.add_table(webbings);
  text.add_heading("Rigs");
  if (record.rigs().empty()) text.add_words("None yet: `spanloom log rig` adds one.");
  for (const Entry* rig : record.rigs()) add_entry(*rig, record, units, text);
  text.add_heading("Rules that you set");
  bool any = false;
  for (const Entry& entry : record.entries) {
    if (entry.strike || !std::holds_alternative<Rule>(entry.detail)) continue;
    add_entry(entry, record, units, text);
    any = true;
  }
  if (!any) text.add_words("None: nothing is judged. None comes with the program; `spanloom log rule` sets one.");
  return text.text();
}

std::string entries_text(const Record& record, UnitSystem units) {
  PlainText text;
  text.add_heading("Entries");
  for (const Entry& entry : record.entries) add_entry(entry, record, units, text);
  if (record.entries.empty()) text.add_words("None yet.");
  return text.text();
}

std::string cautions_text() {
  PlainText text;
  text.add_list("Cautions", record_cautions());
  return text.text();
}

}  // namespace spanloom
