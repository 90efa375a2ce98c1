// How long a blow on the main takes to come back, on this line.
//
// The blow is a sideways force that rises and falls as a Gaussian. Small motion about the standing line answers it:
// transformed along s = sigma + i w with sigma > 0 (exponential window, lateral_spectrum.h), so that what comes later
// than the window does not fold back into it. A return is felt when the main under the hand moves fastest in the direction of
// the blow; the time runs from the middle of the blow. A sharp blow comes back about when a string of the main's own
// mass would send it, a slow one when main and loops together would: there its return is looked for, a good tenth to
// either side. What loops and tapes make of it in between is in the answer.
#pragma once

#include <complex>
#include <cstddef>
#include <optional>
#include <span>
#include <vector>

#include "gauge/line_as_hung.h"

namespace spanloom {

/// A return that is weaker than this share of the blow is not felt among what the loops send back [-]. Our choice.
inline constexpr double kFaintest = 0.15;

/// A blow shorter than this share of the sharpest round trip counts as sharp [-].
inline constexpr double kSharpBlow = 0.35;

struct PulseEcho {
  double time = 0.0;       ///< from the blow to its return after the round trips counted [s]
  double strength = 0.0;   ///< greatest speed then over that of the blow [-]
};

/// @param node         of the main, struck and felt
/// @param blow         how long it lasts: four standard deviations of the Gaussian [s], > 0
/// @param round_trips  >= 1
/// @return empty where nothing comes back in that time
[[nodiscard]] std::optional<PulseEcho> echo_of_blow(const HungLine& hung, std::size_t node, double blow, int round_trips);

/// Round trip of the sharpest pulse: along the main's own mass, tapes left out [s].
double sharp_round_trip(const HungLine& hung);

/// The same for a blow: on main and loops together where it is slow [s]. @param blow  [s]
double string_round_trip(const HungLine& hung, double blow);

/// Whether the line hangs in one plane y = const, so that sideways motion does not mix with the rest.
bool hangs_in_a_plane(const HungLine& hung);

/// Displacement of a main node under a unit force on itself, sideways or up, at s = sigma + i w [m/N].
/// @param axis   1: sideways, 2: up
/// @param sigma  > 0 [rad/s]
std::vector<std::complex<double>> receptance_at(const HungLine& hung, std::size_t node, int axis, double sigma,
                                                std::span<const double> omega);

}  // namespace spanloom
