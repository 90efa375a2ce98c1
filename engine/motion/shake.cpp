#include "motion/shake.h"

#include <algorithm>
#include <cmath>

#include <fmt/format.h>

#include "base/same_everywhere.h"
#include "motion/finer_steps.h"
#include "motion/swing_over.h"

namespace spanloom {
namespace {

constexpr int kMostSizings = 6;
constexpr double kSizedWithin = 0.03;        // of the asked first swing
constexpr double kFirstSizedWithin = 0.3;    // the same, to start from
constexpr double kSizingShare = 0.9;         // of the longest time step
constexpr double kLooksPerPeriod = 40.0;     // also per round trip
constexpr double kGlancesPerPeriod = 16.0;   // the same of a glance
constexpr double kSettled = 0.05;            // of the first swing
constexpr double kStaysSettled = 10.0;       // so long that it is believed [s]

int axis_of(ShakeDirection direction) { return direction == ShakeDirection::sideways ? 1 : 2; }

double turned_over(const EnergyLedger& ledger) { return std::max(std::abs(ledger.put_in), ledger.kinetic); }

Drive one_cycle(const MovingRig& rig, const Shake& shake, double force) {
  const double period = 1.0 / shake.frequency;
  const auto cycle = [force, period](double t) {
    return t < period ? force * sine_of_turns(t / period) : 0.0;
  };
  const Vec3 direction = shake.direction == ShakeDirection::sideways ? Vec3{0.0, 1.0, 0.0} : Vec3{0.0, 0.0, 1.0};
  Drive drive;
  drive.pushes.push_back({rig.node_near(shake.place * rig.rig.site.gap), direction, cycle});
  return drive;
}

using Show = std::function<void(const Motion&)>;

// Watches the main through one run.
class Watch {
 public:
  Watch(const MovingRig& rig, const Shake& shake, std::size_t node)
      : rig_(rig), axis_(axis_of(shake.direction)), node_(node), swings_(rig), whole_(0.0) {
    for (const double share : rig.main_share) whole_ += share;
  }

  double at_place(const Motion& motion) const { return displacement(motion, node_); }

  // Mean square displacement of the main over its length [m2].
  double mean_square(const Motion& motion) const {
    double sum = 0.0;
    for (std::size_t i = 0; i < rig_.line.main_nodes; ++i) sum += rig_.main_share[i] * square(displacement(motion, i));
    return sum / whole_;
  }

  double kinetic(const Motion& motion) const {
    double sum = 0.0;
    for (std::size_t i = 0; i < rig_.line.main_nodes; ++i) sum += 0.5 * rig_.main_mass[i] * square(motion.velocities(axis_)[i]);
    return sum;
  }

  void look(const Motion& motion, ShakeHistory* history, const Show* show) {
    if (rig_.has_loops()) swings_.look(motion);
    if (show != nullptr && *show) (*show)(motion);
    if (history == nullptr) return;
    history->time.push_back(motion.time());
    std::vector<double>& row = history->displacement.emplace_back();
    for (std::size_t i = 0; i < rig_.line.main_nodes; ++i) row.push_back(displacement(motion, i));
  }

  const std::vector<LoopSwing>& loops() const { return swings_.loops(); }

 private:
  static double square(double a) { return a * a; }
  double displacement(const Motion& motion, std::size_t node) const {
    return motion.places(axis_)[node] - (axis_ == 1 ? rig_.rest[node].y : rig_.rest[node].z);
  }

  const MovingRig& rig_;
  int axis_;
  std::size_t node_;
  SwingWatch swings_;
  double whole_;
};

// A run under one force, from rest, looked at in equal steps.
class Run {
 public:
  Run(const MovingRig& rig, const Shake& shake, double force, double step, ShakeHistory* history = nullptr,
      const Show* show = nullptr, double looks = kLooksPerPeriod)
      : shake_(shake), node_(rig.node_near(shake.place * rig.rig.site.gap)), watch_(rig, shake, node_),
        motion_(rig.line, rig.rest, one_cycle(rig, shake, force), {Scheme::leapfrog, step}), history_(history), show_(show),
        interval_(std::min(1.0 / shake.frequency, rig.round_trip) / looks) {
    watch_.look(motion_, history_, show_);
  }

  struct Seen {
    double mean_square = 0.0, kinetic = 0.0;  // means over the time [m2], [J]
    double swing = 0.0;                       // greatest at the place [m]
    double last_above = 0.0;                  // last time that the place was beyond a threshold [s]
  };

  struct Going { double threshold = 0.0, drift = kGreatestDrift; };   // [m]; an infinite drift is not looked at

  // Goes on for a time. @return empty where the numbers ran away or the ledger did not close
  std::optional<Seen> go_on(double duration, const Going& how = {0.0, kGreatestDrift}) {
    const auto looks = std::size_t(std::max(1.0, std::ceil(duration / interval_)));
    Seen seen;
    seen.last_above = motion_.time();
    double square_before = watch_.mean_square(motion_), kinetic_before = watch_.kinetic(motion_);
    for (std::size_t i = 0; i < looks; ++i) {
      if (!motion_.advance(duration / double(looks))) return std::nullopt;
      watch_.look(motion_, history_, show_);
      if (!adds_up(how.drift)) return std::nullopt;  // nothing is gained by going on
      const double square = watch_.mean_square(motion_), kinetic = watch_.kinetic(motion_);
      seen.mean_square += 0.5 * (square_before + square) / double(looks);
      seen.kinetic += 0.5 * (kinetic_before + kinetic) / double(looks);
      square_before = square, kinetic_before = kinetic;
      const double swing = std::abs(watch_.at_place(motion_));
      seen.swing = std::max(seen.swing, swing);
      if (swing > how.threshold) seen.last_above = motion_.time();
    }
    return seen;
  }

  bool adds_up(double drift) const {
    if (std::isinf(drift)) return true;
    const EnergyLedger ledger = motion_.ledger();
    return closes(ledger, turned_over(ledger), drift);
  }
  const Motion& motion() const { return motion_; }
  const Watch& watch() const { return watch_; }
  std::size_t node() const { return node_; }

 private:
  Shake shake_;
  std::size_t node_;
  Watch watch_;
  Motion motion_;
  ShakeHistory* history_;
  const Show* show_;
  double interval_;
};

// The force that a stiff string would need, to start from.
double first_force(const MovingRig& rig, const Shake& shake) {
  const double gap = rig.rig.site.gap, at = shake.place * gap;
  return shake.first_swing * rig.tension * gap / (at * (gap - at));
}

std::string ran_away(const Shake& shake) {
  return fmt::format("a shake of {:.3g} Hz at {:.0f} % of the gap: its energy ledger did not close, however small the step",
                     shake.frequency, 100.0 * shake.place);
}

// One attempt with a given time step; empty where it is too long. The force is put right on the way.
std::optional<ShakeResult> attempt(const MovingRig& rig, const Shake& shake, const ShakeOptions& options, double step,
                                   double& force, ShakeHistory& history) {
  const double period = 1.0 / shake.frequency;
  ShakeResult result;
  result.shake = shake;
  result.round_trip = rig.round_trip;
  result.step = step;
  for (int sizing = 1;; ++sizing) {
    history = {};
    Run run(rig, shake, force, step, options.keep_history ? &history : nullptr, &options.show);
    const std::optional<Run::Seen> first = run.go_on(period);
    if (!first) return std::nullopt;
    if (sizing < kMostSizings && std::abs(first->swing - shake.first_swing) > kSizedWithin * shake.first_swing) {
      force *= shake.first_swing / first->swing;
      continue;
    }
    if (!run.go_on(2.0 * rig.round_trip)) return std::nullopt;
    const std::optional<Run::Seen> returned = run.go_on(result.late_window());
    if (!returned) return std::nullopt;
    result.place_m = rig.rest[run.node()].x;
    result.force = force;
    result.swing = first->swing;
    result.returned = std::sqrt(returned->mean_square / first->mean_square);
    result.ledger = run.motion().ledger();
    result.energy_share = 2.0 * returned->kinetic / result.ledger.put_in;
    // What is only shown need not close so well, and may end where it does not: the numbers are those of the shake that
    // nobody looked at longer.
    const double more = options.history_time - run.motion().time();
    const bool shown = bool(options.show);
    if (more > 0.0 && !run.go_on(more, {0.0, shown ? kGlanceDrift : kGreatestDrift}) && !shown) return std::nullopt;
    if (rig.has_loops()) result.loops = run.watch().loops();
    if (options.keep_history) {
      for (std::size_t i = 0; i < rig.line.main_nodes; ++i) history.along.push_back(rig.rest[i].x);
    }
    return result;
  }
}

}  // namespace

// Found with the longest step there is: no number of the report comes from it.
double sized_force(const MovingRig& rig, const Shake& shake, double within) {
  const double step = kSizingShare * longest_steady_step(rig.line, Scheme::leapfrog);
  double force = first_force(rig, shake);
  for (int sizing = 0; sizing < kMostSizings; ++sizing) {
    Run run(rig, shake, force, step);
    const std::optional<Run::Seen> first = run.go_on(1.0 / shake.frequency, {0.0, INFINITY});
    if (!first || !(first->swing > 0.0)) return force;
    force *= shake.first_swing / first->swing;
    if (std::abs(first->swing - shake.first_swing) <= within * shake.first_swing) return force;
  }
  return force;
}

std::optional<GlancedShake> glance_at_shake(const MovingRig& rig, const Shake& shake, double force) {
  const double period = 1.0 / shake.frequency;
  return with_finer_steps(steady_step(rig.line, Scheme::leapfrog), [&](double step) -> std::optional<GlancedShake> {
    Run run(rig, shake, force, step, nullptr, nullptr, kGlancesPerPeriod);
    const Run::Going glancing{0.0, kGlanceDrift};
    const std::optional<Run::Seen> first = run.go_on(period, glancing);
    if (!first || !(first->mean_square > 0.0) || !run.go_on(2.0 * rig.round_trip, glancing)) return std::nullopt;
    const std::optional<Run::Seen> late = run.go_on(std::max(rig.round_trip, period), glancing);
    if (!late) return std::nullopt;
    return GlancedShake{std::sqrt(late->mean_square / first->mean_square), first->swing, run.watch().loops()};
  });
}

ShakeOutcome run_shake(const MovingRig& rig, const Shake& shake, const ShakeOptions& options) {
  ShakeOutcome outcome;
  double force = sized_force(rig, shake, kFirstSizedWithin);
  outcome.result = with_finer_steps(steady_step(rig.line, Scheme::leapfrog), [&](double step) {
    return attempt(rig, shake, options, step, force, outcome.history);
  });
  if (outcome.result) return outcome;
  outcome.history = {};
  outcome.why.words = ran_away(shake);
  return outcome;
}

bool closes(const EnergyLedger& ledger, double turned_over, double drift) {
  const double rounding = 1e-12 * (std::abs(ledger.stretch) + std::abs(ledger.height));
  return std::abs(ledger.drift) <= drift * turned_over + rounding;
}

std::optional<Settling> settling_of(const MovingRig& rig, const ShakeResult& result, const std::function<bool()>& keep_on) {
  const double period = 1.0 / result.shake.frequency, threshold = kSettled * result.swing;
  bool stopped = false;
  // So much longer a run wants a finer step than the shake itself.
  return with_finer_steps(0.5 * result.step, [&](double step) -> std::optional<Settling> {
    if (stopped) return std::nullopt;
    Run run(rig, result.shake, result.force, step);
    double last_above = period;
    if (!run.go_on(period)) return std::nullopt;
    const auto waits = [&] { return run.motion().time() < last_above + kStaysSettled; };
    while (run.motion().time() < period + kLongestSettling && waits()) {
      stopped = keep_on && !keep_on();
      if (stopped) return std::nullopt;
      const std::optional<Run::Seen> seen = run.go_on(1.0, {threshold, kGreatestDrift});
      if (!seen) return std::nullopt;
      if (seen->swing > threshold) last_above = seen->last_above;
    }
    return Settling{!waits(), last_above - period};
  });
}

}  // namespace spanloom
