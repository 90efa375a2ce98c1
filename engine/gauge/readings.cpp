#include "gauge/readings.h"

namespace spanloom {

GaugePrior usual_prior() {
  GaugePrior prior;
  prior.mass_sd = Stated<double>::by_default(0.02);
  prior.stretch_sd = Stated<double>::by_default(0.05);
  prior.gap_sd = Stated<double>::by_default(0.05);
  prior.loop_sd = Stated<double>::by_default(0.02);
  prior.all_loops_sd = Stated<double>::by_default(0.003);
  return prior;
}

}  // namespace spanloom
