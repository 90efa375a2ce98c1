// What a crew writes down of its webbings, one entry at a time. Entries are numbered as they come; a webbing and a rig
// are known by the number of the entry that brought them in.
#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <variant>
#include <vector>

#include "record/day.h"

namespace spanloom {

using EntryNumber = std::int64_t;

/// A piece of webbing that can be told from others.
struct LoggedWebbing {
  std::string name;                ///< as marked on it; upper and lower case are one
  std::string kind;                ///< what it is sold as or the crew calls it; rules may go by it
  std::optional<double> length;    ///< [m]
  std::optional<double> strength;  ///< breaking strength, new [N]
  std::optional<Day> new_on;       ///< made or first used, as the maker counts age
};

struct LoggedFile {
  std::string name, text;
};

/// A line as it was planned, with what the plan said.
struct LoggedRig {
  std::string title, place;
  std::string text;                              ///< the rig file
  std::vector<LoggedFile> side_files;            ///< that it names
  double gap = 0.0;                              ///< [m]
  double tension_near = 0.0, tension_far = 0.0;  ///< of the main, standing [N]
  double walker_tension_max = 0.0;               ///< greatest of the main under one walker [N]
};

struct DayRange {
  Day from, to;
};  ///< both counted

struct TimeHung {
  std::optional<DayRange> range;  ///< empty: not known
  int days = 0;                   ///< of the range where it is known
  double sun = 0.0;               ///< [s]
  int wet_days = 0;
  std::optional<double> tension;  ///< greatest that the webbing held [N]
};

enum class EventKind { leash_fall, main_failure, other };

struct LoggedEvent {
  EventKind what = EventKind::other;
  std::optional<double> force;  ///< greatest on the webbings that the entry names [N]
};

struct GaugedBy {
  std::string method;
  double tension = 0.0, sd = 0.0;
};  ///< [N]

/// Tension of the main at the near anchor as it was gauged.
struct Measured {
  double tension = 0.0, tension_sd = 0.0;  ///< [N]
  std::vector<GaugedBy> by;
  std::string json;  ///< the whole result
};

enum class RuleMeasure { days_hung, sun, wet_days, falls, age, force_share, force };

/// A limit that the user set. It is for the webbings that the entry names, for those of a kind, or for all.
struct Rule {
  RuleMeasure measure = RuleMeasure::days_hung;
  double limit = 0.0;               ///< days, [s], days, falls, months, [-], [N], by measure
  std::optional<std::string> kind;  ///< of webbing
};

struct Retired {};
struct Note {};

using EntryDetail = std::variant<LoggedWebbing, LoggedRig, TimeHung, LoggedEvent, Measured, Rule, Retired, Note>;

enum class Role { main, backup };

struct EntryWebbing {
  EntryNumber webbing = 0;
  std::optional<Role> role;  ///< of a rig
};

struct Strike {
  Day day;
  std::string reason;
};

struct Entry {
  EntryNumber number = 0;  ///< 0 until it is in the record
  Day day{};
  std::string written_at;              ///< universal time
  std::string words;                   ///< of the user, may be ""
  std::vector<EntryWebbing> webbings;  ///< that it is about; a webbing's own entry names none
  std::optional<EntryNumber> rig;      ///< that it is about
  EntryDetail detail = Note{};
  std::optional<Strike> strike;  ///< struck out: it counts no more
};

/// Everything in the file, in the order it was written.
struct Record {
  std::vector<Entry> entries;

  /// @return null if there is none
  const Entry* find(EntryNumber number) const;
  /// Not struck, by name whatever the case.
  const Entry* webbing_named(std::string_view name) const;
  /// Not struck, in order.
  std::vector<const Entry*> webbings() const;
  std::vector<const Entry*> rigs() const;
  /// Entries that are about a webbing, struck ones too.
  std::vector<const Entry*> of_webbing(EntryNumber webbing) const;
  /// The entry that took a webbing out of use, if there is one.
  const Entry* retired(EntryNumber webbing) const;
};

inline bool names(const Entry& entry, EntryNumber webbing) {
  for (const EntryWebbing& w : entry.webbings) {
    if (w.webbing == webbing) return true;
  }
  return false;
}

/// The same letters, whatever their case (ASCII).
bool same_name(std::string_view a, std::string_view b);

// As the record, its JSON and its CSV name them.
const char* name_of_kind(const EntryDetail& detail);
const char* name_of(EventKind kind);
const char* name_of(RuleMeasure measure);
const char* name_of(Role role);

}  // namespace spanloom
