// A body on a leash whose ring runs on a line, written a second time and integrated by SUNDIALS: masses and bars that only
// pull, no loss, no air, no friction. It shares with the engine the arrays of the line and the places it starts from.
#pragma once

#include <vector>

#include "events/fall_start.h"

namespace spanloom::peers {

struct BodyAndRing { Vec3 hip, ring; };  // [m]

struct FallHistory {
  std::vector<BodyAndRing> body;          ///< at each sample
  std::vector<std::vector<Vec3>> places;  ///< at each sample, of each watched node [m]
  std::vector<double> energy;             ///< at each sample, of all [J]
  long force_passes = 0;
};

/// Let go from the start of a fall: one mass, ring around the main alone, the foot off the line, tapes that hold.
/// @param times  of the samples [s], rising, > 0
/// @throws SundialsError; std::invalid_argument for a start that is not so
FallHistory fall_by_sundials(const FallStart& start, const std::vector<double>& times, const std::vector<std::size_t>& watched,
                             double relative_tolerance);

}  // namespace spanloom::peers
