#include "statics/gap_effect.h"

#include <algorithm>
#include <cmath>
#include <utility>

#include <fmt/format.h>

#include "base/input_error.h"
#include "statics/plan.h"

namespace spanloom {
namespace {

Rig at_gap(Rig rig, double gap, double rise) {
  rig.site = {gap, rise, {}};
  return rig;
}

/// The same rig with every webbing cut as planned.
Rig cut_as(const Plan& plan, Rig rig) {
  for (std::size_t i = 0; i < rig.main.run.segments.size(); ++i) {
    rig.main.run.segments[i].natural_length = plan.rigged.main_segment_length[i];
  }
  rig.main.tension.reset();
  rig.backup.amount = LoopLength{plan.rigged.loop_length};
  return rig;
}

/// Empty where the line cannot stand or be proven to, which one sd of doubt may well bring about.
std::optional<Plan> planned(const Rig& rig, UnitSystem units) {
  try {
    return make_plan(rig, {.states = PlanStates::walker, .units = units}).plan;
  } catch (const InputError&) {
    return std::nullopt;
  }
}

std::optional<double> tension_at(const Rig& cut, double gap, double rise, UnitSystem units) {
  if (!(gap > 0.0)) return std::nullopt;
  const std::optional<Plan> plan = planned(at_gap(cut, gap, rise), units);
  return plan ? std::optional(plan->standing.tension_near) : std::nullopt;
}

/// Lengths of main and backup at one gap and rise.
struct Lengths {
  double main, backup;  // natural [m]
};

Lengths lengths_of(const Plan& plan) {
  return {plan.standing.main_natural_length, plan.standing.backup_natural_length};
}

std::optional<Lengths> lengths_at(const Rig& rig, double gap, double rise, UnitSystem units) {
  const std::optional<Plan> plan = planned(at_gap(rig, gap, rise), units);
  return plan ? std::optional(lengths_of(*plan)) : std::nullopt;
}

/// Lengths one sd to either side; at least one of them there.
struct Sides {
  std::optional<Lengths> less, more;
};

/// Of one sd less and one sd more, what moves a length more: over a level gap any rise lengthens it. Where the line has
/// no plan at one of them, the other counts.
double greater_move(const Sides& sides, const Lengths& base, double Lengths::*length) {
  const double less = sides.less ? base.*length - (*sides.less).*length : 0.0;
  const double more = sides.more ? (*sides.more).*length - base.*length : 0.0;
  return std::abs(more) >= std::abs(less) ? more : less;
}

LengthInDoubt in_doubt(const Lengths& base, double Lengths::*length, const Sides& gap, const Sides& rise,
                       const GapRise& measured) {
  const double by_gap = greater_move(gap, base, length), by_rise = greater_move(rise, base, length);
  const double correlation = measured.covariance / (measured.gap_sd() * measured.rise_sd());
  const double variance = by_gap * by_gap + by_rise * by_rise + 2.0 * correlation * by_gap * by_rise;
  return {base.*length, by_gap, by_rise, std::sqrt(std::max(0.0, variance))};
}

}  // namespace

GapEffectOutcome effect_of_gap(const Rig& rig, const GapRise& measured, UnitSystem units) {
  const double gap = measured.gap, rise = measured.rise, gap_sd = measured.gap_sd(), rise_sd = measured.rise_sd();
  for (const auto& [key, sd] : {std::pair{"gap_sd", gap_sd}, std::pair{"rise_sd", rise_sd}}) {
    if (!(sd > 0.0 && std::isfinite(sd))) {
      throw InputError(key, fmt::format("{:g} m", sd), "a standard deviation above 0 m", "state how well it is known");
    }
  }
  if (!(gap_sd < 0.5 * gap)) return {std::nullopt, "one standard deviation of the gap is half of the gap or more"};
  const PlanOutcome base = make_plan(at_gap(rig, gap, rise), {.states = PlanStates::walker, .units = units});
  if (!base.plan) return {std::nullopt, base.failure->words};
  const Sides by_gap{lengths_at(rig, gap - gap_sd, rise, units), lengths_at(rig, gap + gap_sd, rise, units)};
  const Sides by_rise{lengths_at(rig, gap, rise - rise_sd, units), lengths_at(rig, gap, rise + rise_sd, units)};
  if (!(by_gap.less || by_gap.more) || !(by_rise.less || by_rise.more)) {
    return {std::nullopt, "the rig has no plan one standard deviation from the measured gap and rise"};
  }
  const Plan& plan = *base.plan;
  const Rig cut = cut_as(plan, rig);
  GapEffect effect;
  const Lengths lengths = lengths_of(plan);
  effect.main = in_doubt(lengths, &Lengths::main, by_gap, by_rise, measured);
  effect.backup = in_doubt(lengths, &Lengths::backup, by_gap, by_rise, measured);
  effect.tension = {plan.standing.tension_near, tension_at(cut, gap + gap_sd, rise, units),
                    tension_at(cut, gap - gap_sd, rise, units), tension_at(cut, gap, rise + rise_sd, units),
                    tension_at(cut, gap, rise - rise_sd, units)};
  return {effect, ""};
}

}  // namespace spanloom
