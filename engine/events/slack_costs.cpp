#include "events/slack_costs.h"

#include <algorithm>
#include <array>
#include <numeric>

#include "base/input_error.h"
#include "motion/shake.h"

namespace spanloom {
namespace {

constexpr std::array<double, 5> kFactors = {0.5, 0.75, 1.0, 1.5, 2.0};
constexpr std::array<double, 2> kPlaces = {0.15, 0.5};          // shares of the gap
constexpr std::array<double, 3> kFrequencies = {1.0, 1.6, 2.5};  // [Hz]

Shake shake_of(std::size_t index, double swing) {
  return {kFrequencies[index % kFrequencies.size()], kPlaces[index / kFrequencies.size()], ShakeDirection::sideways, swing};
}

}  // namespace

std::size_t SlackCosts::shakes() { return kPlaces.size() * kFrequencies.size(); }

Rig with_slack(const Rig& rig, const Plan& plan, double factor) {
  Rig other = rig;
  SlackShare slack;
  for (const PlanBay& bay : plan.bays) slack.of_bay.push_back(factor * bay.slack);
  other.backup.amount = std::move(slack);
  return other;
}

SlackCosts::SlackCosts(const Rig& rig, const Plan& plan, std::vector<AskedFall> falls) : rig_(rig), plan_(plan), falls_(std::move(falls)) {
  for (const double factor : kFactors) rows_.emplace_back(factor, shakes());
  for (Row& row : rows_) {
    work_.push_back([this, &row] { plan_row(row); });
    for (std::size_t shake = 0; shake < shakes(); ++shake) work_.push_back([this, &row, shake] { shake_in_row(row, shake); });
  }
}

void SlackCosts::plan_row(Row& row) {
  SlackCost& cost = row.cost;
  cost.factor = row.factor;
  try {
    const PlanOutcome outcome = make_plan(with_slack(rig_, plan_, row.factor));
    if (!outcome.plan) {
      cost.why_not = outcome.failure->words;
      return;
    }
    const Plan& plan = *outcome.plan;
    cost.least_drop = plan.bays.front().drop;
    cost.ankle_margin = plan.bays.front().ankle_margin;
    double loops = 0.0, main = 0.0;
    for (const PlanBay& bay : plan.bays) {
      cost.least_drop = std::min(cost.least_drop, bay.drop);
      cost.mean_drop += bay.drop / double(plan.bays.size());
      cost.ankle_margin = std::min(cost.ankle_margin, bay.ankle_margin);
      main += bay.main_standing;
      loops += bay.main_standing * (1.0 + bay.slack);
    }
    cost.slack = loops / main - 1.0;
    for (const WalkerPlace& place : plan.walker) cost.backup_tension = std::max(cost.backup_tension, place.backup_tension_max);
    fall_in_row(row);
  } catch (const InputError& error) {
    cost.why_not = error.what();
  }
}

void SlackCosts::fall_in_row(Row& row) {
  SlackCost& cost = row.cost;
  const MovingOutcome line = moving_rig(with_slack(rig_, plan_, row.factor), kToldMesh);
  if (!line.rig) {
    cost.why_not = line.why;
    return;
  }
  if (falls_.empty()) cost.why_not = "in none of the worst main failures is the walker held";
  for (const AskedFall& asked : falls_) {
    const FallOutcome fall = run_fall(*line.rig, case_on(*line.rig, asked));
    if (!fall.result || fall.result->lost) {
      cost.why_not = fall.result ? "the leash ring runs off the broken main" : fall.why;
      return;
    }
    cost.body = std::max(cost.body, fall.result->body);
    if (fall.result->in_anchor_zone) continue;
    cost.fall = std::max(cost.fall, fall.result->fall);
    cost.clear_height = std::max(cost.clear_height, fall.result->clear_height);
  }
}

void SlackCosts::shake_in_row(Row& row, std::size_t shake) {
  try {
    const MovingOutcome line = moving_rig(with_slack(rig_, plan_, row.factor));
    if (!line.rig) return;
    const ShakeOutcome outcome = run_shake(*line.rig, shake_of(shake, rig_.shake.swing.value));
    if (outcome.result) row.returned[shake] = outcome.result->returned;
  } catch (const InputError&) {
    // What is wrong with this slack, the plan's piece of the row says.
  }
}

std::vector<SlackCost> SlackCosts::table() const {
  std::vector<SlackCost> table;
  for (const Row& row : rows_) {
    SlackCost cost = row.cost;
    cost.returned = std::accumulate(row.returned.begin(), row.returned.end(), 0.0) / double(row.returned.size());
    const bool shaken = std::all_of(row.returned.begin(), row.returned.end(), [](double r) { return r >= 0.0; });
    if (!shaken && cost.why_not.empty()) cost.why_not = "not every shake closed its energy ledger";
    table.push_back(cost);
  }
  return table;
}

}  // namespace spanloom
