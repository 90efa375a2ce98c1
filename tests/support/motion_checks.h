// What checks of motion share.
#pragma once

#include <gtest/gtest.h>

#include <cmath>

#include "motion/motion.h"

namespace spanloom {

/// The limit of what nears it as (1 / fineness)^order, from two values, the second `ratio` times as fine.
inline double extrapolated(double coarse, double fine, double order, double ratio = 2.0) {
  return fine + (fine - coarse) / (std::pow(ratio, order) - 1.0);
}

/// Advances and fails the test if that goes wrong.
inline void run(Motion& motion, double duration) { ASSERT_TRUE(motion.advance(duration)); }

/// The ledger closes to a share of the energy that the motion turned over [J].
inline void expect_closed(const Motion& motion, double turned_over, double share) {
  EXPECT_LT(std::abs(motion.ledger().drift), share * turned_over);
}

}  // namespace spanloom
