#include "sheet/catch_text.h"

#include <algorithm>

#include <fmt/format.h>

#include "checks/catch_words.h"
#include "sheet/catch_numbers.h"
#include "sheet/check_pages.h"
#include "sheet/check_text.h"
#include "sheet/key_numbers.h"
#include "sheet/text_table.h"

namespace spanloom {
namespace {

// Before a place; most walkers stand.
const char* letter_of(Posture posture) {
  switch (posture) {
    case Posture::standing: return "";
    case Posture::sitting: return "s ";
    case Posture::hanging: return "h ";
  }
  return "";
}

class Report : private PlainText {
 public:
  Report(const Rig& rig, const CatchReport& report, const CatchVerdicts& verdicts, const SheetInfo& info)
      : rig_(rig), report_(report), verdicts_(verdicts), info_(info), units_(info.units) {}

  std::string write() {
    add_head();
    add_list(report_.stopped ? "Warnings" : "What it means", catch_sentences(rig_, report_, verdicts_.falls, units_));
    add_main_failures();
    add_leash_falls();
    add_anchor("Near anchor", rig_.near_anchor, report_.near);
    add_anchor("Far anchor", rig_.far_anchor, report_.far);
    add_costs();
    add_list("How the worst was looked for", search_sentences(report_));
    add_heading("Checks of the falls");
    add_checks(*this, verdicts_.falls, units_);
    add_list("Notes", report_.notes);
    add_list("Our defaults, not stated in the rig file", assumed_inputs(verdicts_.falls));
    add_list("Cautions", cautions(Falls::computed));
    return text();
  }

 private:
  std::string number(double si, Measure measure) const { return number_text(si, measure, units_); }
  bool has_rings() const { return rig_.backup.joint == Joint::ring; }
  std::string force(const Vec3& load) const { return number(norm(load), Measure::force); }

  void add_head();
  void add_units_and(const std::string& words);
  void add_main_failures();
  void add_leash_falls();
  std::vector<std::string> numbers_of(const FallResult& fall) const;
  void add_anchor(const char* name, const AnchorSpec& anchor, const std::vector<AnchorState>& states);
  void add_points_gone(const AnchorSpec& anchor, const std::vector<AnchorState>& states);
  std::vector<std::string> legs_row(const std::string& state, const LegsUnderLoad& legs) const;
  void add_costs();

  const Rig& rig_;
  const CatchReport& report_;
  const CatchVerdicts& verdicts_;
  const SheetInfo& info_;
  const UnitSystem units_;
};

void Report::add_head() {
  add_words(rig_.title);
  add_line(std::string(kTextColumns, '='));
  if (report_.quick) add_words(quick_catch_words());
  add_words(fmt::format("Catch: {}, {}, spanloom {}", info_.file_name, info_.date, info_.version));
  add_words(cautions(Falls::computed).front());
  const std::vector<Check> all = verdicts_.all();
  add_words(fmt::format("Verdict of falls and plan: {} ({}).", verdict_word(worst(all)), verdict_counts(all)));
  add_words(fmt::format("Verdict of the falls: {} ({})", verdict_word(worst(verdicts_.falls)),
                        verdict_counts(verdicts_.falls)));
  add_words(fmt::format("Verdict of the plan: {} ({}); its checks are in the report of `spanloom plan`.",
                        verdict_word(worst(verdicts_.plan)), verdict_counts(verdicts_.plan)));
  if (report_.stopped) {
    add_line("");
    add_words("STOPPED BEFORE THE END. Below is what was done until then; it is not complete, and a worse fall may be among "
              "what was not done.");
  }
}

void Report::add_units_and(const std::string& words) {
  add_words(fmt::format("Lengths in {}, forces in {}. {}", unit_text(Measure::length, units_),
                        unit_text(Measure::force, units_), words));
}

std::vector<std::string> Report::numbers_of(const FallResult& fall) const {
  const auto if_held = [&](double value, Measure measure) {
    return fall.lost ? std::string("lost") : number(value, measure);
  };
  const bool past_the_rim = fall.in_anchor_zone && !fall.lost;
  return {past_the_rim ? "-" : if_held(fall.fall, Measure::length), if_held(fall.body, Measure::force), number(fall.backup, Measure::force),
          force(fall.near), force(fall.far),
          fall.lost || !fall.clearance ? "-" : number(*fall.clearance, Measure::length)};
}

void Report::add_main_failures() {
  if (report_.main_failure.empty()) return;
  add_heading("The worst main failures");
  TextTable table({"main fails", "walker", has_rings() ? "joints" : "tapes", "fall", "body", "backup", "near", "far", "ground"});
  for (const FallResult& fall : report_.main_failure) {
    std::vector<std::string> row = {
        cut_words(fall, units_), letter_of(fall.what.posture) + number(fall.walker_m, Measure::length), tapes_word(rig_, fall)};
    for (std::string& cell : numbers_of(fall)) row.push_back(std::move(cell));
    table.add(std::move(row));
  }
  add_table(table);
  add_units_and(
      "Each number is the greatest (over the ground the least) in that fall: fall of the body, force on it, tension "
      "of the backup, load on the near and the far anchor, feet over the ground (below 0: hits it, and after that the "
      "numbers go on as if there were none; \"-\": no ground is given). Of walkers who start in an anchor zone only the "
      "forces are told, since the ground is near there. \"walker\": where on the gap, standing; s: sitting; h: hanging on "
      "the leash. \"lost\": nothing holds the walker.");
}

void Report::add_leash_falls() {
  if (report_.leash_fall.empty()) return;
  add_heading("The worst leash falls, main unbroken");
  TextTable table({"steps off", "walker", "ring", "fall", "body", "backup", "near", "far", "ground"});
  for (const FallResult& fall : report_.leash_fall) {
    std::vector<std::string> row = {name_of(fall.what.step_off), number(fall.walker_m, Measure::length),
                                    name_of(fall.what.ring)};
    for (std::string& cell : numbers_of(fall)) row.push_back(std::move(cell));
    table.add(std::move(row));
  }
  add_table(table);
  add_units_and(fmt::format("\"backwards\": along the line, towards the nearer anchor. \"ring\": the leash ring runs along "
                            "the line, or is caught between two {}.", has_rings() ? "slider rings" : "tapes"));
}

std::vector<std::string> Report::legs_row(const std::string& state, const LegsUnderLoad& legs) const {
  std::vector<std::string> row = {state};
  for (const LegLoad& leg : legs.legs) row.push_back(number(leg.tension, Measure::force));
  return row;
}

void Report::add_anchor(const char* name, const AnchorSpec& anchor, const std::vector<AnchorState>& states) {
  if (states.empty()) return;
  add_heading(fmt::format("{}, {}", name, unit_text(Measure::force, units_)));
  std::vector<std::string> heads = {"state", "load"};
  for (std::size_t i = 0; i < anchor.points.size(); ++i) heads.push_back(std::to_string(i + 1));
  TextTable table(heads);
  for (const AnchorState& state : states) {
    std::vector<std::string> row = {state.state, force(state.force)};
    for (std::size_t i = 0; i < anchor.points.size(); ++i) {
      row.push_back(state.legs && i < state.legs->legs.size() ? number(state.legs->legs[i].tension, Measure::force) : "-");
    }
    table.add(std::move(row));
  }
  add_table(table);
  for (std::size_t i = 0; i < anchor.points.size(); ++i) {
    const AnchorPoint& point = anchor.points[i];
    add_labelled(fmt::format("{}:", i + 1),
                 fmt::format("{}, {}", point.name,
                             point.strength ? "holds " + quantity_text(*point.strength, Measure::force, units_)
                                            : "strength not given"),
                 3);
  }
  for (const AnchorState& state : states) {
    if (!state.legs && !state.why.empty()) add_words(fmt::format("{}: {}.", state.state, state.why));
  }
  if (!anchor.points.empty()) add_points_gone(anchor, states);
}

// What the others carry when one goes, in the state that loads the anchor most.
void Report::add_points_gone(const AnchorSpec& anchor, const std::vector<AnchorState>& states) {
  const auto most = std::max_element(states.begin(), states.end(), [](const AnchorState& a, const AnchorState& b) {
    return norm(a.force) < norm(b.force);
  });
  if (most->without.empty()) return;
  add_line("");
  add_words(fmt::format("One point gone, {}:", most->state));
  std::vector<std::string> heads = {"gone"};
  for (std::size_t i = 0; i < anchor.points.size(); ++i) heads.push_back(std::to_string(i + 1));
  heads.push_back(fmt::format("shift {}", unit_text(Measure::small_length, units_)));
  TextTable table(heads);
  for (std::size_t i = 0; i < most->without.size() && i < anchor.points.size(); ++i) {
    std::vector<std::string> row = {anchor.points[i].name};
    if (const auto& legs = most->without[i]) {
      row = legs_row(anchor.points[i].name, *legs);
      row[i + 1] = "gone";
      row.push_back(number(most->legs ? norm(legs->shift - most->legs->shift) : norm(legs->shift), Measure::small_length));
    } else {
      row.resize(heads.size(), "-");
      row.push_back("not held");
    }
    table.add(std::move(row));
  }
  add_table(table);
}

void Report::add_costs() {
  if (report_.costs.empty()) return;
  add_heading("What other backup slack would cost");
  const auto with_unit = [&](const char* head, Measure measure) {
    return fmt::format("{} {}", head, unit_text(measure, units_));
  };
  TextTable table({"slack", with_unit("drop", Measure::small_length), with_unit("ankle", Measure::small_length),
                   with_unit("backup", Measure::small_force), with_unit("fall", Measure::length),
                   with_unit("body", Measure::force), with_unit("clear", Measure::length), "return %"});
  for (const SlackCost& cost : report_.costs) {
    const std::string name = cost.factor == 1.0
                                 ? fmt::format("own, {} %", number(cost.slack, Measure::share))
                                 : fmt::format("{:.2f} x, {} %", cost.factor, number(cost.slack, Measure::share));
    if (!cost.why_not.empty()) {
      table.add({name, "-", "-", "-", "-", "-", "-", "-"});
      continue;
    }
    table.add({name, number(cost.mean_drop, Measure::small_length), number(cost.ankle_margin, Measure::small_length),
               number(cost.backup_tension, Measure::small_force), number(cost.fall, Measure::length),
               number(cost.body, Measure::force), number(cost.clear_height, Measure::length),
               report_.cost_shakes > 0 ? number(cost.returned, Measure::share) : "-"});
  }
  add_table(table);
  for (const SlackCost& cost : report_.costs) {
    if (!cost.why_not.empty()) add_words(fmt::format("{:.2f} x: not computed, {}.", cost.factor, cost.why_not));
  }
  const bool lost = lost_falls(report_) > 0;
  add_words(fmt::format(
      "Slack times the rig's own, loop by loop, and over all. drop: mean of the loops; ankle: the least margin; "
      "backup: its greatest tension with a walker on an unbroken main; fall, body, clear: main failure at the "
      "places where this rig is worst{}; clear: the clear height, without the reserve; return: of {} sideways shakes, "
      "mean.",
      lost ? ", where the walker is held at all" : "", report_.cost_shakes));
  const auto& failures = report_.main_failure;
  if (std::any_of(failures.begin(), failures.end(), main_tugs)) {
    add_words("The body's force may jump from row to row by chance: the loose main tugs at the leash ring as it shoots "
              "through.");
  }
}

}  // namespace

std::string catch_text(const Rig& rig, const CatchReport& report, const CatchVerdicts& verdicts, const SheetInfo& info) {
  return Report(rig, report, verdicts, info).write();
}

}  // namespace spanloom
