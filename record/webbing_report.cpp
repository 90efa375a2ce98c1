#include "record/webbing_report.h"

#include <algorithm>
#include <cmath>
#include <set>

#include <fmt/format.h>

#include "record/check_entry.h"
#include "sheet/words.h"

namespace spanloom {
namespace {

constexpr double kHour = 3600.0;      // [s]
constexpr double kCautionFrom = 0.8;  // share of a rule used up
constexpr double kRounding = 1e-9;    // sums of hours must not pass a limit by their last bit

void take_force(const std::optional<double>& force, EntryNumber entry, WebbingUse& use) {
  if (!force) {
    ++use.without_force;
  } else if (!use.force || *force > *use.force) {
    use.force = force, use.force_entry = entry;
  }
}

bool is_for(const Entry& entry, const Rule& rule, const Entry& webbing) {
  if (!entry.webbings.empty()) return names(entry, webbing.number);
  return !rule.kind || same_name(*rule.kind, std::get<LoggedWebbing>(webbing.detail).kind);
}

/// What is used of a limit, or why that is not known.
struct Used {
  std::optional<double> value{};
  double share = 0.0;
  std::string gap{};  // what is missing, though there may be a value
};

Used age(const LoggedWebbing& webbing, double limit_months, Day as_of) {
  if (!webbing.new_on) return {.gap = "The day it was new is not in the record."};
  const Day end = months_after(*webbing.new_on, static_cast<int>(limit_months));
  const double share = double((as_of - *webbing.new_on).count()) / double((end - *webbing.new_on).count());
  return {std::max(0.0, share) * limit_months, std::max(0.0, share)};
}

Used force(const WebbingUse& use, const std::optional<double>& per, double limit) {
  Used used;
  if (!per) return {.gap = "Its strength is not in the record."};
  used.value = use.force.value_or(0.0) / *per;
  used.share = *used.value / limit;
  if (use.without_force > 0) {
    used.gap = fmt::format("{} no force: it may have been greater.",
                           use.without_force == 1 ? "1 entry says" : fmt::format("{} entries say", use.without_force));
  }
  return used;
}

Used used_of(const Rule& rule, const LoggedWebbing& webbing, const WebbingUse& use, Day as_of) {
  const auto plain = [&](double value) { return Used{value, value / rule.limit}; };
  switch (rule.measure) {
    case RuleMeasure::days_hung:
      return plain(use.days);
    case RuleMeasure::sun:
      return plain(use.sun);
    case RuleMeasure::wet_days:
      return plain(use.wet_days);
    case RuleMeasure::falls:
      return plain(use.falls);
    case RuleMeasure::age:
      return age(webbing, rule.limit, as_of);
    case RuleMeasure::force_share:
      return force(use, webbing.strength, rule.limit);
    case RuleMeasure::force:
      return force(use, 1.0, rule.limit);
  }
  return {};
}

const char* unit_of(RuleMeasure measure) {
  switch (measure) {
    case RuleMeasure::days_hung:
    case RuleMeasure::wet_days:
      return "days";
    case RuleMeasure::sun:
      return "s";
    case RuleMeasure::falls:
      return "falls";
    case RuleMeasure::age:
      return "months";
    case RuleMeasure::force:
      return "N";
    case RuleMeasure::force_share:
      break;
  }
  return "-";
}

RuleUse judge(const Entry& entry, const Rule& rule, const LoggedWebbing& webbing, const WebbingUse& use, Day as_of) {
  const Used used = used_of(rule, webbing, use, as_of);
  Check check{.name = name_of(rule.measure),
              .title = title_of(rule.measure),
              .value = used.value.value_or(0.0),
              .limit = rule.limit,
              .unit = unit_of(rule.measure),
              .computed = used.value.has_value(),
              .at_most = true};
  if (used.share > 1.0 + kRounding) {
    check.verdict = Verdict::stop;
    check.words = "Beyond the rule.";
  } else if (used.share >= kCautionFrom - kRounding) {
    check.verdict = Verdict::caution;
    check.words = "Near its end.";
  } else if (!used.gap.empty()) {
    check.verdict = Verdict::caution;
  }
  if (!used.gap.empty()) check.words += (check.words.empty() ? "" : " ") + used.gap;
  return {entry.number, rule.measure, used.share, std::move(check)};
}

void say_verdict(WebbingReport& report) {
  for (const RuleUse& rule : report.rules) report.verdict = std::max(report.verdict, rule.check.verdict);
  const std::string& name = std::get<LoggedWebbing>(report.webbing->detail).name;
  if (report.retired != nullptr) {
    report.verdict = Verdict::stop;
    report.words = fmt::format("{} was retired on {} (entry {}). Do not rig it.", name, day_text(report.retired->day),
                               report.retired->number);
  } else if (const auto strength = std::get<LoggedWebbing>(report.webbing->detail).strength;
             strength && report.use.force && *report.use.force > *strength) {
    report.verdict = Verdict::stop;
    report.words = fmt::format("Entry {} has {} at a force above its strength. Do not rig it; strike the entry if it is wrong.",
                               report.use.force_entry, name);
  } else if (report.rules.empty()) {
    report.verdict = Verdict::caution;
    report.words = fmt::format(
        "No rule is set for {}, so nothing is judged. `spanloom log rule` sets one; none comes with the program.",
        name);
  } else if (report.verdict == Verdict::stop) {
    report.words = fmt::format("{} is beyond a rule that you set. Do not rig it.", name);
  } else if (report.verdict == Verdict::caution) {
    report.words =
        fmt::format("{} is near the end of a rule that you set, or a rule could not be judged in full.", name);
  } else {
    report.words = fmt::format("{} is within every rule that you set.", name);
  }
}

}  // namespace

WebbingUse use_of(EntryNumber webbing, const Record& record) {
  WebbingUse use;
  std::set<Day> days;
  for (const Entry* entry : record.of_webbing(webbing)) {
    if (entry->strike) continue;
    if (const auto* hung = std::get_if<TimeHung>(&entry->detail)) {
      if (!hung->range) use.days += hung->days;
      if (hung->range)
        for (Day day = hung->range->from; day <= hung->range->to; day += std::chrono::days(1)) days.insert(day);
      use.sun += hung->sun;
      use.wet_days += hung->wet_days;
      take_force(hung->tension, entry->number, use);
    } else if (const auto* event = std::get_if<LoggedEvent>(&entry->detail)) {
      use.falls += event->what == EventKind::other ? 0 : 1;
      if (event->force || event->what != EventKind::other) take_force(event->force, entry->number, use);
    } else if (const auto* measured = std::get_if<Measured>(&entry->detail)) {
      take_force(measured->tension, entry->number, use);
    }
  }
  use.days += static_cast<int>(days.size());
  return use;
}

WebbingReport report_on(const Entry& webbing, const Record& record, Day as_of) {
  WebbingReport report;
  report.webbing = &webbing;
  report.retired = record.retired(webbing.number);
  report.history = record.of_webbing(webbing.number);
  // Its own entry is the first, whenever it was written.
  std::stable_sort(std::next(report.history.begin()), report.history.end(),
                   [](const Entry* a, const Entry* b) { return a->day < b->day; });
  report.use = use_of(webbing.number, record);
  for (const Entry& entry : record.entries) {
    const auto* rule = std::get_if<Rule>(&entry.detail);
    if (entry.strike || rule == nullptr || !is_for(entry, *rule, webbing)) continue;
    report.rules.push_back(judge(entry, *rule, std::get<LoggedWebbing>(webbing.detail), report.use, as_of));
  }
  for (const Entry* entry : report.history) {
    if (entry->strike) continue;
    for (const auto& [other, words] : overlaps_of(*entry, webbing.number, record)) {
      if (other < entry->number) report.remarks.push_back(words);
    }
  }
  for (const Entry* entry : report.history) {
    const auto* event = std::get_if<LoggedEvent>(&entry->detail);
    if (entry->strike || event == nullptr || event->what != EventKind::main_failure) continue;
    report.remarks.push_back(fmt::format("Entry {}: a main failed. Find out why before any of it hangs again.", entry->number));
  }
  say_verdict(report);
  return report;
}

std::string measure_text(double value, RuleMeasure measure, UnitSystem units) {
  switch (measure) {
    case RuleMeasure::days_hung:
    case RuleMeasure::wet_days:
      return count_text(std::llround(value), "day", "days");
    case RuleMeasure::sun:
      return fmt::format("{:.1f} h", value / kHour);
    case RuleMeasure::falls:
      return count_text(std::llround(value), "fall", "falls");
    case RuleMeasure::age:
      return fmt::format("{:.1f} months", value);
    case RuleMeasure::force_share:
      return quantity_text(value, Measure::share, units);
    case RuleMeasure::force:
      return quantity_text(value, Measure::force, units);
  }
  return "";
}

const char* title_of(RuleMeasure measure) {
  switch (measure) {
    case RuleMeasure::days_hung:
      return "days hung";
    case RuleMeasure::sun:
      return "hours of sun";
    case RuleMeasure::wet_days:
      return "wet days";
    case RuleMeasure::falls:
      return "falls caught";
    case RuleMeasure::age:
      return "age since new";
    case RuleMeasure::force_share:
      return "greatest force over strength";
    case RuleMeasure::force:
      return "greatest force";
  }
  return "";
}

const std::vector<std::string>& record_cautions() {
  static const std::vector<std::string> kCautions = {
      "Rules are those that you set; none comes with the program. What the maker of the webbing and local rules say "
      "comes first.",
      "A rule met is not proof that the webbing is good: look it over and feel it along its whole length, and retire "
      "it in doubt.",
      "The record knows what was written into it, and nothing else.",
      "A planning aid, not a certificate: have gear and rig checked by a competent rigger.",
  };
  return kCautions;
}

}  // namespace spanloom
