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

/// Share g of the tension that each branch adds [-], so that a cycle from slack to a peak and back at 5 Hz loses
/// the given share of the energy of loading.
/// A harmonic cycle loses pi E'' a^2 and stores 2 E' a^2 on the way up, so the share is pi/2 tan(delta).
/// @param loss  [-], in [0, 0.5]
/// @throws InputError "loss" beyond
double branch_share(double loss);

}  // namespace spanloom
