// From measured drops of some loops to the natural length, and so the slack, of all.
//
// Prior: loop k was taped with L_k (1 + c) + e_k of backup where L_k was planned; c is common to all, e_k its own, both
// normal about 0 (GaugePrior). A drop that is read gives a length, by the line at rest with the loop that deep; so the
// readings are linear in what is unknown, and the posterior is normal too (Gaussian conditioning; Rasmussen & Williams
// 2006, Gaussian Processes for Machine Learning, A.6). Where the backup runs through rings it is one webbing: only its
// whole length is unknown, and drops are linear in it about where they are.
#pragma once

#include <optional>
#include <vector>

#include "gauge/gauge.h"
#include "gauge/line_as_hung.h"
#include "gauge/readings.h"

namespace spanloom {

/// Lengths, slacks and drops of all loops of a line that hangs at a tension, as far as the readings tell.
/// @param planned  hangs the line with its loops as planned
/// @param drops    checked against the rig: bays that are there, drops above 0
/// @return one of each bay, `let_in` against the planned length; advice left out. Empty where a line was not proven, or
///         no lengths give the drops that were read
[[nodiscard]] std::optional<std::vector<GaugedLoop>> loops_as_hung(const LineHanger& planned, const HungState& state,
                                                                   const std::vector<DropReading>& drops,
                                                                   const GaugePrior& prior);

/// Natural lengths of loops [m].
std::vector<double> lengths_of(const std::vector<GaugedLoop>& loops);

}  // namespace spanloom
