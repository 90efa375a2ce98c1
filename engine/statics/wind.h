// Steady side wind as dead loads on webbing and walker.
#pragma once

#include "line/mesh.h"
#include "rig/rig.h"
#include "statics/equilibrium.h"

namespace spanloom {

/// Drag of a steady side wind on a flat strip standing square to it [N/m].
/// 1/2 rho Cd width v^2. A webbing twists in the wind, so its flat face is taken everywhere: the most it
/// can catch. Sources: constants.h.
double strip_drag(double width, double speed);

/// The line of a mesh with the wind on main and loops, on the lengths they have when standing.
Line in_side_wind(const Mesh& mesh, const EquilibriumSolver& solver, const Equilibrium& standing, double speed);

/// Drag on the walker standing on the line [N], towards +y.
Vec3 walker_drag(const Walker& walker, double speed);

}  // namespace spanloom
