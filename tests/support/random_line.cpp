#include "support/random_line.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <utility>
#include <vector>

#include "base/constants.h"

namespace spanloom {
namespace {

// std::uniform_real_distribution may differ between libraries; the same seed must give the same rig.
double uniform(std::mt19937_64& random, double low, double high) {
  return low + (high - low) * double(random() >> 11) * 0x1p-53;
}
double log_uniform(std::mt19937_64& random, double low, double high) {
  return std::exp(uniform(random, std::log(low), std::log(high)));
}
int whole(std::mt19937_64& random, int low, int high) {
  return low + int(random() % std::uint64_t(high - low + 1));
}
bool one_in(std::mt19937_64& random, int n) { return random() % std::uint64_t(n) == 0; }

StretchCurve random_curve(std::mt19937_64& random, double stiffness) {
  if (one_in(random, 2)) return StretchCurve::linear(stiffness);
  // Soft first, then stiffer, or the other way round; 30 kN at about the stretch of that stiffness.
  std::vector<CurvePoint> points;
  const double power = log_uniform(random, 0.4, 2.5), last = 30e3 / stiffness;
  const int n = whole(random, 2, 8);
  for (int i = 1; i <= n; ++i) {
    const double t = double(i) / n;
    points.push_back({30e3 * std::pow(t, power), last * t});
  }
  return StretchCurve::from_points(points);
}

void shake_bars(std::mt19937_64& random, std::vector<BarSpec>& bars) {
  if (!one_in(random, 3)) return;
  for (BarSpec& bar : bars) bar.length *= uniform(random, 0.3, 1.7);
  if (one_in(random, 2)) bars[random() % bars.size()].end_mass = uniform(random, 0.0, 3.0);
}

void scale_to(std::vector<BarSpec>& bars, double length) {
  double sum = 0.0;
  for (const BarSpec& bar : bars) sum += bar.length;
  for (BarSpec& bar : bars) bar.length *= length / sum;
}

std::vector<double> random_shares(std::mt19937_64& random, int n) {
  const bool even = one_in(random, 3);
  std::vector<double> share;
  double sum = 0.0;
  for (int i = 0; i < n; ++i) sum += share.emplace_back(even ? 1.0 : uniform(random, 0.2, 2.0));
  for (double& s : share) s /= sum;
  return share;
}

void blow(Line& line, double wind_per_metre) {
  // Half of each bar's wind to each end, as with weights.
  for (std::size_t c = 0; c < line.chains.size(); ++c) {
    const ChainRange& chain = line.chains[c];
    for (std::size_t i = 0; i < chain.count; ++i) {
      const double half = 0.5 * wind_per_metre * line.length[chain.first + i];
      (i == 0 ? line.tape_load[c / 2] : line.load[chain.first + i - 1]).y += half;
      (i + 1 == chain.count ? line.tape_load[c / 2 + 1] : line.load[chain.first + i]).y += half;
    }
  }
}

}  // namespace

RandomLine random_line(std::mt19937_64& random, const RandomLineKind& kind) {
  const double gap = log_uniform(random, kind.least_gap, kind.greatest_gap);
  const double rise = kind.steepest * gap * (one_in(random, 3) ? uniform(random, -1, 1) : uniform(random, -0.1, 0.1));
  const double chord = std::hypot(gap, rise);
  const double main_stiffness = log_uniform(random, kind.softest, kind.stiffest);
  const double loop_stiffness = log_uniform(random, kind.softest, kind.stiffest);
  const StretchCurve main_curve = random_curve(random, main_stiffness);
  const StretchCurve loop_curve = random_curve(random, loop_stiffness);
  // Taut lines are stated by tension, slack ones by slack; nearly taut ones get a share of their own.
  const int mood = whole(random, 0, 2);
  double slack = mood == 0   ? uniform(random, 0.0, kind.most_slack)
                 : mood == 1 ? uniform(random, -1.0, 1.0) * 1e-3
                             : 1.0 / (1.0 + main_curve.stretch_at(log_uniform(random, 200.0, 25e3)).stretch) - 1.0;
  slack = std::clamp(slack, kind.least_slack, kind.most_slack);
  const double main_length = chord * (1.0 + slack);
  const double standing = std::max(main_length, chord);

  const Vec3 far{gap, 0.0, rise};
  LineEnds ends{{}, far, {}, far};
  if (one_in(random, 4)) {
    ends.backup_near = {uniform(random, -0.3, 0.3), uniform(random, -0.3, 0.3), uniform(random, -0.5, 0.0)};
    ends.backup_far = far + Vec3{uniform(random, -0.3, 0.3), uniform(random, -0.3, 0.3), uniform(random, -0.5, 0.0)};
  }
  LineBuilder builder({main_curve, loop_curve}, ends);
  const int bays = whole(random, 1, std::min(kind.most_bays, std::max(1, int(gap / 0.5))));
  const double main_mass = uniform(random, 0.03, 0.12), loop_mass = uniform(random, 0.02, 0.12);
  const bool one_slack = one_in(random, 2);
  const double shared_slack = uniform(random, kind.least_loop_slack, kind.most_loop_slack);
  const double tape_mass = one_in(random, 2) ? 0.0 : uniform(random, 0.0, 0.5);
  for (double share : random_shares(random, bays)) {
    std::vector<BarSpec> main(std::size_t(whole(random, 2, 20)), {1.0, 0, main_mass});
    shake_bars(random, main);
    scale_to(main, share * main_length);
    std::vector<BarSpec> loop;
    if (!one_in(random, 8)) {
      const double loop_slack = one_slack ? shared_slack : uniform(random, kind.least_loop_slack, kind.most_loop_slack);
      loop.assign(std::size_t(whole(random, 2, 20)), {1.0, 1, loop_mass});
      shake_bars(random, loop);
      scale_to(loop, share * standing * (1.0 + loop_slack));
    }
    builder.add_bay(main, loop, tape_mass);
  }
  RandomLine made{std::move(builder).build(), ""};
  const double wind = one_in(random, 3) ? uniform(random, 0.0, kind.most_wind) : 0.0;
  if (wind > 0.0) blow(made.line, wind);
  const double walker = one_in(random, 2) ? uniform(random, 300.0, 2500.0) : 0.0;
  if (walker > 0.0) {
    const std::size_t bay = random() % made.line.bays();
    add_main_load(made.line, {bay, random() % (made.line.main_chain(bay).count + 1)}, {0.0, 0.0, -walker});
  }
  made.words = fmt::format("gap {:.4g} m, rise {:.4g} m, bays {}, main slack {:.3g}, EA main {:.3g} N{}, loop {:.3g} N{}, "
                           "loop slack {:.3g}{}, wind {:.3g} N/m, walker {:.4g} N, bars {}",
                           gap, rise, bays, slack, main_stiffness, main_curve.constant_stiffness() > 0 ? "" : " (curve)",
                           loop_stiffness, loop_curve.constant_stiffness() > 0 ? "" : " (curve)", shared_slack,
                           one_slack ? "" : " (each its own)", wind, walker, made.line.bars());
  return made;
}

}  // namespace spanloom
