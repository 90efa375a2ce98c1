// Conversion factors to SI, each exact by definition.
// Source: NIST SP 811 (2008), Appendix B (international foot, pound, pound-force).
#pragma once

#include "base/constants.h"

namespace spanloom::units {

inline constexpr double kInch = 0.0254;                      ///< [m]
inline constexpr double kFoot = 0.3048;                      ///< [m]
inline constexpr double kPound = 0.45359237;                 ///< [kg]
inline constexpr double kPoundForce = kPound * kGravity;     ///< [N]
inline constexpr double kMilePerHour = 1609.344 / 3600.0;    ///< [m/s]
inline constexpr double kKilometrePerHour = 1.0 / 3.6;       ///< [m/s]
inline constexpr double kKnot = 1852.0 / 3600.0;             ///< [m/s]

}  // namespace spanloom::units
