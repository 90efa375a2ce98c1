#include "motion/frequency_response.h"

#include <cmath>
#include <string>

#include "base/input_error.h"
#include "motion/band_factor.h"

namespace spanloom {

FrequencyResponse::FrequencyResponse(const MotionLine& line, const std::vector<Vec3>& places, Swing swing)
    : pencil_(motion_pencil(line, places, swing)) {}

std::vector<ComplexVec> FrequencyResponse::displacement(std::size_t node, const Vec3& force, std::complex<double> s,
                                                        double loss) const {
  const std::complex<double> s2 = s * s;
  if (node >= pencil_.slot.size() || !is_finite(force) || !std::isfinite(std::abs(s2)) || !(loss >= 0.0) ||
      !std::isfinite(loss)) {
    throw InputError("response", "node " + std::to_string(node),
                     "a node of the line, a finite force and frequency, loss of 0 or more");
  }
  BandFactor<std::complex<double>> factor(pencil_.unknowns, pencil_.half);
  factor.factor([&](std::size_t r, std::complex<double>* row) {
    for (std::size_t j = 0; j < 2 * pencil_.half + 1; ++j) row[j] = pencil_.row(r)[j] * std::complex<double>(1.0, loss);
    row[pencil_.half] += s2 * pencil_.mass[r];
  });
  std::vector<std::complex<double>> u(pencil_.unknowns);
  const double f[3] = {force.x, force.y, force.z};
  for (std::size_t a = 0; pencil_.slot[node] >= 0 && a < pencil_.axes.size(); ++a) {
    u[std::size_t(pencil_.slot[node]) + a] = f[pencil_.axes[a]];
  }
  factor.solve(u.data());
  std::vector<ComplexVec> moved(pencil_.slot.size());
  for (std::size_t i = 0; i < moved.size(); ++i) {
    for (std::size_t a = 0; pencil_.slot[i] >= 0 && a < pencil_.axes.size(); ++a) {
      const std::complex<double> v = u[std::size_t(pencil_.slot[i]) + a];
      if (!std::isfinite(std::abs(v))) {
        throw InputError("response", "a frequency at which the line gives no finite answer", "damping",
                         "give a loss above 0, or a frequency with a positive real part");
      }
      moved[i][std::size_t(pencil_.axes[a])] = v;
    }
  }
  return moved;
}

}  // namespace spanloom
