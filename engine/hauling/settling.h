// How a standing main loses tension as its webbing creeps.
#pragma once

#include <optional>
#include <vector>

#include "rig/rig.h"
#include "statics/natural_lengths.h"

namespace spanloom {

/// The line some time after it was set, nothing touched since.
struct Settled {
  double time = 0.0;       ///< since the standing tension was reached [s]
  double creep = 0.0;      ///< by which every metre of main has grown [-]
  double tension = 0.0;    ///< at the near anchor [N]
  double sag = 0.0;        ///< at the middle of the gap [m]
  double pull_in = 0.0;    ///< natural length of main to pull through to have the standing tension again [m]
};

/// Creep counts from here [s].
inline constexpr double kCreepStarts = 60.0;
inline constexpr double kMostCreep = 0.05;  ///< a decade [-]

/// @throws InputError "creep" where it is not above 0 and at most kMostCreep
void check_creep(double per_decade);

/// Tension at given times between the same anchors. Creep goes with the logarithm of time: each factor of ten after the
/// first minute adds `per_decade` at the standing tension, and in proportion less as the tension falls (the rate goes
/// with the tension of the moment, "time hardening"). The curve of the webbing is shifted, not changed.
/// Source of both laws, from memory: Findley, Lai & Onaran, Creep and Relaxation of Nonlinear Viscoelastic Materials
/// (1976). The rate is integrated with Heun's method over tenths of a decade; each line is solved and proven.
/// @param per_decade  stretch added per factor of ten in time [-], in (0, kMostCreep]
/// @param times       rising, >= kCreepStarts [s]
/// @return empty where a line was not proven
/// @throws InputError as check_creep()
[[nodiscard]] std::optional<std::vector<Settled>> settle_by_creep(const Rig& rig, const StandingRig& standing,
                                                                  double per_decade, const std::vector<double>& times);

}  // namespace spanloom
