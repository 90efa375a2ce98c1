// Which way a device lies on a line, found from what it recorded.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "base/vec3.h"
#include "gauge/acceleration.h"

namespace spanloom {

/// A record is taken to hold gravity where its mean is so far from 9.81 m/s2 at the most: what a cheap sensor is out by [m/s2].
inline constexpr double kGravityOff = 0.6;
/// ... and to have had it taken out where its mean is below this [m/s2].
inline constexpr double kNoGravity = 0.6;

/// The line's directions in the device's axes, and the motion in them, without slow trend.
struct DeviceMotion {
  Vec3 up, sideways;                     ///< of length 1 [-]
  double mean = 0.0;                     ///< size of the mean vector: gravity, where it was recorded [m/s2]
  bool has_gravity = false;
  /// Of the level motion, how much goes along its main direction, by mean square: 1 all of it, 0.5 none more than another [-].
  double sideways_share = 0.0;
  std::vector<double> moved_up, moved_sideways;  ///< accelerations, one a row [m/s2]
};

struct DeviceMotionOutcome {
  std::optional<DeviceMotion> motion;
  std::string why;                       ///< in words, with the cure, when `motion` is empty
};

/// Up is the mean of the record, which gravity makes; a line swings about its rest. Sideways is the level direction in
/// which most of the motion is (first principal component): a line moves across itself far more than along.
/// A cubic in time is taken off each, which a device that slowly turns makes.
/// @param record     at least 8 rows, times rising
/// @param device_up  where the device's own axes point up, for records without gravity; empty: not known
[[nodiscard]] DeviceMotionOutcome device_motion(const std::vector<Acceleration>& record, const std::optional<Vec3>& device_up);

}  // namespace spanloom
