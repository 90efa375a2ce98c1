// A shake to be looked at: where all of the line is at equal times, and how much of the swing is left.
#pragma once

#include <cstddef>
#include <functional>
#include <string>
#include <vector>

#include "base/vec3.h"
#include "motion/shake.h"

namespace spanloom {

struct ShakeFilm {
  double frame_every = 0.0;               ///< [s]
  std::size_t main_nodes = 0;
  /// By frame, the first at time 0: every node of the line, main then backup, each from near to far [m].
  std::vector<std::vector<Vec3>> places;
  std::vector<double> swing;              ///< by frame: rms displacement of the main over its length, in the direction of the shake [m]
  std::vector<double> at_place;           ///< by frame: displacement of the shaken place [m]
  std::vector<double> energy;             ///< by frame: kinetic energy of the main in that direction over what the shake put in [-]
  EnergyLedger ledger;                    ///< at the end
  double step = 0.0;                      ///< of time, at which the ledger closed [s]
  bool stopped = false;                   ///< the caller stopped it
};

struct ShakeFilmOptions {
  double duration = 4.0;                  ///< [s], > 0
  double frame_every = 1.0 / 60.0;        ///< [s], > 0
  /// Asked after each frame with frames done and in all; returning false stops. May be empty.
  std::function<bool(std::size_t, std::size_t)> keep_on{};
};

struct ShakeFilmOutcome {
  std::optional<ShakeFilm> film;
  std::string why;                        ///< in words, when `film` is empty
};

/// Films the shake whose numbers are known, under the same force. The ledger closes to kGreatestDrift at every frame, or
/// the step is halved and all begins anew; never a film whose ledger does not close.
/// @throws InputError "film" where a duration is not above 0, or more than 20,000 frames are asked for
[[nodiscard]] ShakeFilmOutcome film_shake(const MovingRig& rig, const ShakeResult& result, const ShakeFilmOptions& options = {});

}  // namespace spanloom
