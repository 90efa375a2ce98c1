#include "sheet/key_numbers.h"

#include <algorithm>
#include <cmath>

#include <fmt/format.h>

#include "sheet/words.h"
#include "sheet/work_list.h"
#include "statics/clearance.h"

namespace spanloom {
namespace {

std::string place_text(const WalkerPlace& place, UnitSystem units) {
  return quantity_text(place.position, Measure::length, units);
}

// Calls visit(place, state in words) for every place of one walker without wind.
template <class Visit>
void for_each_walker_place(const Plan& plan, UnitSystem units, Visit visit) {
  const auto all = [&](const std::vector<WalkerPlace>& places, const char* also) {
    for (const WalkerPlace& place : places) {
      visit(place, "walker at " + place_text(place, units) + also);
    }
  };
  all(plan.walker, "");
  all(plan.extra, "");
  all(plan.walker_other_joint, ", rings locked");
}

double load_on(const AnchorLoad& near, const AnchorLoad& far, AnchorEnd side) {
  return norm(side == AnchorEnd::near ? near.total() : far.total());
}

void keep_greater(Peak& peak, double value, std::string state) {
  if (value > peak.value) peak = {value, std::move(state)};
}

void keep_less(std::optional<Peak>& least, const std::optional<double>& value, std::string state) {
  if (value && (!least || *value < least->value)) least = Peak{*value, std::move(state)};
}

void keep_less_of_place(std::optional<Peak>& least, const WalkerPlace& place,
                        const std::string& state) {
  if (!place.in_anchor_zone) {
    keep_less(least, place.hang_clearance, "body hanging still, " + state);
    keep_less(least, place.ground_clearance, "foot, " + state);
  }
  keep_less(least, place.line_clearance, "line, " + state);
}

// Ground between two places of a sweep counts as well.
void keep_less_between(std::optional<Peak>& least, const Rig& rig, const Plan& plan,
                       const std::vector<WalkerPlace>& places, const std::string& state, UnitSystem units) {
  const std::optional<Stretch> within = between_zones(rig);
  std::vector<Vec3> feet;
  for (const WalkerPlace& place : places) feet.push_back(place.foot);
  if (!within) return;
  if (const auto here = foot_clearance(rig, feet, *within)) {
    keep_less(least, here->distance - plan.body_below_main,
              fmt::format("{}, at {}", state, quantity_text(here->at, Measure::length, units)));
  }
}

std::string rise_note(const Site& site, UnitSystem units) {
  if (site.rise == 0.0) return "anchors level";
  return fmt::format("far anchor {} {}",
                     quantity_text(std::abs(site.rise), Measure::length, units),
                     site.rise > 0.0 ? "higher" : "lower");
}

KeyNumber pull_through_number(const Rig& rig, const Plan& plan, UnitSystem units) {
  if (!plan.pull_through) {
    return {"Pull through from hand-tight", "not known",
            rig.main.tension ? "no such state was found, see the notes" : "the file gives the main's lengths"};
  }
  return {"Pull through from hand-tight",
          quantity_text(plan.pull_through->length, Measure::length, units),
          fmt::format("hand-tight {}{}",
                      quantity_text(plan.pull_through->hand_tight, Measure::force, units),
                      rig.main.hand_tight.assumed ? ", our default" : "")};
}

KeyNumber length_number(const Rig& rig, const Plan& plan, bool on_backup, UnitSystem units) {
  double cut = 0.0;
  int segments = 0;
  for (const CutPiece& piece : cut_pieces(rig, plan)) {
    if (piece.on_backup != on_backup) continue;
    cut += piece.cut_length();
    ++segments;
  }
  const double length =
      on_backup ? plan.standing.backup_natural_length : plan.standing.main_natural_length;
  const std::string webbing = quantity_text(cut, Measure::length, units);
  return {on_backup ? "Backup, end to end" : "Main, end to end",
          quantity_text(length, Measure::length, units),
          segments == 1 ? fmt::format("unloaded; cut {} with tails", webbing)
                        : fmt::format("unloaded; {} segments, cut {} with tails", segments, webbing)};
}

KeyNumber ankle_number(const Plan& plan, UnitSystem units) {
  const PlanBay& bay = plan.bays[plan.worst_ankle_bay];
  return {"Least ankle margin", signed_text(bay.ankle_margin, Measure::small_length, units),
          fmt::format("bay {}, walker at its middle", bay.number)};
}

// A short tight line hardly sags: that is said in small units rather than as 0.00.
std::string sag_text(double sag, UnitSystem units) {
  constexpr double kSmall = 0.1;  // [m]
  return quantity_text(sag, sag < kSmall ? Measure::small_length : Measure::length, units);
}

KeyNumber least_drop_number(const Plan& plan, UnitSystem units) {
  const auto bay = std::min_element(plan.bays.begin(), plan.bays.end(),
                                    [](const PlanBay& a, const PlanBay& b) { return a.drop < b.drop; });
  return {"Least drop of a loop", quantity_text(bay->drop, Measure::small_length, units),
          fmt::format("bay {}, standing", bay->number)};
}

KeyNumber tension_number(const Plan& plan, UnitSystem units) {
  const Peak one = greatest_walker_tension(plan, units);
  std::string note = "main, " + one.state;
  double two = 0.0;
  for (const WalkerPlace& place : plan.rescue) two = std::max(two, place.tension_max);
  if (!plan.rescue.empty()) note += "; two people " + quantity_text(two, Measure::force, units);
  return {"Most tension, one walker", quantity_text(one.value, Measure::force, units), note};
}

KeyNumber anchor_number(const Plan& plan, AnchorEnd side, UnitSystem units) {
  const char* name = side == AnchorEnd::near ? "Near anchor load" : "Far anchor load";
  const Peak one = greatest_anchor_load(plan, side, units);
  const Peak two = greatest_rescue_load(plan, side, units);
  std::string note = one.state;
  if (!plan.rescue.empty()) {
    note = fmt::format("one walker, no fall; two people {}", quantity_text(two.value, Measure::force, units));
  }
  return {name, quantity_text(one.value, Measure::force, units), note};
}

}  // namespace

Peak greatest_walker_tension(const Plan& plan, UnitSystem units) {
  Peak peak;
  for_each_walker_place(plan, units, [&](const WalkerPlace& place, const std::string& state) {
    keep_greater(peak, place.tension_max, state);
  });
  return peak;
}

Peak greatest_anchor_load(const Plan& plan, AnchorEnd side, UnitSystem units) {
  Peak peak{load_on(plan.standing.near, plan.standing.far, side), "standing"};
  for_each_walker_place(plan, units, [&](const WalkerPlace& place, const std::string& state) {
    keep_greater(peak, load_on(place.near, place.far, side), state);
  });
  return peak;
}

Peak greatest_rescue_load(const Plan& plan, AnchorEnd side, UnitSystem units) {
  Peak peak;
  for (const WalkerPlace& place : plan.rescue) {
    keep_greater(peak, load_on(place.near, place.far, side),
                 "two people at " + place_text(place, units));
  }
  return peak;
}

std::optional<Peak> least_ground_clearance(const Rig& rig, const Plan& plan, UnitSystem units) {
  std::optional<Peak> least;
  for (const auto& [places, who] : {std::pair{&plan.walker, "one walker"}, {&plan.rescue, "two people"}}) {
    keep_less_between(least, rig, plan, *places, fmt::format("body hanging still, {}", who), units);
  }
  keep_less(least, plan.standing.ground_clearance, "line, standing");
  for_each_walker_place(plan, units, [&](const WalkerPlace& place, const std::string& state) {
    keep_less_of_place(least, place, state);
  });
  for (const WalkerPlace& place : plan.rescue) {
    keep_less_of_place(least, place, "two people at " + place_text(place, units));
  }
  if (plan.wind) {
    keep_less(least, plan.wind->hang_clearance, "body hanging still, in wind");
    keep_less(least, plan.wind->line_clearance, "line, in wind");
  }
  return least;
}

std::vector<KeyNumber> key_numbers(const Rig& rig, const Plan& plan, UnitSystem units) {
  const auto length = [&](double si) { return quantity_text(si, Measure::length, units); };
  const auto force = [&](double si) { return quantity_text(si, Measure::force, units); };
  const StandingLine& standing = plan.standing;
  const std::optional<Peak> clearance = least_ground_clearance(rig, plan, units);
  const WalkerPlace& deepest = plan.walker[plan.worst_sag];
  const GearList gear = gear_list(rig, plan);
  return {
      {"Gap", length(rig.site.gap), rise_note(rig.site, units)},
      {"Standing tension", force(standing.tension_near),
       fmt::format("main, near anchor; far {}", force(standing.tension_far))},
      pull_through_number(rig, plan, units),
      length_number(rig, plan, false, units),
      length_number(rig, plan, true, units),
      {rig.backup.joint == Joint::ring ? "Rings" : "Tapes", std::to_string(plan.bays.size() - 1),
       count_text(static_cast<long long>(plan.bays.size()), "bay", "bays")},
      {"Sag, standing", sag_text(standing.sag, units), fmt::format("at {}", length(standing.sag_at))},
      {"Sag, with the walker", length(deepest.sag), fmt::format("at {}", length(deepest.position))},
      tension_number(plan, units),
      anchor_number(plan, AnchorEnd::near, units),
      anchor_number(plan, AnchorEnd::far, units),
      {"Least ground clearance", clearance ? length(clearance->value) : "not known",
       clearance ? clearance->state + "; outside the anchor zones" : "the file gives no ground"},
      ankle_number(plan, units),
      least_drop_number(plan, units),
      {"Weight to carry", quantity_text(gear.mass, Measure::mass, units),
       gear.some_unweighed ? "without what has no mass given" : "webbing and links"}};
}

std::string verdict_counts(const std::vector<Check>& checks) {
  const auto count = [&](Verdict verdict) {
    return std::count_if(checks.begin(), checks.end(),
                         [&](const Check& check) { return check.verdict == verdict; });
  };
  return fmt::format("{} stop, {} caution, {} ok", count(Verdict::stop), count(Verdict::caution),
                     count(Verdict::ok));
}

const char* verdict_word(Verdict verdict) {
  switch (verdict) {
    case Verdict::ok: return "ok";
    case Verdict::caution: return "caution";
    case Verdict::stop: return "STOP";
  }
  return "STOP";
}

}  // namespace spanloom
