#include "record/store.h"

#include <map>
#include <set>

#include <fmt/format.h>

namespace spanloom {
namespace {

[[noreturn]] void refuse(const Database& database, EntryNumber entry, const std::string& what) {
  throw RecordError(fmt::format("{}: damaged: entry {} {}; put a copy in its place, and keep this one to look into",
                                database.file(), entry, what));
}

template <class Choice, std::size_t N>
Choice one_of(const Database& database, EntryNumber entry, const std::string& read, const Choice (&choices)[N]) {
  for (const Choice choice : choices) {
    if (read == name_of(choice)) return choice;
  }
  refuse(database, entry, "holds the unknown word \"" + read + '"');
}

constexpr EventKind kEvents[] = {EventKind::leash_fall, EventKind::main_failure, EventKind::other};
constexpr RuleMeasure kMeasures[] = {RuleMeasure::days_hung, RuleMeasure::sun, RuleMeasure::wet_days,
                                     RuleMeasure::falls,     RuleMeasure::age, RuleMeasure::force_share,
                                     RuleMeasure::force};
constexpr Role kRoles[] = {Role::main, Role::backup};

std::optional<std::string> text_of(const std::optional<Day>& day) {
  return day ? std::optional(day_text(*day)) : std::nullopt;
}

/// The rows of a kind of entry, into the tables and back.
class Details {
 public:
  explicit Details(Database& database) : db_(database) {}

  void add(EntryNumber n, const LoggedWebbing& w) {
    Statement insert(db_, "INSERT INTO webbing VALUES (?, ?, ?, ?, ?, ?)");
    (insert << n << w.name << w.kind << w.length << w.strength << text_of(w.new_on)).run();
  }
  void add(EntryNumber n, const LoggedRig& r) {
    Statement insert(db_, "INSERT INTO rig VALUES (?, ?, ?, ?, ?, ?, ?, ?)");
    (insert << n << r.title << r.place << r.text << r.gap << r.tension_near << r.tension_far << r.walker_tension_max)
        .run();
    for (const LoggedFile& side : r.side_files) {
      Statement one(db_, "INSERT INTO rig_side_file VALUES (?, ?, ?)");
      (one << n << side.name << side.text).run();
    }
  }
  void add(EntryNumber n, const TimeHung& h) {
    Statement insert(db_, "INSERT INTO hung VALUES (?, ?, ?, ?, ?, ?, ?)");
    const auto from = h.range ? std::optional(h.range->from) : std::nullopt,
               to = h.range ? std::optional(h.range->to) : std::nullopt;
    (insert << n << text_of(from) << text_of(to) << h.days << h.sun << h.wet_days << h.tension).run();
  }
  void add(EntryNumber n, const LoggedEvent& e) {
    Statement insert(db_, "INSERT INTO event VALUES (?, ?, ?)");
    (insert << n << name_of(e.what) << e.force).run();
  }
  void add(EntryNumber n, const Measured& m) {
    Statement insert(db_, "INSERT INTO measured VALUES (?, ?, ?, ?)");
    (insert << n << m.tension << m.tension_sd << m.json).run();
    for (std::size_t i = 0; i < m.by.size(); ++i) {
      Statement one(db_, "INSERT INTO measured_by VALUES (?, ?, ?, ?, ?)");
      (one << n << static_cast<std::int64_t>(i) << m.by[i].method << m.by[i].tension << m.by[i].sd).run();
    }
  }
  void add(EntryNumber n, const Rule& r) {
    Statement insert(db_, "INSERT INTO rule VALUES (?, ?, ?, ?)");
    (insert << n << name_of(r.measure) << r.limit << r.kind).run();
  }
  void add(EntryNumber, const Retired&) {}
  void add(EntryNumber, const Note&) {}

 private:
  Database& db_;
};

/// Reads table after table into the entries that they belong to.
class Reader {
 public:
  explicit Reader(Database& database) : db_(database) {}

  Record record() {
    entries();
    webbings_and_rigs();
    use();
    measured();
    rules();
    links();
    for (const Entry& entry : record_.entries) {
      const bool plain = std::holds_alternative<Retired>(entry.detail) || std::holds_alternative<Note>(entry.detail);
      if (!plain && !whole_.contains(entry.number)) refuse(db_, entry.number, "has lost what it says");
    }
    return std::move(record_);
  }

 private:
  Entry& entry_of(Statement& row) {
    const EntryNumber number = row.whole();
    const auto at = places_.find(number);
    if (at == places_.end()) refuse(db_, number, "is missing");
    return record_.entries[at->second];
  }
  template <class Detail>
  Detail& detail_of(Statement& row) {
    Entry& entry = entry_of(row);
    whole_.insert(entry.number);
    if (auto* detail = std::get_if<Detail>(&entry.detail)) return *detail;
    refuse(db_, entry.number, "holds what its kind does not have");
  }
  Day day_of(EntryNumber entry, const std::string& text) {
    const auto day = parse_day(text);
    if (!day) refuse(db_, entry, "holds the day \"" + text + '"');
    return *day;
  }

  void entries() {
    static const std::map<std::string, EntryDetail> kBlank = {
        {"webbing", LoggedWebbing{}}, {"rig", LoggedRig{}},   {"hung", TimeHung{}}, {"event", LoggedEvent{}},
        {"measured", Measured{}},     {"retired", Retired{}}, {"rule", Rule{}},     {"note", Note{}}};
    Statement row(db_,
                  "SELECT id, kind, day, written_at, words, (SELECT day FROM strike WHERE entry_id = id), "
                  "(SELECT reason FROM strike WHERE entry_id = id) FROM entry ORDER BY id");
    while (row.next()) {
      Entry entry;
      entry.number = row.whole();
      const auto blank = kBlank.find(row.text());
      if (blank == kBlank.end()) refuse(db_, entry.number, "is of an unknown kind");
      entry.detail = blank->second;
      entry.day = day_of(entry.number, row.text());
      entry.written_at = row.text();
      entry.words = row.text();
      const auto struck = row.maybe_text();
      if (struck) entry.strike = Strike{day_of(entry.number, *struck), row.text()};
      places_[entry.number] = record_.entries.size();
      record_.entries.push_back(std::move(entry));
    }
  }

  void webbings_and_rigs() {
    Statement webbing(db_, "SELECT * FROM webbing");
    while (webbing.next()) {
      auto& w = detail_of<LoggedWebbing>(webbing);
      w.name = webbing.text(), w.kind = webbing.text();
      w.length = webbing.maybe_number(), w.strength = webbing.maybe_number();
      if (const auto day = webbing.maybe_text()) w.new_on = day_of(0, *day);
    }
    Statement rig(db_, "SELECT * FROM rig");
    while (rig.next()) {
      auto& r = detail_of<LoggedRig>(rig);
      r.title = rig.text(), r.place = rig.text(), r.text = rig.text(), r.gap = rig.number();
      r.tension_near = rig.number(), r.tension_far = rig.number(), r.walker_tension_max = rig.number();
    }
    Statement side(db_, "SELECT * FROM rig_side_file");
    while (side.next()) {
      auto& r = detail_of<LoggedRig>(side);
      LoggedFile file{side.text(), side.text()};
      r.side_files.push_back(std::move(file));
    }
  }

  void use() {
    Statement hung(db_, "SELECT * FROM hung");
    while (hung.next()) {
      auto& h = detail_of<TimeHung>(hung);
      const auto from = hung.maybe_text(), to = hung.maybe_text();
      if (from && to) h.range = DayRange{day_of(0, *from), day_of(0, *to)};
      h.days = static_cast<int>(hung.whole()), h.sun = hung.number(), h.wet_days = static_cast<int>(hung.whole());
      h.tension = hung.maybe_number();
    }
    Statement event(db_, "SELECT * FROM event");
    while (event.next()) {
      auto& e = detail_of<LoggedEvent>(event);
      e.what = one_of(db_, 0, event.text(), kEvents);
      e.force = event.maybe_number();
    }
  }

  void measured() {
    Statement row(db_, "SELECT * FROM measured");
    while (row.next()) {
      auto& m = detail_of<Measured>(row);
      m.tension = row.number(), m.tension_sd = row.number(), m.json = row.text();
    }
    Statement by(db_, "SELECT entry_id, method, tension_N, sd_N FROM measured_by ORDER BY entry_id, number");
    while (by.next()) {
      auto& m = detail_of<Measured>(by);
      GaugedBy& method = m.by.emplace_back();
      method.method = by.text(), method.tension = by.number(), method.sd = by.number();
    }
  }

  void rules() {
    Statement row(db_, "SELECT * FROM rule");
    while (row.next()) {
      auto& r = detail_of<Rule>(row);
      r.measure = one_of(db_, 0, row.text(), kMeasures);
      r.limit = row.number(), r.kind = row.maybe_text();
    }
  }

  void links() {
    Statement webbing(db_, "SELECT * FROM entry_webbing");
    while (webbing.next()) {
      Entry& entry = entry_of(webbing);
      EntryWebbing& link = entry.webbings.emplace_back();
      link.webbing = webbing.whole();
      if (const auto role = webbing.maybe_text()) link.role = one_of(db_, entry.number, *role, kRoles);
    }
    Statement rig(db_, "SELECT * FROM entry_rig");
    while (rig.next()) {
      Entry& entry = entry_of(rig);
      entry.rig = rig.whole();
    }
  }

  Database& db_;
  Record record_;
  std::map<EntryNumber, std::size_t> places_;
  std::set<EntryNumber> whole_;  // their own table has them too
};

}  // namespace

Record read_record(Database& database) {
  database.run("SAVEPOINT reading");  // all tables as they are at one moment
  Record record = Reader(database).record();
  database.run("RELEASE reading");
  return record;
}

EntryNumber append(Database& database, const Entry& entry) {
  Statement insert(database, "INSERT INTO entry (kind, day, written_at, words) VALUES (?, ?, ?, ?)");
  (insert << name_of_kind(entry.detail) << day_text(entry.day) << entry.written_at << entry.words).run();
  const EntryNumber number = database.last_number();
  std::visit([&](const auto& detail) { Details(database).add(number, detail); }, entry.detail);
  for (const EntryWebbing& link : entry.webbings) {
    Statement one(database, "INSERT INTO entry_webbing VALUES (?, ?, ?)");
    (one << number << link.webbing << (link.role ? std::optional<std::string>(name_of(*link.role)) : std::nullopt))
        .run();
  }
  if (entry.rig) {
    Statement one(database, "INSERT INTO entry_rig VALUES (?, ?)");
    (one << number << *entry.rig).run();
  }
  return number;
}

void append_strike(Database& database, EntryNumber entry, const Strike& strike) {
  Statement insert(database, "INSERT INTO strike VALUES (?, ?, ?, ?)");
  (insert << entry << day_text(strike.day) << written_now() << strike.reason).run();
}

}  // namespace spanloom
