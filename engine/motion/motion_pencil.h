// Stiffness and mass of small motion about a line at rest, as a band.
//
// Unknowns are the displacements of all nodes that are not held, tied nodes once, each along the axes that its swing
// lets. Main and backup are numbered side by side along the line, so that all matrices are narrow bands.
#pragma once

#include <cstddef>
#include <vector>

#include "base/vec3.h"
#include "motion/motion_line.h"

namespace spanloom {

/// Which displacements are let.
enum class Swing {
  lateral,   ///< y; the line must hang in a plane y = const
  in_plane,  ///< x and z; the same
  all,       ///< x, y and z, for any line
};

struct MotionPencil {
  std::vector<int> axes;             ///< 0 x, 1 y, 2 z, in the order of a node's unknowns
  std::vector<std::ptrdiff_t> slot;  ///< of each node its first unknown; -1: held
  std::size_t unknowns = 0;
  std::size_t half = 0;              ///< entries of a row on either side of its diagonal
  std::vector<double> stiffness;     ///< rows of 2 half + 1, columns r - half .. r + half [N/m]
  std::vector<double> mass;          ///< of each unknown [kg]

  const double* row(std::size_t r) const { return &stiffness[r * (2 * half + 1)]; }
};

/// @param places  of every node [m], tied nodes at one place
/// @throws InputError "places" where they do not fit the line or do not lie in a plane as asked, "mass" where a free
///         node has none and nothing taut beside it
MotionPencil motion_pencil(const MotionLine& line, const std::vector<Vec3>& places, Swing swing);

/// @throws InputError "places" or "mass" where the line has none such
void check_places(const MotionLine& line, const std::vector<Vec3>& places, Swing swing);

/// Spring of a bar across its direction, tension over length [N/m].
double cross_spring(const MotionLine& line, const std::vector<Vec3>& places, std::size_t bar);

}  // namespace spanloom
