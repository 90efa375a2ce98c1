// Small motion about a line at rest: natural frequencies and mode shapes.
//
// A bar of tension T and length l answers a small displacement with (dT/de / L0) n n^T + (T / l)(1 - n n^T), n its
// direction; masses sit on the nodes. Where the line hangs in one vertical plane along x, sideways motion does not
// mix with motion in that plane. Loss stiffens webbing a little under fast motion; that and the air's drag are left
// out here.
//
// No frequency is missed: how many lie below a given one is the inertia of K - w^2 M (Wittrick & Williams 1971,
// Q. J. Mech. Appl. Math. 24, 263-284), taken with interchanges (band_factor.h). Intervals are halved until each
// holds one frequency, or several that cannot be told apart; inverse iteration gives the shapes.
#pragma once

#include <cstddef>
#include <limits>
#include <vector>

#include "base/vec3.h"
#include "motion/motion_line.h"
#include "motion/motion_pencil.h"

namespace spanloom {

/// One natural mode.
struct Mode {
  double frequency = 0.0;    ///< [Hz]
  /// Of every node [kg^-1/2]: the sum of mass times shape squared is 1. Tied nodes move as one.
  std::vector<Vec3> shape;
  /// |K phi - w^2 M phi| over |w^2 M phi|, each force divided by the root of its mass: w^2 is off by no more than
  /// this share [-]. Of modes too slow to tell from 0 Hz: over the forces that balance.
  double residual = 0.0;
};

struct Modes {
  std::vector<Mode> modes;   ///< rising, none left out
  bool certified = false;    ///< as many as the count says, each with a residual at its rounding floor
};

/// Which modes are asked for: all below a frequency, the slowest so many, or whichever ends first.
struct ModeRange {
  double below_Hz = std::numeric_limits<double>::infinity();
  std::size_t most = std::numeric_limits<std::size_t>::max();
};

/// Natural modes about places at rest.
/// @param places  of every node [m], tied nodes at one place
/// @throws InputError "places" where they do not fit the line or do not lie in a plane as asked, "mass" where a free
///         node has none and nothing taut beside it, "modes" where the range is empty or not a number
/// Accuracy: frequencies of the semi-discrete line to about 1e-10 relative; the mesh costs more.
[[nodiscard]] Modes natural_modes(const MotionLine& line, const std::vector<Vec3>& places, Swing swing,
                                  const ModeRange& range);

/// How many natural frequencies lie below one [Hz], by inertia alone.
std::size_t count_modes_below(const MotionLine& line, const std::vector<Vec3>& places, Swing swing, double frequency);

}  // namespace spanloom
