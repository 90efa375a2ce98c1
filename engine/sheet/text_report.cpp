#include "sheet/text_report.h"

#include <algorithm>
#include <cmath>
#include <iterator>

#include <fmt/format.h>

#include "sheet/check_pages.h"
#include "sheet/check_text.h"
#include "sheet/key_numbers.h"
#include "sheet/text_table.h"
#include "sheet/work_list.h"

namespace spanloom {
namespace {

class Report : private PlainText {
 public:
  Report(const Rig& rig, const Plan& plan, const std::vector<Check>& checks, const SheetInfo& info)
      : rig_(rig), plan_(plan), checks_(checks), info_(info), units_(info.units) {}

  std::string write() {
    add_head();
    add_numbers();
    add_lengths();
    add_bays();
    add_walker();
    add_anchor_loads();
    add_forces();
    add_rescue();
    add_wind();
    add_rings();
    add_heading("Checks");
    add_checks(*this, checks_, units_);
    add_list("Notes", plan_.notes);
    add_list("Our defaults, not stated in the rig file", assumed_inputs(checks_));
    add_certificates();
    add_list("Cautions", cautions());
    return text();
  }

 private:
  // Numbers as this report prints them.
  std::string number(double si, Measure measure) const { return number_text(si, measure, units_); }
  std::string length(double si) const { return quantity_text(si, Measure::length, units_); }
  std::string force(double si) const { return quantity_text(si, Measure::force, units_); }
  std::string length_or_dash(const std::optional<double>& si) const {
    return si ? number(*si, Measure::length) : "-";
  }
  std::string with_unit(std::string_view head, Measure measure) const {
    return fmt::format("{} {}", head, unit_text(measure, units_));
  }

  void add_head();
  void add_numbers();
  void add_lengths();
  void add_bays();
  void add_walker();
  void add_anchor_loads();
  void add_forces();
  void add_rescue();
  void add_wind();
  void add_rings();
  void add_certificates();
  std::vector<std::string> walker_row(const WalkerPlace& place, const std::string& remark) const;
  TextTable walker_table() const;
  std::string remark_of(std::size_t walker_index) const;

  const Rig& rig_;
  const Plan& plan_;
  const std::vector<Check>& checks_;
  const SheetInfo& info_;
  const UnitSystem units_;
};

void Report::add_head() {
  add_words(rig_.title);
  add_line(std::string(kTextColumns, '='));
  add_words(fmt::format("{}, {}, spanloom {}", info_.file_name, info_.date, info_.version));
  add_words(cautions().front());
  add_words(fmt::format("Verdict: {} ({})", verdict_word(worst(checks_)), verdict_counts(checks_)));
}

void Report::add_numbers() {
  add_heading("Numbers");
  for (const KeyNumber& n : key_numbers(rig_, plan_, units_)) {
    add_labelled(fmt::format("{:<28}  {:>12}  ", n.label, n.value), n.note, 0);
  }
}

void Report::add_lengths() {
  add_heading("Lengths to cut, mark and pull");
  TextTable table({"piece", with_unit("from", Measure::length), with_unit("length", Measure::length),
                   "near tail", "far tail", with_unit("cut", Measure::length),
                   unit_text(Measure::mass, units_)});
  for (const CutPiece& piece : cut_pieces(rig_, plan_)) {
    table.add({fmt::format("{} {} {}{}", piece.on_backup ? "backup" : "main", piece.segment, piece.webbing,
                           piece.solved ? " *" : ""),
               number(piece.starts, Measure::length), number(piece.natural_length, Measure::length),
               number(piece.beyond_near_end(), Measure::length), number(piece.far_tail, Measure::length),
               number(piece.cut_length(), Measure::length), number(piece.mass(), Measure::mass)});
  }
  add_table(table);
  add_words("Lengths are unloaded. * found by the plan.");
  for (const LinkPlace& place : link_places(rig_, plan_)) {
    add_words(fmt::format("{}: {} at {}, {} long", place.on_backup ? "backup" : "main",
                          link_name(place),
                          !place.at_anchor    ? length(place.starts)
                          : place.at_far_end ? "the far anchor"
                                             : "the near anchor",
                          length(place.link.length)));
  }
  if (plan_.pull_through) {
    add_words(fmt::format("Pull {} of main, measured unloaded, through at the near anchor from hand-tight ({}, "
                          "sag {}) to stand at {}.",
                          length(plan_.pull_through->length), force(plan_.pull_through->hand_tight),
                          length(plan_.pull_through->sag), force(plan_.standing.tension_near)));
    add_words(pull_room_words(rig_, plan_, units_));
  }
}

void Report::add_bays() {
  add_heading("Bays, standing");
  TextTable table({"bay", with_unit("to", Measure::length), "spans", with_unit("main", Measure::length),
                   with_unit("backup", Measure::length), with_unit("extra", Measure::small_length),
                   with_unit("drop", Measure::small_length), "slack %",
                   with_unit("ankle", Measure::small_length)});
  const std::vector<TapeRow> rows = tape_rows(rig_, plan_);
  for (std::size_t i = 0; i < rows.size(); ++i) {
    const TapeRow& row = rows[i];
    const PlanBay& bay = plan_.bays[i];
    table.add({std::to_string(row.bay), number(row.running, Measure::length),
               number(bay.arm_spans, Measure::arm_spans), number(row.main_piece, Measure::length),
               number(row.backup_piece, Measure::length), number(row.extra_backup, Measure::small_length),
               number(row.drop, Measure::small_length), number(bay.slack, Measure::share),
               number(bay.ankle_margin, Measure::small_length),
               std::string(row.leftover ? "L" : "") + (row.close ? "C" : "")});
  }
  add_table(table);
  add_words("'to' is the running length of the bay's far tape along the unloaded main. L: takes up what "
            "the spacing left over. C: close bay.");
}

TextTable Report::walker_table() const {
  return TextTable({with_unit("at", Measure::length), "bay", with_unit("sag", Measure::length), "slope %",
                    with_unit("near", Measure::force), with_unit("far", Measure::force),
                    with_unit("backup", Measure::small_force), with_unit("foot", Measure::length),
                    with_unit("body", Measure::length)});
}

std::vector<std::string> Report::walker_row(const WalkerPlace& place, const std::string& remark) const {
  return {number(place.position, Measure::length), std::to_string(place.bay),
          number(place.sag, Measure::length), number(place.slope, Measure::share),
          number(place.tension_near, Measure::force), number(place.tension_far, Measure::force),
          number(place.backup_tension_max, Measure::small_force), length_or_dash(place.ground_clearance),
          length_or_dash(place.hang_clearance), remark};
}

// One letter a worst value, so that the row stays within the line.
std::string Report::remark_of(std::size_t i) const {
  std::string remark;
  if (i == plan_.worst_tension) remark += "T";
  if (i == plan_.worst_sag) remark += "S";
  if (plan_.worst_hang && i == *plan_.worst_hang) remark += "G";
  return remark;
}

void Report::add_walker() {
  add_heading("One walker");
  TextTable table = walker_table();
  for (std::size_t i = 0; i < plan_.walker.size(); ++i) {
    const std::string remark = remark_of(i);
    if (!plan_.walker[i].at_tape || !remark.empty()) table.add(walker_row(plan_.walker[i], remark));
  }
  for (const WalkerPlace& place : plan_.extra) table.add(walker_row(place, "asked"));
  add_table(table);
  add_words("The middle of every bay and the worst places: T greatest tension, S greatest sag, G least "
            "clearance outside the anchor zones. near, far: main at the anchors; backup: its greatest "
            "tension; foot, body: over the ground, the body hanging still on the leash. at: along the "
            "gap from the near anchor.");
}

void Report::add_anchor_loads() {
  add_heading(fmt::format("Loads on the anchors, {}", unit_text(Measure::force, units_)));
  TextTable table({"", "near main", "backup", "both", "far main", "backup", "both"});
  const auto add = [&](const std::string& state, const AnchorLoad& near, const AnchorLoad& far) {
    const auto size = [&](const Vec3& load) { return number(norm(load), Measure::force); };
    table.add({state, size(near.main), size(near.backup), size(near.total()), size(far.main),
               size(far.backup), size(far.total())});
  };
  const auto greatest = [](const std::vector<WalkerPlace>& places, AnchorEnd side) {
    return std::max_element(places.begin(), places.end(), [side](const WalkerPlace& a, const WalkerPlace& b) {
      return side == AnchorEnd::near ? norm(a.near.total()) < norm(b.near.total())
                                      : norm(a.far.total()) < norm(b.far.total());
    });
  };
  const auto add_greatest = [&](const char* who, const std::vector<WalkerPlace>& places) {
    if (places.empty()) return;
    const auto near = greatest(places, AnchorEnd::near), far = greatest(places, AnchorEnd::far);
    add(fmt::format("{} at {}", who, length(near->position)), near->near, near->far);
    if (near != far) add(fmt::format("{} at {}", who, length(far->position)), far->near, far->far);
  };
  add("standing", plan_.standing.near, plan_.standing.far);
  add_greatest("walker", plan_.walker);
  add_greatest("asked,", plan_.extra);
  add_greatest("rings locked,", plan_.walker_other_joint);
  add_greatest("two people", plan_.rescue);
  if (plan_.wind) add("walker in wind", plan_.wind->worst.near, plan_.wind->worst.far);
  add_table(table);
  add_words("Rows where a load is greatest. Main and backup pull in slightly different directions, so "
            "both together may be less than their sum.");
}

void Report::add_forces() {
  if (plan_.forces.empty()) return;
  add_heading("Greatest tension in every piece");
  TextTable table({"piece", unit_text(Measure::force, units_)});
  for (const PieceForce& piece : plan_.forces) {
    table.add({fit_columns(piece.name, 36), number(piece.tension, Measure::force), piece.state});
  }
  add_table(table);
}

void Report::add_rescue() {
  if (plan_.rescue.empty()) return;
  add_heading("Rescue: two people at one place");
  const auto most = [&](auto less) {
    const auto& places = plan_.rescue;
    return static_cast<std::size_t>(
        std::distance(places.begin(), std::max_element(places.begin(), places.end(), less)));
  };
  const std::size_t tension = most([](const WalkerPlace& a, const WalkerPlace& b) {
    return a.tension_max < b.tension_max;
  });
  const std::size_t sag = most([](const WalkerPlace& a, const WalkerPlace& b) { return a.sag < b.sag; });
  TextTable table = walker_table();
  table.add(walker_row(plan_.rescue[tension], tension == sag ? "TS" : "T"));
  if (tension != sag) table.add(walker_row(plan_.rescue[sag], "S"));
  add_table(table);
  add_words(fmt::format("Walker {} and rescuer {}{}.", quantity_text(rig_.walker.mass, Measure::mass, units_),
                        quantity_text(rig_.walker.rescuer_mass.value, Measure::mass, units_),
                        rig_.walker.rescuer_mass.assumed ? " (our default)" : ""));
}

void Report::add_wind() {
  if (!plan_.wind) return;
  const WindState& wind = *plan_.wind;
  add_heading("Steady side wind");
  add_words(fmt::format("At {} the standing main blows out {}, the loops {}. With the walker at {} the "
                        "main carries up to {} and the foot is {} to the side.",
                        quantity_text(wind.speed, Measure::speed, units_), length(wind.blow_out),
                        length(wind.loop_blow_out), length(wind.worst.position), force(wind.tension_max),
                        length(wind.worst.sideways)));
  if (wind.hang_clearance || wind.line_clearance) {
    add_words(fmt::format(
        "Least clearance: body on the leash {}, line {}.",
        quantity_or(wind.hang_clearance, Measure::length, units_, "not known"),
        quantity_or(wind.line_clearance, Measure::length, units_, "not known")));
  }
}

void Report::add_rings() {
  if (plan_.walker_other_joint.empty()) return;
  add_heading("Rings free and locked");
  TextTable table({"rings", with_unit("tension", Measure::force), with_unit("sag", Measure::length),
                   with_unit("backup", Measure::small_force)});
  const auto add = [&](const char* name, const std::vector<WalkerPlace>& places) {
    double tension = 0.0, sag = 0.0, backup = 0.0;
    for (const WalkerPlace& place : places) {
      tension = std::max(tension, place.tension_max);
      sag = std::max(sag, place.sag);
      backup = std::max(backup, place.backup_tension_max);
    }
    table.add({name, number(tension, Measure::force), number(sag, Measure::length),
               number(backup, Measure::small_force)});
  };
  add("free", plan_.walker);
  add("locked", plan_.walker_other_joint);
  add_table(table);
  add_words("Greatest values over all walker places. Friction puts the real line between the two.");
}

void Report::add_certificates() {
  std::vector<const Certificate*> all{&plan_.standing.certificate};
  for (const auto* places : {&plan_.walker, &plan_.extra, &plan_.rescue, &plan_.walker_other_joint}) {
    for (const WalkerPlace& place : *places) all.push_back(&place.certificate);
  }
  if (plan_.wind) all.push_back(&plan_.wind->worst.certificate);
  double residual = 0.0, gap = 0.0;
  int iterations = 0;
  for (const Certificate* c : all) {
    if (c->greatest_force > 0.0) residual = std::max(residual, c->residual / c->greatest_force);
    if (c->energy_scale > 0.0) gap = std::max(gap, std::abs(c->energy_gap) / c->energy_scale);
    iterations = std::max(iterations, c->iterations);
  }
  add_heading("How good the numbers are");
  add_words(fmt::format("The {} states of rest that this plan holds (standing, each place of walker and two "
                        "people, the worst in wind) are each certified. Greatest unbalanced force {:.1e} of the "
                        "greatest force in its line, energy within {:.1e} of its proven least, at most {} steps. "
                        "That is the arithmetic; the webbing data decide the rest.",
                        all.size(), residual, gap, iterations));
}

}  // namespace

std::string text_report(const Rig& rig, const Plan& plan, const std::vector<Check>& checks,
                        const SheetInfo& info) {
  return Report(rig, plan, checks, info).write();
}

}  // namespace spanloom
