#include "gauge/gauge.h"

#include <algorithm>
#include <cmath>
#include <set>
#include <utility>

#include <fmt/format.h>

#include "base/input_error.h"
#include "gauge/gauge_advice.h"
#include "gauge/loops_as_hung.h"
#include "gauge/swings.h"
#include "gauge/tension_rows.h"
#include "gauge/tension_search.h"
#include "rig/find_problems.h"

namespace spanloom {
namespace {

constexpr double kTwoSided95 = 1.959963984540054;  // standard normal quantile of 0.975

void demand_drops(const Plan& plan, const std::vector<DropReading>& drops) {
  std::set<std::size_t> seen;
  for (std::size_t i = 0; i < drops.size(); ++i) {
    const DropReading& drop = drops[i];
    const std::string key = fmt::format("drop[{}]", i);
    if (drop.bay >= plan.bays.size()) {
      throw InputError(key + ".bay", fmt::format("{}", drop.bay + 1), fmt::format("a bay of this rig, 1 to {}", plan.bays.size()));
    }
    if (!seen.insert(drop.bay).second) {
      throw InputError(key + ".bay", fmt::format("bay {} again", drop.bay + 1), "each bay once", "give the mean of its readings");
    }
    if (!(drop.drop > 0.0 && drop.drop < 10.0)) {
      throw InputError(key + ".drop", fmt::format("{:g} m", drop.drop), "a drop between 0 m and 10 m");
    }
    if (!(drop.sd.value > 0.0 && std::isfinite(drop.sd.value))) {
      throw InputError(key + ".uncertainty", fmt::format("{:g} m", drop.sd.value), "an uncertainty above 0 m");
    }
  }
}

void demand_prior(const GaugePrior& prior) {
  const std::pair<const char*, const Stated<double>*> all[] = {
      {"prior.mass", &prior.mass_sd}, {"prior.stretch", &prior.stretch_sd}, {"prior.gap", &prior.gap_sd},
      {"prior.loop", &prior.loop_sd}, {"prior.all_loops", &prior.all_loops_sd}};
  for (const auto& [key, value] : all) {
    if (value->value >= 0.0 && value->value < 0.5) continue;
    throw InputError(key, fmt::format("{:g}", value->value), "an uncertainty of 0 or more, below 0.5 m or 50 %");
  }
  if (prior.loop_sd.value + prior.all_loops_sd.value > 0.0) return;
  throw InputError("prior.loop", "0", "an uncertainty above 0 for each loop or for all of them",
                   "with none, drops tell nothing that is not known");
}

// Where the loops share the main's swing, a rigger may count any of several: what is read says less.
void doubt_shared_swings(std::vector<TensionRow>& rows, const HungLine& hung) {
  constexpr double kClear = 0.8, kDoubt = 0.04;  // our choice
  for (TensionRow& row : rows) {
    const auto* swing = std::get_if<FrequencyReading>(&row.what);
    if (!swing) continue;
    const auto found = belly_swing(hung, swing->way, swing->bellies);
    if (!found || found->share >= kClear) continue;
    row.sd = std::hypot(row.sd, kDoubt * row.read);
    row.notes.push_back(fmt::format("The loops swing about as fast, so several modes share this swing ({:.0f} % in the first): read "
                                    "with doubt. Another number of bellies, or up and down, tells more.", 100.0 * found->share));
  }
}

class Gauging {
 public:
  Gauging(const Rig& rig, const Plan& plan, const Readings& readings, UnitSystem units)
      : rig_(rig), plan_(plan), readings_(readings), units_(units), rows_(tension_rows(rig, readings, units)),
        hanger_(rig, plan.rigged, rows_.places, plan.standing.tapes) {}

  GaugeOutcome run() {
    report_.planned_tension = plan_.standing.tension_near;
    HungState state{report_.planned_tension, 1.0, 1.0, rig_.site.gap};
    const std::optional<HungLine> planned = hanger_.hang(state);
    if (!planned) return {std::nullopt, "the line as planned was not proven on the mesh of the readings"};
    doubt_shared_swings(rows_.rows, *planned);
    // What loops weigh on the readings of tension depends on how they hang, and that on the tension.
    LineHanger hanger = hanger_;
    for (int round = 0; round < (readings_.drops.empty() || rows_.rows.empty() ? 1 : 2); ++round) {
      if (std::string why = find_state(hanger, state); !why.empty()) return {std::nullopt, std::move(why)};
      auto loops = loops_as_hung(hanger_, state, readings_.drops, readings_.prior);
      if (!loops) return {std::nullopt, no_loops()};
      report_.loops = std::move(*loops);
      hanger.set_loops(lengths_of(report_.loops));
    }
    for (GaugedLoop& loop : report_.loops) {
      loop.planned_drop = plan_.bays[loop.bay].drop;
      loop.planned_slack = plan_.bays[loop.bay].slack;
    }
    take_state(state);
    tell_readings();
    if (!advise_main(report_, hanger, state) || !advise_loops(report_, hanger_, units_)) {
      return {std::nullopt, "a line between the one that hangs and the planned one was not proven"};
    }
    if (std::string why = judge_as_hung(); !why.empty()) return {std::nullopt, std::move(why)};
    tell_what_is_assumed();
    return {std::move(report_), {}};
  }

 private:
  std::string find_state(const LineHanger& hanger, HungState& state) {
    if (rows_.rows.empty()) return "";
    TensionSearchOutcome outcome = find_tension(hanger, rows_.rows, readings_.prior, report_.planned_tension, units_);
    if (!outcome.found) return outcome.why;
    found_ = std::move(outcome.found);
    state = state_at(rig_, found_->fit.tension, prior_sds(readings_.prior), found_->fit.off);
    return "";
  }

  std::string no_loops() const {
    return "no lengths of the loops give the drops that were read, at the tension found: check the drops, deepest point "
           "straight below the main";
  }

  void take_state(const HungState& state) {
    report_.tension = state.tension;
    report_.mass_factor = state.mass_factor;
    report_.stretch_factor = state.stretch_factor;
    report_.gap = state.gap;
    report_.interval = {state.tension, state.tension};
    report_.from_readings = found_.has_value();
    if (!found_) {
      report_.notes.push_back("Nothing that tells the tension was read: the line is taken to stand at the planned tension.");
      return;
    }
    const TensionFit& fit = found_->fit;
    report_.misfit = fit.misfit;
    const auto used = std::count(found_->used.begin(), found_->used.end(), char(1));
    report_.freedom = int(used) - 1;  // each of the unsure has a prior of its own
    report_.torn = found_->torn;
    // Readings that contradict each other are worse than they claim: by so much at least (Birge 1932, Phys. Rev. 40, 207).
    const bool contradict = report_.torn || readings_contradict(fit.misfit, report_.freedom);
    const double worse = contradict ? std::max(1.0, std::sqrt(fit.misfit / std::max(1, report_.freedom))) : 1.0;
    const double log_sd = worse * fit.log_sd;
    report_.tension_sd = log_sd * fit.tension;
    report_.interval = {fit.tension * std::exp(-kTwoSided95 * log_sd), fit.tension * std::exp(kTwoSided95 * log_sd)};
    if (contradict) {
      report_.notes.push_back(fmt::format("What was read does not fit together, or not this line, by more than the uncertainties: some of it is "
                                          "wrong, or the rig file is. All is taken to be {:.1f} times as uncertain.", worse));
    }
    report_.by = found_->by;
    report_.notes.insert(report_.notes.end(), found_->notes.begin(), found_->notes.end());
    tell_unsure(fit);
  }

  void tell_unsure(const TensionFit& fit) {
    constexpr double kTelling = 1.5;
    const Unsure sds = prior_sds(readings_.prior);
    const char* what[] = {"the webbing to weigh", "the webbing to stretch", "the gap to be"};
    for (std::size_t u = 0; u < 3; ++u) {
      if (std::abs(fit.off[u]) < kTelling) continue;
      const double by = fit.off[u] * sds[u];
      report_.notes.push_back(u < 2 ? fmt::format("The readings want {} {:.1f} % {} than the file says: check its data.", what[u],
                                                  100.0 * std::abs(by), by > 0.0 ? "more" : "less")
                                    : fmt::format("The readings want {} {} {} than the file says: measure it again.", what[u],
                                                  quantity_text(std::abs(by), Measure::length, units_), by > 0.0 ? "longer" : "shorter"));
    }
  }

  void tell_readings() {
    for (std::size_t i = 0; i < rows_.rows.size(); ++i) {
      const TensionRow& row = rows_.rows[i];
      GaugedReading told;
      told.method = row.method;
      told.words = row.words;
      told.unit = row.unit;
      told.read = row.read;
      told.sd = row.sd;
      told.fitted = found_->fit.fitted[i];
      told.off = found_->fit.off_others[i];
      told.left_out = !found_->used[i];
      told.notes = row.notes;
      if (found_->unsteady[i]) {
        told.notes.push_back("Left out: near this tension the line foretells nothing steady for it, since the return or the swing is lost "
                             "among the loops. Strike elsewhere, count fewer, or read something else.");
      }
      tell_alone(i, told);
      report_.readings.push_back(std::move(told));
    }
  }

  // A reading that is the only one of its method.
  void tell_alone(std::size_t i, GaugedReading& told) const {
    std::size_t alike = 0;
    for (std::size_t k = 0; k < rows_.rows.size(); ++k) alike += found_->used[k] && rows_.rows[k].method == told.method;
    if (alike != 1 || !found_->used[i]) return;
    for (const MethodTension& by : found_->by) {
      if (by.method != told.method) continue;
      told.tension = by.tension;
      told.tension_sd = by.sd;
    }
  }

  // The rig of the line as it hangs, with webbing and gap of the file, at a tension.
  std::optional<Rig> rig_at(double tension) const {
    LineHanger hanger = hanger_;
    hanger.set_loops(lengths_of(report_.loops));
    const std::optional<HungLine> hung = hanger.hang({tension, 1.0, 1.0, rig_.site.gap});
    if (!hung) return std::nullopt;
    Rig rig = rig_;
    rig.main.tension = tension;
    rig.main.run.segments.back().natural_length.reset();
    rig.spacing.pattern = TapesAt{plan_.rigged.tape_s};
    rig.backup.amount = LoopLength{hung->loop_lengths()};
    return rig;
  }

  std::string judge_as_hung() {
    const std::optional<Rig> rig = rig_at(report_.tension);
    if (!rig) return "the line as it hangs was not proven";
    report_.as_hung = *rig;
    PlanOutcome plan = planned(*rig);
    if (!plan.plan) return "the line as it hangs cannot be planned: " + plan.failure->words;
    report_.plan = std::move(*plan.plan);
    report_.checks = judge(*rig, report_.plan, units_);
    if (found_) {
      look_at_end(report_.interval.low);
      look_at_end(report_.interval.high);
    }
    return "";
  }

  PlanOutcome planned(const Rig& rig) const {
    PlanOptions options;
    options.units = units_;
    return make_plan(rig, options);
  }

  void look_at_end(double tension) {
    const std::string at = quantity_text(tension, Measure::force, units_);
    const std::optional<Rig> rig = rig_at(tension);
    const PlanOutcome plan = rig ? planned(*rig) : PlanOutcome{};
    if (!plan.plan) {
      report_.less_sure.push_back(fmt::format("At {}, an end of the 95 % interval, the line could not be planned.", at));
      return;
    }
    const std::vector<Check> checks = judge(*rig, *plan.plan, units_);
    for (std::size_t i = 0; i < std::min(checks.size(), report_.checks.size()); ++i) {
      if (checks[i].verdict <= report_.checks[i].verdict) continue;
      report_.less_sure.push_back(fmt::format("At {}, an end of the 95 % interval: {}: {}", at, checks[i].title, checks[i].words));
    }
  }

  void tell_what_is_assumed() {
    std::set<std::string> said;
    const auto add = [&](std::string words) {
      if (said.insert(words).second) report_.assumed.push_back(std::move(words));
    };
    for (const TensionRow& row : rows_.rows) {
      for (const std::string& words : row.assumed) add(words);
    }
    const GaugePrior& prior = readings_.prior;
    const auto share = [](double value) { return fmt::format("{:g} %", 100.0 * value); };
    const auto length = [&](double value) { return quantity_text(value, Measure::small_length, units_); };
    if (found_) {
      if (prior.mass_sd.assumed) add("the webbing's mass is known to " + share(prior.mass_sd.value));
      if (prior.stretch_sd.assumed) add("its stretch is known to " + share(prior.stretch_sd.value));
      if (prior.gap_sd.assumed) add("the gap is known to " + length(prior.gap_sd.value));
    }
    if (prior.loop_sd.assumed) add("each loop was taped to " + length(prior.loop_sd.value));
    if (prior.all_loops_sd.assumed) add("all loops alike were measured to " + share(prior.all_loops_sd.value));
    for (const DropReading& drop : readings_.drops) {
      if (drop.sd.assumed) add("a drop is good to " + length(drop.sd.value));
    }
  }

  const Rig& rig_;
  const Plan& plan_;
  const Readings& readings_;
  UnitSystem units_;
  TensionRows rows_;
  LineHanger hanger_;
  GaugeReport report_;
  std::optional<FoundTension> found_;
};

}  // namespace

GaugeOutcome gauge(const Rig& rig, const Plan& plan, const Readings& readings, UnitSystem units) {
  if (std::vector<Problem> problems = find_problems(rig); !problems.empty()) throw InputError(std::move(problems));
  demand_prior(readings.prior);
  demand_drops(plan, readings.drops);
  if (readings.pulses.empty() && readings.sags.empty() && readings.frequencies.empty() && readings.marks.empty() &&
      readings.spectra.empty() && readings.drops.empty()) {
    throw InputError("readings", "none", "a reading: pulse, sag, frequency, marks, accelerometer or drop");
  }
  return Gauging(rig, plan, readings, units).run();
}

}  // namespace spanloom
