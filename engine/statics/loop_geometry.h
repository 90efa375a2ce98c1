// How far a loop hangs below its main: drop and ankle margin.
#pragma once

#include <span>

#include "base/vec3.h"

namespace spanloom {

/// Height of a polyline at x, straight between nodes, held at its ends [m]. Nodes must not fall back
/// in x; where it stands upright the lowest node counts.
double height_at(std::span<const Vec3> nodes, double x);

/// Greatest vertical distance between the main and the loop below it [m]. Negative or 0 when the loop
/// is nowhere below.
double loop_drop(std::span<const Vec3> main, std::span<const Vec3> loop);

/// Least of main height minus loop height over kAnkleHalfWidth of main length to each side of node
/// `foot` of the main [m]; within the bay. Negative: the backup rides up there.
double ankle_margin(std::span<const Vec3> main, std::span<const Vec3> loop, std::size_t foot);

}  // namespace spanloom
