// The instant before: the line at rest under the walker, then cut, with body, leash and rings in place.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "events/fall.h"
#include "events/faller.h"

namespace spanloom {

/// Height of the hip over the main of somebody who sits on it [m], our guess.
inline constexpr double kSittingHip = 0.10;

/// All that a motion begins with.
struct FallStart {
  MotionLine line;                        ///< cut, and untied where tapes hold nothing or rings run
  std::vector<Vec3> places;               ///< of its nodes [m]
  FallerSpec faller;
  double step = 0.0;                      ///< steady, torn or not [s]
  StrandPart main;                        ///< that the leash ring is on
  std::optional<StrandPart> backup;       ///< the same, where it is around both
  std::size_t walker = 0;                 ///< node of the main that is in the leash ring
  std::size_t backup_at = 0;              ///< of the backup
  std::vector<Tie> sliders;               ///< slider rings of the rig
  double ring_stiffness = 0.0;            ///< of webbing against rings [N/m]
};

struct FallStartOutcome {
  std::optional<FallStart> start;
  std::string why;                        ///< in words, when `start` is empty
};

/// @throws InputError "walker" or "cut" if the case names what is not there; "walker.leash" if it is too short to stand
[[nodiscard]] FallStartOutcome start_of_fall(const MovingRig& rig, const FallCase& what);

/// The faller with its rings on the line.
Faller faller_of(const FallStart& start, const Rig& rig);

}  // namespace spanloom
