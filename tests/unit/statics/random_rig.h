// Random rigs, wider than anything rigged: what plans here plans on a rock face.
#pragma once

#include <random>
#include <string>

#include "rig/rig.h"
#include "statics/plan.h"

namespace spanloom {

/// What a random rig may be. Every field is a choice of its own, so that a failing kind shows.
struct RandomRigKind {
  double least_gap = 5.0, greatest_gap = 3000.0;  ///< log-uniform [m]
  double steepest = 1.0;                          ///< |rise| up to so many gaps [-]
  double softest = 20e3, stiffest = 10e6;         ///< axial stiffness, log-uniform [N]
  int most_bays = 24;                             ///< about so many [-]
  double rings = 0.2, wind = 0.2;                 ///< shares of rigs that have them [-]
  bool lengths_given = true;                      ///< main without a wanted tension now and then
};

struct RandomRig {
  Rig rig;
  PlanOptions options;
  std::string words;  ///< gap, rise, tension and so on, for the message of a failing test
};

RandomRig random_rig(std::mt19937_64& random, const RandomRigKind& kind = {});

}  // namespace spanloom
