// Random lines, far wider than anything rigged: what converges here converges on a rock face.
#pragma once

#include <random>
#include <string>

#include "line/line.h"

namespace spanloom {

/// What a random line may be. Every field is a choice of its own, so that a failing kind shows.
struct RandomLineKind {
  double least_gap = 5.0, greatest_gap = 3000.0;  ///< log-uniform [m]
  double steepest = 1.0;                          ///< |rise| up to so many gaps [-]
  double least_slack = -0.06, most_slack = 0.3;   ///< of the main against the straight line [-]
  double least_loop_slack = -0.005, most_loop_slack = 0.35;  ///< of the loops against their main [-]
  double softest = 15e3, stiffest = 10e6;         ///< axial stiffness, log-uniform [N]
  double most_wind = 60.0;                        ///< along y, per metre of webbing [N/m]
  int most_bays = 60;
};

struct RandomLine {
  Line line;
  std::string words;       ///< gap, rise, slack and so on, for the message of a failing test
};

RandomLine random_line(std::mt19937_64& random, const RandomLineKind& kind = {});

}  // namespace spanloom
