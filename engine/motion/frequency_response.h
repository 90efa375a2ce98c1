// Small motion about a line at rest under a harmonic force; the same stiffness and masses as small_motion.h.
#pragma once

#include <array>
#include <complex>
#include <cstddef>
#include <vector>

#include "base/vec3.h"
#include "motion/motion_line.h"
#include "motion/motion_pencil.h"

namespace spanloom {

/// A displacement of one node, x, y and z.
using ComplexVec = std::array<std::complex<double>, 3>;

/// Displacements under a harmonic force at one node.
class FrequencyResponse {
 public:
  /// @throws InputError as natural_modes()
  FrequencyResponse(const MotionLine& line, const std::vector<Vec3>& places, Swing swing);

  /// Solves (K (1 + i loss) + s^2 M) u = f for the displacement of every node [m].
  /// @param node   where the force acts
  /// @param force  its amplitude [N]; components that the swing does not let are not felt
  /// @param s      Laplace frequency, i times 2 pi f for a steady harmonic one [rad/s]
  /// @param loss   damping added to every bar, twice the damping ratio at resonance [-], >= 0
  /// @throws InputError "response" for a node or a number that is none
  /// Undamped on a natural frequency there is no answer: give loss, or s a positive real part.
  std::vector<ComplexVec> displacement(std::size_t node, const Vec3& force, std::complex<double> s,
                                       double loss = 0.0) const;

 private:
  MotionPencil pencil_;
};

}  // namespace spanloom
