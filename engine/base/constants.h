// Physical constants and default coefficients, each in this one place.
#pragma once

namespace spanloom {

/// Standard gravity [m/s2]. Source: 3rd CGPM (1901), ISO 80000-3.
inline constexpr double kGravity = 9.80665;

/// Air density at sea level, 15 degC [kg/m3]. Source: ISO 2533:1975 (standard atmosphere).
inline constexpr double kAirDensity = 1.225;

/// Drag coefficient of a long flat strip square to the wind [-].
/// Source: Aeronautical Engineer's Data Book, fig. 5.13(b): long flat plate at 90 deg, 1.98.
inline constexpr double kStripDragCoefficient = 1.98;

/// Drag coefficient of a long flat strip with its edge to the wind, on its thickness [-]. From memory: Hoerner,
/// Fluid-Dynamic Drag (1965), rectangular sections long along the stream, about 0.9; skin friction not counted.
inline constexpr double kEdgeDragCoefficient = 0.9;

/// Half the width of main over which the ankle margin is taken [m] (0.3 m centred on the foot).
inline constexpr double kAnkleHalfWidth = 0.15;

}  // namespace spanloom
