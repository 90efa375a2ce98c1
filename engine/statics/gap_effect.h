// What is not known of the gap, carried to lengths to cut and to the tension of a line cut for the measured gap.
#pragma once

#include <optional>
#include <string>

#include "base/quantity_text.h"
#include "rig/gap_rise.h"
#include "rig/rig.h"

namespace spanloom {

/// A length of webbing to cut and how it moves.
struct LengthInDoubt {
  double length = 0.0;      ///< natural, at the measured gap and rise [m]
  double by_gap = 0.0;      ///< one sd of gap moves it by this, > 0: a longer gap, more length [m]
  double by_rise = 0.0;     ///< one sd of rise, > 0: a higher far anchor, more length [m]
  double sd = 0.0;          ///< of both, with their covariance [m]
};

/// Tension of the main at the near anchor, standing, all webbing cut for the measured gap.
struct TensionInDoubt {
  double planned = 0.0;             ///< if gap and rise are as measured [N]
  std::optional<double> longer;     ///< if the gap is one sd longer [N]; empty: no proven rest there
  std::optional<double> shorter;    ///< one sd shorter [N]
  std::optional<double> higher;     ///< if the far anchor is one sd higher [N]
  std::optional<double> lower;      ///< one sd lower [N]
};

struct GapEffect {
  LengthInDoubt main, backup;
  TensionInDoubt tension;
};

struct GapEffectOutcome {
  std::optional<GapEffect> effect;
  std::string why;                  ///< in words, when `effect` is empty
};

/// Plans the rig at the measured gap and rise and one sd to either side of each; of the two sides the greater move
/// counts, or the only one where there is a plan.
/// Clearances are not looked at, so the ground of the rig is left aside.
/// @param measured  gap > 0, sds > 0
/// @throws InputError as make_plan(), at the measured gap; "gap_sd", "rise_sd" where one is not above 0 or not finite
[[nodiscard]] GapEffectOutcome effect_of_gap(const Rig& rig, const GapRise& measured,
                                             UnitSystem units = UnitSystem::metric);

}  // namespace spanloom
