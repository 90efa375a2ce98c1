#include "record/entries_csv.h"

#include <fmt/format.h>

#include "record/check_entry.h"
#include "record/record_text.h"

namespace spanloom {
namespace {

constexpr double kHour = 3600.0;  // [s]

/// A text in quotes; those within it twice (RFC 4180, section 2, rules 5 to 7).
std::string quoted(const std::string& text) {
  std::string out = "\"";
  for (const char c : text) out += c == '"' ? std::string("\"\"") : std::string(1, c);
  return out + '"';
}

std::string cell(const std::optional<double>& value) { return value ? fmt::format("{:g}", *value) : ""; }

/// from,to,days,sun,wet days,greatest force
std::string numbers_of(const Entry& entry) {
  if (const auto* h = std::get_if<TimeHung>(&entry.detail)) {
    return fmt::format("{},{},{},{:g},{},{}", h->range ? day_text(h->range->from) : "",
                       h->range ? day_text(h->range->to) : "", h->days, h->sun / kHour, h->wet_days, cell(h->tension));
  }
  if (const auto* e = std::get_if<LoggedEvent>(&entry.detail)) return ",,,,," + cell(e->force);
  if (const auto* m = std::get_if<Measured>(&entry.detail)) return ",,,,," + cell(m->tension);
  return ",,,,,";
}

}  // namespace

std::string entries_csv(const Record& record) {
  std::string out =
      "entry,kind,date,written at,webbings,rig,from,to,days,sun [h],wet days,force [N],in words,struck out because\r\n";
  for (const Entry& entry : record.entries) {
    std::string names;
    for (const EntryWebbing& link : entry.webbings)
      names += (names.empty() ? "" : "; ") + name_of_webbing(link.webbing, record);
    out += fmt::format("{},{},{},{},{},{},{},{},{}\r\n", entry.number, name_of_kind(entry.detail), day_text(entry.day),
                       entry.written_at, quoted(names), entry.rig ? std::to_string(*entry.rig) : "", numbers_of(entry),
                       quoted(entry_words(entry, record, UnitSystem::metric)),
                       quoted(entry.strike ? entry.strike->reason : ""));
  }
  return out;
}

}  // namespace spanloom
