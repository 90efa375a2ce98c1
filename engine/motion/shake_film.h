// A shake to be looked at: where all of the line is at equal times, and how much of the swing is left. It is the very run
// that the numbers are of.
#pragma once

#include <cstddef>
#include <functional>
#include <string>
#include <vector>

#include "base/vec3.h"
#include "motion/shake.h"

namespace spanloom {

struct ShakeFilm {
  ShakeResult result;                     ///< the shake's numbers
  double frame_every = 0.0;               ///< [s]
  std::size_t main_nodes = 0;
  /// By frame, the first at time 0: every node of the line, main then backup, each from near to far [m]. Between two looks
  /// of the run in proportion.
  std::vector<std::vector<Vec3>> places;
  std::vector<double> swing;              ///< by frame: rms displacement of the main over its length, in the direction of the shake [m]
  std::vector<double> at_place;           ///< by frame: displacement of the shaken place [m]
  std::vector<double> energy;             ///< by frame: kinetic energy of the main in that direction over what the shake put in [-]
};

struct ShakeFilmOptions {
  double duration = 4.0;                  ///< at the least [s], > 0; it always reaches the end of the window of the return
  double frame_every = 1.0 / 60.0;        ///< [s], > 0
  /// Told of frames done and, about, in all. May be empty.
  std::function<void(std::size_t, std::size_t)> progress{};
};

struct ShakeFilmOutcome {
  std::optional<ShakeFilm> film;
  std::string why;                        ///< in words, when `film` is empty
};

/// Runs a shake as run_shake() does and films it. After the window of the return the ledger need close to kGlanceDrift only;
/// where it does not, the film ends.
/// @throws InputError "film" where a time is not above 0, or more than 20,000 frames are asked for
[[nodiscard]] ShakeFilmOutcome film_shake(const MovingRig& rig, const Shake& shake, const ShakeFilmOptions& options = {});

}  // namespace spanloom
