// What an accelerometer writes down: one row of a record.
#pragma once

namespace spanloom {

/// Along the axes of the device, whichever way it lies. At rest, with gravity in the record, it reads 9.81 m/s2 upwards.
struct Acceleration {
  double time = 0.0;                     ///< [s]
  double x = 0.0, y = 0.0, z = 0.0;      ///< [m/s2]
};

}  // namespace spanloom
