// Loss of a webbing as three relaxing branches beside its load-stretch curve.
//
// A branch adds g (T(e) - z) to the tension, z following T with a time constant tau: the quasi-linear
// viscoelasticity of Fung (1972), for a straight curve the generalised Maxwell solid. The energy
// g (W(e) - z e + W*(z)) held in a branch is never negative (Fenchel) and only falls while z relaxes, so a
// branch can only take energy out. Three branches a decade apart keep the loss per cycle even over the
// frequencies of a line, where a single one would be right at one frequency.
#pragma once

#include <array>
#include <cstddef>

namespace spanloom {

inline constexpr std::size_t kBranches = 3;
/// Where each branch loses most, as time constants [s]: 0.5, 5 and 50 Hz.
std::array<double, kBranches> branch_times();

/// Share g of the tension that each branch adds [-], so that a steady harmonic cycle of a taut webbing at 5 Hz that
/// just touches slack loses the given share of the energy of loading: it loses pi E'' a^2 and takes up 2 E' a^2 on
/// the way up, so the share is pi/2 tan(delta). From 0.5 to 50 Hz it is 0.8 to 1 of that; the first cycle from
/// rest loses up to a third more, while the slow branch settles.
/// @param loss  [-], in [0, 0.5]
/// @throws InputError "loss" beyond
double branch_share(double loss);

}  // namespace spanloom
