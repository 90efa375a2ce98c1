// A main pulled up from hand-tight and let down again: steps, hand force, settling, what is stored.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "base/stated.h"
#include "hauling/pull_steps.h"
#include "hauling/pulley_set.h"
#include "hauling/settling.h"

namespace spanloom {

/// What the main turns over between its end and the pulley set: an edge, a bar, a brake.
struct Bend {
  double angle = 0.0;              ///< in all [rad]
  /// Of webbing on metal [-]. Ours: the middle of 0.1 to 0.2 that capstan tests of synthetic rope give, from memory.
  Stated<double> friction = Stated<double>::by_default(0.15);
};

/// What the crew has and asks.
struct HaulingOptions {
  std::vector<PulleySet> sets{};   ///< empty: common_sets(); their `efficiency` is set from the one below
  RopeLeaves leaves = RopeLeaves::moving_block;
  /// Of one sheave [-]. Ours: sheave on a ball bearing, common practice, no source.
  Stated<double> efficiency = Stated<double>::by_default(0.9);
  Stated<double> person_force =
      Stated<double>::by_default(300.0);  ///< that one person pulls [N]; common practice, no source
  std::optional<double> reach{};   ///< travel of the load per haul, before the set must be reset [m]
  std::optional<Bend> bend{};
  std::optional<double> creep{};   ///< stretch added per factor of ten in time [-]
  std::optional<double> step{};    ///< between tensions [N]
  UnitSystem units = UnitSystem::metric;  ///< which tensions are round ones
};

/// A sheave that runs on its pin alone, to compare [-]. Common practice, no source.
inline constexpr double kBushingEfficiency = 0.7;

/// Sets of 3 and 5 parts, and 3 parts that pull on 3: 9 in all. A choice to start from.
std::vector<PulleySet> common_sets();

/// One pulley set on this line.
struct SetAtWork {
  PulleySet set;
  double ratio = 0.0;              ///< load over hand force, hauling [-]
  double hand = 0.0;               ///< to haul to the standing tension [N]
  double hand_on_bushings = 0.0;   ///< the same with sheaves of kBushingEfficiency [N]
  int people = 0;                  ///< that have so much force together
  double rope = 0.0;               ///< through the hand, from hand-tight to standing [m]
  /// The most that the anchor of the set (the first, where sets are chained) carries: rope tied off there, or while hauling [N].
  double anchor = 0.0;
  double holding = 0.0;            ///< in the hand while the load is let out from standing [N]
  double holding_at_most = 0.0;    ///< the same where nothing rubs [N]
};

/// The way down.
struct LettingDown {
  double let_out = 0.0;            ///< natural length from standing to hand-tight [m]
  double travel = 0.0;             ///< the same as it passes the clamp, stretched [m]
  double stretch = 0.0;            ///< by which the standing main is longer than unloaded [m]
  double stored = 0.0;             ///< energy in the stretched main, by its curve [J]
  double same_fall = 0.0;          ///< height from which the walker falling has as much [m]
};

struct HaulingReport {
  double hand_tight = 0.0;         ///< [N]
  double standing = 0.0;           ///< [N]
  double load = 0.0;               ///< on the set at the end: the standing tension, and the bend [N]
  std::vector<PullStep> steps;     ///< hand-tight first, standing last
  std::optional<int> hauls;        ///< of one reach each; resets are one fewer
  std::vector<SetAtWork> sets;
  std::vector<Settled> settling;   ///< empty where no creep was given
  LettingDown down;
  std::vector<std::string> notes;
};

struct HaulingOutcome {
  std::optional<HaulingReport> report;
  std::string why;                 ///< in words, when there is none
};

/// Checks options alone, before a rig is read. @throws InputError "parts", "efficiency", "person_force", "reach",
/// "bend", "bend_friction", "creep", "step"; all that are wrong
void check(const HaulingOptions& options);

/// @throws InputError as check(), and find_problems(rig) where the rig is not valid
[[nodiscard]] HaulingOutcome make_hauling_report(const Rig& rig, const HaulingOptions& options = {});

}  // namespace spanloom
