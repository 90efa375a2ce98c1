#include "record/check_entry.h"

#include <algorithm>

#include <fmt/format.h>
#include <fmt/ranges.h>

#include "base/utf8.h"
#include "files/file_error.h"
#include "files/suggest.h"

namespace spanloom {
namespace {

constexpr std::size_t kLongestName = 80, kLongestWords = 4000;
constexpr double kDay = 86400.0;  // [s]

bool is_plain_text(std::string_view text) {
  for (std::size_t at = 0; at < text.size();) {
    const Utf8Character letter = read_utf8(text, at);
    const bool control = letter.code < 0x20 || letter.code == 0x7f;
    if (!letter.whole || (control && letter.code != '\n' && letter.code != '\t')) return false;
    at += letter.bytes;
  }
  return true;
}

/// Checks one entry and gathers what is wrong.
class EntryCheck {
 public:
  EntryCheck(const Entry& entry, const Record& record, Day today) : entry_(entry), record_(record), today_(today) {}

  std::vector<Problem> problems() {
    if (entry_.day > today_) add("--date", day_text(entry_.day), "a day up to today, " + day_text(today_));
    text("--words", entry_.words, kLongestWords);
    std::visit([this](const auto& detail) { check(detail); }, entry_.detail);
    return std::move(problems_);
  }

 private:
  void add(std::string key, std::string read, std::string expected, std::string cure = "") {
    problems_.push_back({std::move(key), std::move(read), std::move(expected), std::move(cure)});
  }

  void text(const char* key, const std::string& text, std::size_t longest) {
    if (!is_plain_text(text)) add(key, in_quotes(text), "letters as UTF-8, without control characters");
    if (utf8_length(text) > longest) add(key, in_quotes(text), fmt::format("at most {} letters", longest));
  }

  void name(const char* key, const std::string& text_of_name) {
    text(key, text_of_name, kLongestName);
    if (text_of_name.find_first_not_of(" \t\n") == std::string::npos) add(key, in_quotes(text_of_name), "a name");
  }

  void check(const LoggedWebbing& webbing) {
    name("NAME", webbing.name);
    name("--kind", webbing.kind);
    if (const Entry* other = record_.webbing_named(webbing.name)) {
      add("NAME", in_quotes(webbing.name), "a name that no other webbing has",
          fmt::format("entry {} has it: mark this piece otherwise", other->number));
    }
    if (webbing.new_on && *webbing.new_on > entry_.day) {
      add("--new", day_text(*webbing.new_on), "a day up to that of the entry, " + day_text(entry_.day));
    }
  }

  void check(const LoggedRig& rig) {
    text("--place", rig.place, kLongestWords);
    for (const EntryWebbing& link : entry_.webbings) in_use(link.webbing, entry_.day, entry_.day, "--date");
  }

  void check(const TimeHung& hung) {
    const Day last = hung.range ? hung.range->to : entry_.day;
    if (hung.range && hung.range->to < hung.range->from) {
      return add("--to", day_text(hung.range->to), "a day not before --from, " + day_text(hung.range->from));
    }
    if (last > today_) add("--to", day_text(last), "a day up to today, " + day_text(today_), "log it when it hung");
    if (hung.days < 1) return add("--days", std::to_string(hung.days), "one day or more");
    if (hung.wet_days > hung.days)
      add("--wet-days", std::to_string(hung.wet_days), fmt::format("at most the days it hung, {}", hung.days));
    if (hung.sun > kDay * hung.days) {
      add("--sun", fmt::format("{:g} h", hung.sun / 3600.0),
          fmt::format("at most the {} h of {} days", 24 * hung.days, hung.days));
    }
    const Day first = hung.range ? hung.range->from : entry_.day;
    for (const EntryWebbing& link : entry_.webbings)
      in_use(link.webbing, first, last, hung.range ? "--from" : "--date");
  }

  void check(const LoggedEvent&) {
    for (const EntryWebbing& link : entry_.webbings) born(link.webbing, entry_.day, "--date");
  }

  void check(const Measured&) {}
  void check(const Note&) {}

  void check(const Rule& rule) {
    if (rule.kind) name("--kind", *rule.kind);
    for (const Entry& other : record_.entries) {
      const auto* set = std::get_if<Rule>(&other.detail);
      if (other.strike || set == nullptr || set->measure != rule.measure || !same_scope(other, *set, rule)) continue;
      add("rule", name_of(rule.measure), "a rule that is not set yet for the same webbing",
          fmt::format("strike out entry {} first", other.number));
    }
  }

  void check(const Retired&) {
    for (const EntryWebbing& link : entry_.webbings) {
      if (const Entry* retired = record_.retired(link.webbing)) {
        add("PIECE", name_of_webbing(link.webbing, record_), "a webbing that is in use",
            fmt::format("entry {} retired it on {}", retired->number, day_text(retired->day)));
      }
      for (const Entry* entry : record_.of_webbing(link.webbing)) {
        const auto* hung = std::get_if<TimeHung>(&entry->detail);
        if (entry->strike || hung == nullptr || !hung->range || hung->range->to <= entry_.day) continue;
        add("--date", day_text(entry_.day),
            fmt::format("a day from {} on, when it still hung by entry {}", day_text(hung->range->to), entry->number));
      }
    }
  }

  bool same_scope(const Entry& other, const Rule& set, const Rule& rule) const {
    if (set.kind.has_value() != rule.kind.has_value() || (set.kind && !same_name(*set.kind, *rule.kind))) return false;
    const auto shared = [&](const EntryWebbing& link) { return names(other, link.webbing); };
    if (entry_.webbings.empty() || other.webbings.empty()) return entry_.webbings.empty() == other.webbings.empty();
    return std::any_of(entry_.webbings.begin(), entry_.webbings.end(), shared);
  }

  void born(EntryNumber number, Day first, const char* key) {
    const Entry* webbing = record_.find(number);
    const auto& new_on = std::get<LoggedWebbing>(webbing->detail).new_on;
    if (!new_on || first >= *new_on) return;
    add(key, day_text(first),
        fmt::format("a day from {} on, when {} was new", day_text(*new_on), name_of_webbing(number, record_)));
  }

  void in_use(EntryNumber number, Day first, Day last, const char* key) {
    born(number, first, key);
    const Entry* retired = record_.retired(number);
    if (retired == nullptr || last <= retired->day) return;
    add(key, day_text(last),
        fmt::format("a day up to {}, when {} was retired", day_text(retired->day), name_of_webbing(number, record_)),
        fmt::format("take another piece; if that entry is wrong, strike out entry {}", retired->number));
  }

  const Entry& entry_;
  const Record& record_;
  Day today_;
  std::vector<Problem> problems_;
};

bool overlap(const DayRange& a, const DayRange& b) { return a.from <= b.to && b.from <= a.to; }

}  // namespace

std::vector<Problem> problems_of(const Entry& entry, const Record& record, Day today) {
  return EntryCheck(entry, record, today).problems();
}

std::vector<Problem> problems_of_strike(EntryNumber number, const Record& record) {
  const Entry* struck = record.find(number);
  const std::string read = std::to_string(number);
  if (struck == nullptr)
    return {{"ENTRY", read, "the number of an entry", "`spanloom log list --entries` has them all"}};
  if (struck->strike)
    return {{"ENTRY", read, "an entry that counts", "it was struck out on " + day_text(struck->strike->day)}};
  std::vector<std::string> users;
  for (const Entry& entry : record.entries) {
    if (!entry.strike && (names(entry, number) || entry.rig == number)) users.push_back(std::to_string(entry.number));
  }
  if (users.empty()) return {};
  return {{"ENTRY", read, "an entry that no other one rests on",
           fmt::format("strike out {} first", fmt::join(users, ", "))}};
}

std::vector<Overlap> overlaps_of(const Entry& entry, EntryNumber webbing, const Record& record) {
  std::vector<Overlap> out;
  const auto* hung = std::get_if<TimeHung>(&entry.detail);
  if (hung == nullptr || !hung->range) return out;
  for (const Entry& other : record.entries) {
    const auto* before = std::get_if<TimeHung>(&other.detail);
    if (other.strike || other.number == entry.number || before == nullptr || !before->range) continue;
    if (!names(other, webbing) || !overlap(*hung->range, *before->range)) continue;
    out.push_back(
        {other.number,
         fmt::format("{} hung in a part of the time of entry {} by entry {} too ({} to {}). Days that they share "
                     "count once, sun and wet days of both are added. If they tell of the same, strike one out.",
                     name_of_webbing(webbing, record), entry.number, other.number, day_text(before->range->from),
                     day_text(before->range->to))});
  }
  return out;
}

const Entry& webbing_called(const std::string& name, const Record& record, const std::string& key) {
  if (const Entry* found = record.webbing_named(name)) return *found;
  std::vector<std::string> known;
  for (const Entry* webbing : record.webbings()) known.push_back(std::get<LoggedWebbing>(webbing->detail).name);
  const std::string nearest = nearest_word(name, known);
  std::string cure = "`spanloom log list` has them; `spanloom log webbing` adds one";
  if (!nearest.empty()) cure = "did you mean " + in_quotes(nearest) + "?";
  throw InputError(key, in_quotes(name), "a webbing of the record", cure);
}

const Entry& rig_called(const std::string& name, const Record& record, const std::string& key) {
  std::vector<const Entry*> found;
  std::vector<std::string> titles, numbers;
  for (const Entry* rig : record.rigs()) {
    const std::string& title = std::get<LoggedRig>(rig->detail).title;
    if (std::to_string(rig->number) == name) return *rig;
    titles.push_back(title);
    if (!same_name(title, name)) continue;
    found.push_back(rig);
    numbers.push_back(std::to_string(rig->number));
  }
  if (found.size() == 1) return *found.front();
  if (found.size() > 1) {
    throw InputError(key, in_quotes(name), "one rig",
                     fmt::format("entries {} have that title: give the number", fmt::join(numbers, ", ")));
  }
  const std::string nearest = nearest_word(name, titles);
  throw InputError(key, in_quotes(name), "the number or title of a rig of the record",
                   nearest.empty() ? "`spanloom log list` has them; `spanloom log rig` adds one"
                                   : "did you mean " + in_quotes(nearest) + "?");
}

std::string name_of_webbing(EntryNumber webbing, const Record& record) {
  const Entry* entry = record.find(webbing);
  if (entry == nullptr || !std::holds_alternative<LoggedWebbing>(entry->detail))
    return fmt::format("entry {}", webbing);
  return std::get<LoggedWebbing>(entry->detail).name;
}

}  // namespace spanloom
