// Where the far anchor is, seen from the near one, and how well that is known.
#pragma once

#include <cmath>

namespace spanloom {

/// Gap and rise as measured, with their covariance.
struct GapRise {
  double gap = 0.0;             ///< horizontal distance between the anchors [m]
  double rise = 0.0;            ///< far anchor above the near one [m]
  double gap_variance = 0.0;    ///< [m2]
  double rise_variance = 0.0;   ///< [m2]
  double covariance = 0.0;      ///< of the two [m2]

  double gap_sd() const { return std::sqrt(gap_variance); }    ///< standard deviation [m]
  double rise_sd() const { return std::sqrt(rise_variance); }  ///< [m]
};

}  // namespace spanloom
