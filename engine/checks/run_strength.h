// Strength over greatest pull of one run, main or backup: its webbing at its ends, its links.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "checks/verdicts.h"
#include "rig/rig.h"
#include "statics/force_ledger.h"

namespace spanloom {

enum class Weather { dry, wet };

/// Hanging slack a backup holds next to nothing: its ratio is huge and says nothing about the day it is needed. It is a
/// number only where it is too low even so.
enum class Pull { real, hanging };

/// One of the two runs and what pulls on it.
struct PulledRun {
  const Rig& rig;
  const WebbingRun& run;
  const char* key;                   ///< in the rig file: "main"
  const char* name;                  ///< in titles: "Main"
  UnitSystem units;
  std::vector<PieceForce> forces;    ///< of this run
  Pull pull = Pull::real;
  std::string check_prefix{};        ///< before the names of checks
  std::string remark{};              ///< behind every number
  std::string webbing_cure{};        ///< behind a stop
  std::string link_cure{};
};

/// Strength that the weaker end of a segment leaves it / its tension, for the weakest of the run.
Check webbing_strength(const PulledRun& of, Weather weather);
/// Strength / tension of the weakest link. A link with no strength given leaves the check open. Empty without links.
std::optional<Check> link_strength(const PulledRun& of);
/// Both: webbing dry and wet, links if there are any.
std::vector<Check> strengths(const PulledRun& of);

/// Strength of a whole anchor / its greatest load. @param load  [N] @param state  in which it is met
Check anchor_strength(const Rig& rig, const char* side, double load, const std::string& state, UnitSystem units);

/// Leaves a check without a number.
void leave_open(Check& check);
void add_ratio_limit(const Rig& rig, Check& check);
void add_anchor_ratio_limit(const Rig& rig, Check& check);

}  // namespace spanloom
