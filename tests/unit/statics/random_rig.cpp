#include "unit/statics/random_rig.h"

#include <algorithm>
#include <cmath>
#include <cstdint>
#include <vector>

#include <fmt/format.h>

namespace spanloom {
namespace {

class Dice {
 public:
  explicit Dice(std::mt19937_64& random) : random_(random) {}
  // std::uniform_real_distribution may differ between libraries; the same seed must give the same rig.
  double uniform(double low, double high) { return low + (high - low) * double(random_() >> 11) * 0x1p-53; }
  double log_uniform(double low, double high) { return std::exp(uniform(std::log(low), std::log(high))); }
  int whole(int low, int high) { return low + int(random_() % std::uint64_t(high - low + 1)); }
  bool one_in(int n) { return random_() % std::uint64_t(n) == 0; }
  bool share(double p) { return uniform(0.0, 1.0) < p; }

 private:
  std::mt19937_64& random_;
};

Webbing random_webbing(Dice& dice, const std::string& name, const RandomRigKind& kind) {
  Webbing w = webbing_with_defaults();
  w.name = name;
  w.mass_per_length = dice.uniform(0.03, 0.12);
  w.strength = dice.uniform(20e3, 60e3);
  const double stiffness = dice.log_uniform(kind.softest, kind.stiffest);
  if (dice.one_in(3)) {
    w.curve = StretchCurve::linear(stiffness);
    return w;
  }
  // Soft first, then stiffer, or the other way round; 30 kN at about the stretch of that stiffness.
  std::vector<CurvePoint> points;
  const double power = dice.log_uniform(0.5, 2.0);
  const int n = dice.whole(1, 7);
  for (int i = 1; i <= n; ++i) {
    const double t = double(i) / n;
    points.push_back({30e3 * std::pow(t, power), 30e3 / stiffness * t});
  }
  w.curve = StretchCurve::from_points(points);
  return w;
}

Link random_link(Dice& dice, const std::string& name, double most_length) {
  return {name, dice.uniform(0.0, 3.0), dice.one_in(3) ? 0.0 : dice.uniform(0.02, most_length), std::nullopt};
}

void add_segments(Dice& dice, WebbingRun& run, std::size_t webbings, double length) {
  const int more = dice.one_in(3) ? dice.whole(1, 3) : 0;
  for (int i = 0; i < more; ++i) {
    run.segments.push_back({std::size_t(dice.whole(0, int(webbings) - 1)), length * dice.uniform(0.05, 0.25)});
    run.connectors.push_back(random_link(dice, fmt::format("connector {}", i + 1), 0.15));
  }
  run.segments.push_back({std::size_t(dice.whole(0, int(webbings) - 1)), std::nullopt});
  if (dice.one_in(2)) run.near_hardware = random_link(dice, "near hardware", std::min(1.5, 0.05 * length));
  if (dice.one_in(2)) run.far_hardware = random_link(dice, "far hardware", std::min(0.5, 0.05 * length));
}

void set_spacing(Dice& dice, Spacing& spacing, double bay, double main_length) {
  spacing.arm_span = Stated<double>::given(std::max(0.6, std::min(2.0, bay)));
  const double spans = bay / spacing.arm_span.value;
  switch (dice.whole(0, 2)) {
    case 0: {
      RepeatArmSpans repeat;
      for (int i = dice.whole(1, 5); i-- > 0;) repeat.arm_spans.push_back(std::max(0.15, spans * dice.uniform(0.4, 1.6)));
      spacing.pattern = repeat;
      break;
    }
    case 1: {
      TapesAt at;
      for (double s = bay * dice.uniform(0.3, 1.0); s < 0.9 * main_length; s += bay * dice.uniform(0.2, 1.8)) {
        at.positions.push_back(s);
      }
      spacing.pattern = at;
      return;
    }
    default: spacing.pattern = EvenBays{bay};
  }
  if (main_length > 12.0 && dice.one_in(4)) {
    spacing.close = CloseBays{main_length * dice.uniform(0.4, 0.6), std::min(6.0, 0.2 * main_length),
                              std::max(0.2, 0.5 * std::min(1.0, spans))};
  }
}

void set_amount(Dice& dice, Rig& rig, double bay) {
  const bool ring = rig.backup.joint == Joint::ring;
  switch (dice.whole(0, ring ? 1 : 2)) {
    case 0: rig.backup.amount = SlackShare{{dice.log_uniform(0.003, ring ? 0.06 : 0.3)}}; break;
    case 1: rig.backup.amount = LoopDrop{{bay * dice.log_uniform(0.02, ring ? 0.15 : 0.4)}}; break;
    default: rig.backup.amount = LoopLength{{2.0 * bay * dice.uniform(1.1, 1.4)}};  // the longest bay may be twice it
  }
}

}  // namespace

RandomRig random_rig(std::mt19937_64& random, const RandomRigKind& kind) {
  Dice dice(random);
  RandomRig made;
  Rig& rig = made.rig = rig_with_defaults();
  rig.title = "random";
  rig.site.gap = dice.log_uniform(kind.least_gap, kind.greatest_gap);
  rig.site.rise = kind.steepest * rig.site.gap * (dice.one_in(3) ? dice.uniform(-1, 1) : dice.uniform(-0.1, 0.1));
  const double chord = std::hypot(rig.site.gap, rig.site.rise);
  for (const char* name : {"river", "brook", "creek"}) rig.webbings.push_back(random_webbing(dice, name, kind));
  add_segments(dice, rig.main.run, 3, chord);
  add_segments(dice, rig.backup.run, 3, chord);
  const double bay = std::max(0.5, chord / dice.whole(2, kind.most_bays));
  if (dice.share(kind.rings)) {
    rig.backup.joint = Joint::ring;
    rig.backup.run.segments.erase(rig.backup.run.segments.begin(), rig.backup.run.segments.end() - 1);
    rig.backup.run.connectors.clear();
  }
  // A line of weight q per metre over a chord cannot stand at less than about three quarters of q chord.
  const double heaviest = 2.2 * 0.12 * 9.81 * chord;
  const double tension = dice.log_uniform(std::max(500.0, 0.5 * heaviest), std::max(15e3, heaviest));
  double main_length = 0.95 * chord;
  if (kind.lengths_given && dice.one_in(4)) {
    const double slack = dice.one_in(2) ? dice.uniform(0.0, 0.15) : dice.uniform(-0.02, 0.01);
    double left = chord * (1.0 + slack) - rig.main.run.near_hardware.length - rig.main.run.far_hardware.length;
    for (const Link& c : rig.main.run.connectors) left -= c.length;
    for (std::size_t i = 0; i + 1 < rig.main.run.segments.size(); ++i) left -= *rig.main.run.segments[i].natural_length;
    rig.main.run.segments.back().natural_length = left;
  } else {
    rig.main.tension = tension;
  }
  set_spacing(dice, rig.spacing, bay, main_length);
  set_amount(dice, rig, bay);
  if (dice.one_in(4)) {
    rig.backup.near_offset = {dice.uniform(-0.2, 0.2), dice.uniform(-0.2, 0.2), dice.uniform(-0.4, 0.0)};
    rig.backup.far_offset = {dice.uniform(-0.2, 0.2), dice.uniform(-0.2, 0.2), dice.uniform(-0.4, 0.0)};
  }
  rig.backup.tape_mass = dice.one_in(2) ? 0.0 : dice.uniform(0.0, 0.3);
  rig.walker.mass = dice.uniform(40.0, 130.0);
  if (dice.share(kind.wind)) rig.wind = Wind{dice.uniform(0.0, 25.0)};
  if (dice.one_in(3)) rig.extra_places = {main_length * dice.uniform(0.0, 0.95), main_length * dice.uniform(0.0, 0.95)};
  made.options = {2 * dice.whole(1, 8), dice.whole(2, 16)};
  made.words = fmt::format(
      "gap {:.4g} m, rise {:.4g} m, tension {:.4g} N, webbing main {} backup {}, EA at rest {:.3g} {:.3g} {:.3g} N, "
      "segments {} + {}, bay about {:.3g} m, amount {}, {}{}, bars {} + {}",
      rig.site.gap, rig.site.rise, rig.main.tension.value_or(0.0), rig.main.run.segments.back().webbing,
      rig.backup.run.segments.back().webbing, 1.0 / rig.webbings[0].curve.stretch_at(0.0).compliance,
      1.0 / rig.webbings[1].curve.stretch_at(0.0).compliance, 1.0 / rig.webbings[2].curve.stretch_at(0.0).compliance,
      rig.main.run.segments.size(), rig.backup.run.segments.size(), bay,
      std::visit([](const auto& a) { return fmt::format("{:.4g}", a.of_bay.front()); }, rig.backup.amount),
      rig.backup.joint == Joint::ring ? "rings" : "taped", rig.wind ? ", wind" : "", made.options.main_bars,
      made.options.loop_bars);
  return made;
}

}  // namespace spanloom
