// A slope distance and angles to gap and rise, with what is not known of them.
#pragma once

#include <string>
#include <vector>

#include "rig/gap_rise.h"
#include "survey/weighted_mean.h"

namespace spanloom {

/// Distance along the beam and its angle above the horizontal [m], [rad].
struct LaserSight {
  Reading distance;
  Reading angle;
};

/// Horizontal part and rise of one sight: gap = d cos a, rise = d sin a; covariance J C J^T of the two derivatives.
/// @throws InputError "distance" unless > 0, "angle" unless within a right angle
GapRise gap_of_sight(const LaserSight& sight);

/// Gap and rise from one stand that is at neither anchor: h_i = d_i cos a_i, gap^2 = h_n^2 + h_f^2 - 2 h_n h_f
/// cos(between) (law of cosines), rise = d_f sin a_f - d_n sin a_n.
/// @param between  horizontal angle from the near to the far anchor [rad], in (0, pi]
/// @throws InputError as gap_of_sight(), "between" where out of range, or where the anchors would be at one place
GapRise gap_from_stand(const LaserSight& near, const LaserSight& far, const Reading& between);

/// Parts of a variance.
struct Share {
  std::string of;          ///< "distance", "angle", "horizontal angle"
  double gap_sd = 0.0;     ///< standard deviation of the gap from this alone [m]
  double rise_sd = 0.0;    ///< the same of the rise [m]
};

/// What each reading of a sight does to gap and rise.
std::vector<Share> shares_of_sight(const LaserSight& sight);
std::vector<Share> shares_of_stand(const LaserSight& near, const LaserSight& far, const Reading& between);

}  // namespace spanloom
