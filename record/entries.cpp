#include "record/entries.h"

#include <algorithm>
#include <cctype>

namespace spanloom {
namespace {

template <class Detail>
std::vector<const Entry*> valid_of(const Record& record) {
  std::vector<const Entry*> out;
  for (const Entry& entry : record.entries) {
    if (!entry.strike && std::holds_alternative<Detail>(entry.detail)) out.push_back(&entry);
  }
  return out;
}

}  // namespace

bool same_name(std::string_view a, std::string_view b) {
  const auto lower = [](char c) { return std::tolower(static_cast<unsigned char>(c)); };
  return std::equal(a.begin(), a.end(), b.begin(), b.end(), [&](char x, char y) { return lower(x) == lower(y); });
}

const Entry* Record::find(EntryNumber number) const {
  const auto at = std::find_if(entries.begin(), entries.end(), [&](const Entry& e) { return e.number == number; });
  return at == entries.end() ? nullptr : &*at;
}

const Entry* Record::webbing_named(std::string_view name) const {
  for (const Entry* entry : webbings()) {
    if (same_name(std::get<LoggedWebbing>(entry->detail).name, name)) return entry;
  }
  return nullptr;
}

std::vector<const Entry*> Record::webbings() const { return valid_of<LoggedWebbing>(*this); }
std::vector<const Entry*> Record::rigs() const { return valid_of<LoggedRig>(*this); }

std::vector<const Entry*> Record::of_webbing(EntryNumber webbing) const {
  std::vector<const Entry*> out;
  for (const Entry& entry : entries) {
    if (entry.number == webbing || names(entry, webbing)) out.push_back(&entry);
  }
  return out;
}

const Entry* Record::retired(EntryNumber webbing) const {
  for (const Entry* entry : valid_of<Retired>(*this)) {
    if (names(*entry, webbing)) return entry;
  }
  return nullptr;
}

const char* name_of_kind(const EntryDetail& detail) {
  constexpr const char* kNames[] = {"webbing", "rig", "hung", "event", "measured", "rule", "retired", "note"};
  static_assert(std::size(kNames) == std::variant_size_v<EntryDetail>);
  return kNames[detail.index()];
}

const char* name_of(EventKind kind) {
  constexpr const char* kNames[] = {"leash fall", "main failure", "other"};
  return kNames[static_cast<int>(kind)];
}

const char* name_of(RuleMeasure measure) {
  constexpr const char* kNames[] = {"days_hung", "sun_s", "wet_days", "falls", "age_months", "force_share", "force_N"};
  return kNames[static_cast<int>(measure)];
}

const char* name_of(Role role) { return role == Role::main ? "main" : "backup"; }

}  // namespace spanloom
