#include "gauge/swings.h"

#include <algorithm>
#include <cmath>
#include <complex>
#include <numbers>

#include "gauge/pulse.h"
#include "motion/small_motion.h"

namespace spanloom {
namespace {

constexpr double kPi = std::numbers::pi;

// How much of the main's swing in so many half waves a mode carries: (w . M phi)^2 / (w . M w) with w the half waves on the
// main, 0 on the loops. Over all modes this adds up to 1; one that takes the loops along has the less for it.
double carried(const HungLine& hung, const Mode& mode, SwingWay way, int bellies) {
  double both = 0.0, all = 0.0;
  for (std::size_t i = 1; i + 1 < hung.line.main_nodes; ++i) {
    const double wave = std::sin(bellies * kPi * hung.rest[i].x / hung.far_anchor.x);
    both += hung.line.mass[i] * wave * (way == SwingWay::sideways ? mode.shape[i].y : mode.shape[i].z);
    all += hung.line.mass[i] * wave * wave;
  }
  return both * both / all;
}

struct Carrier { BellySwing swing; double carried = 0.0; };

// All modes below `reach` [Hz] looked at.
std::optional<Carrier> most_carried(const HungLine& hung, SwingWay way, int bellies, Swing swing, double reach) {
  const Modes modes = natural_modes(hung.line, hung.rest, swing, {reach});
  if (!modes.certified) return std::nullopt;
  Carrier best;
  double all = 0.0;
  for (const Mode& mode : modes.modes) {
    const double here = carried(hung, mode, way, bellies);
    all += here;
    if (here > best.carried) best = {{mode.frequency, 0.0}, here};
  }
  if (!(best.carried > 0.0)) return std::nullopt;
  best.swing.share = best.carried / all;
  return best;
}

}  // namespace

std::optional<BellySwing> belly_swing(const HungLine& hung, SwingWay way, int bellies) {
  // Loops make it slower; sag makes the first one in the plane up to 2.9 times as fast (Irvine & Caughey 1974), which few
  // highlines have: so further up is looked only where nothing is found.
  constexpr double kNearby = 1.3, kSteep = 3.0;
  const double once = 1.0 / sharp_round_trip(hung);
  Swing swing = way == SwingWay::sideways ? Swing::lateral : Swing::in_plane;
  if (!hangs_in_a_plane(hung)) swing = Swing::all;
  constexpr double kMuch = 0.3;  // main and loops together carry half where they weigh alike
  const std::optional<Carrier> nearby = most_carried(hung, way, bellies, swing, kNearby * bellies * once);
  if (way == SwingWay::sideways || bellies > 1 || (nearby && nearby->carried > kMuch)) {
    return nearby ? std::optional(nearby->swing) : std::nullopt;
  }
  const std::optional<Carrier> steep = most_carried(hung, way, bellies, swing, kSteep * once);
  return steep ? std::optional(steep->swing) : std::nullopt;
}

std::optional<double> response_peak(const HungLine& hung, std::size_t node, SwingWay way, double near_Hz, double duration) {
  constexpr double kReach = 0.25, kLeast = 0.2;
  const double step = std::min(0.2 / duration, 0.01 * near_Hz);
  std::vector<double> omega;
  for (double f = (1.0 - kReach) * near_Hz; f <= (1.0 + kReach) * near_Hz; f += step) omega.push_back(2.0 * kPi * f);
  const std::vector<std::complex<double>> answer =
      receptance_at(hung, node, way == SwingWay::sideways ? 1 : 2, 2.0 / duration, omega);
  std::vector<double> size;
  for (std::size_t k = 0; k < omega.size(); ++k) size.push_back(omega[k] * std::abs(answer[k]));
  const double greatest = *std::max_element(size.begin(), size.end());
  std::optional<double> nearest;
  for (std::size_t k = 1; k + 1 < size.size(); ++k) {
    if (size[k] < kLeast * greatest || size[k] < size[k - 1] || size[k] <= size[k + 1]) continue;
    const double bend = size[k - 1] - 2.0 * size[k] + size[k + 1];
    const double at = (omega[k] / (2.0 * kPi)) + 0.5 * (size[k - 1] - size[k + 1]) / bend * step;
    if (!nearest || std::abs(at - near_Hz) < std::abs(*nearest - near_Hz)) nearest = at;
  }
  return nearest;
}

}  // namespace spanloom
