#include "events/fall.h"

#include <algorithm>
#include <cmath>
#include <numbers>

#include "base/constants.h"
#include "base/input_error.h"
#include "base/same_everywhere.h"
#include "events/fall_start.h"
#include "events/fall_surroundings.h"
#include "statics/clearance.h"
#include "motion/finer_steps.h"
#include "motion/shake.h"

namespace spanloom {
namespace {

constexpr double kLook = 5e-4;         // the line is looked at so often: waves take as long for one bar [s]
const double kSmoothingShare = 1.0 - exp_of_minus(kLook * 2.0 * std::numbers::pi * kForceFrequency);  // of a look [-]
constexpr std::size_t kLooksAPoint = 40;  // of the path: every 20 ms
constexpr double kQuiet = 1.5;         // nothing new for so long, and for half a swing of the body: it is over [s]
constexpr double kLeastTime = 2.5;     // [s]
constexpr double kSoonTurnedOver = 1.0;  // height that a walker will have gone at least, for a look before the end [m]
constexpr double kNewDistance = 1e-2;  // what counts as new [m]
constexpr double kNewForce = 20.0;     // [N]

// One try with one step of time.
class Run {
 public:
  Run(const MovingRig& rig, const FallCase& what, const FallStart& start, const FallOptions& options, double step)
      : rig_(rig), what_(what), start_(start), options_(options), ends_(end_bars(rig)), faller_(faller_of(start, rig.rig)),
        motion_(start.line, start.places, {{}, {}, {}, &faller_}, {Scheme::leapfrog, step}) {
    result_.what = what;
    result_.walker_m = rig.rest[what.walker].x;
    result_.step = step;
    result_.lowest = lowest_feet();
    result_.in_anchor_zone = in_anchor_zone(rig.rig, result_.walker_m);
    if (what.cut) {
      const CutPlace cut = cut_place(rig, *what.cut);
      result_.cut_m = cut.along;
      result_.cut_words = cut.words;
    }
    look();
    keep_point();
  }

  // Empty where the ledger did not close.
  std::optional<FallResult> to_the_end() {
    while (!over()) {
      if (!motion_.advance(kLook) || !is_finite(faller_.hip()) || !is_finite(faller_.ring())) return std::nullopt;
      tear_tapes();
      look();
      if ((looks_ - 1) % kLooksAPoint == 0) {  // the first look was at the start
        keep_point();
        // A run that has gone astray need not be followed to its end.
        if (!closes(result_.ledger, turned_over() + kSoonTurnedOver * weight())) return std::nullopt;
      }
    }
    keep_point();
    result_.time = motion_.time();
    result_.tight = faller_.tight_since();
    result_.turned_over = turned_over();
    if (!closes(result_.ledger, result_.turned_over)) return std::nullopt;
    return std::move(result_);
  }

 private:
  double lowest_feet() const { return faller_.hip().z - rig_.rig.walker.foot_to_hip.value; }
  bool over() const {
    if (result_.lost || motion_.time() >= options_.longest) return true;
    // A body that hangs so deep below its line swings to its other side in half a period of a pendulum.
    const double hangs = std::max(1.0, main_height(rig_, faller_.hip().x) - faller_.hip().z);
    const double half_swing = std::numbers::pi * std::sqrt(hangs / kGravity);
    return motion_.time() >= kLeastTime && motion_.time() >= news_ + std::max(kQuiet, half_swing);
  }
  double weight() const { return rig_.rig.walker.mass * kGravity; }
  // What the walker's height and the webbing's stretch gave and took.
  double turned_over() const { return weight() * result_.fall + most_stretch_ - least_stretch_; }

  // An extreme is news when it has gone on by so much since it last was.
  struct Extreme { double value = -std::numeric_limits<double>::infinity(), told = value; };
  void note(Extreme& extreme, double value, double step) {
    extreme.value = std::max(extreme.value, value);
    if (extreme.value <= extreme.told + step) return;
    extreme.told = extreme.value;
    news_ = motion_.time();
  }
  void grow(Extreme& extreme, double& greatest, double value) {
    note(extreme, value, kNewForce);
    greatest = std::max(greatest, value);
  }
  // Load of an anchor towards the gap: the end of a failed main that whips back past its anchor does not load it.
  void grow(Extreme& extreme, Vec3& greatest, const Vec3& force, double towards) {
    if (towards * force.x <= 0.0) return;
    if (norm(force) > norm(greatest)) greatest = force;
    note(extreme, norm(force), kNewForce);
  }

  void look() {
    smooth();
    look_at_body();
    look_at_line();
    ++looks_;
  }

  void look_at_body() {
    result_.fall = std::max(result_.fall, start_.faller.hip.z - faller_.hip().z);
    result_.leash_ring_run = std::max(result_.leash_ring_run, std::abs(faller_.ring().x - start_.faller.ring.x));
    grow(body_, result_.body, leash_);
    result_.lost = faller_.lost_the_line();
    const double feet = lowest_feet();
    note(depth_, -feet, kNewDistance);
    if (feet <= result_.lowest) {
      result_.lowest = feet;
      result_.lowest_at = faller_.hip().x;
      result_.lowest_time = motion_.time();
      result_.clear_height = main_height(rig_, faller_.hip().x) - feet;
    }
    if (result_.in_anchor_zone) return;
    note_distances(rig_.rig, faller_.hip(), faller_.velocity(), result_);
    if (result_.clearance) note(clearance_, -*result_.clearance, kNewDistance);
    if (result_.wall) note(wall_, -*result_.wall, kNewDistance);
  }

  // Forces as a dynamometer shows them: what lasts a millisecond is the ringing of single bars.
  void smooth() {
    const double share = looks_ == 0 ? 1.0 : kSmoothingShare;
    leash_ += share * (faller_.leash_force() - leash_);
    const auto follow = [&](Vec3& pull, std::size_t bar) { pull += share * (motion_.pull_of(bar) - pull); };
    follow(at_ends_.main_near, ends_.main_near), follow(at_ends_.main_far, ends_.main_far);
    if (start_.line.backup_nodes() == 0) return;
    follow(at_ends_.backup_near, ends_.backup_near), follow(at_ends_.backup_far, ends_.backup_far);
  }

  // The tensions of all bars, which take a third of the time: looked at half as often.
  void look_at_bars() {
    if (looks_ % 2 == 1) return;
    const MotionLine& line = start_.line;
    const double share = looks_ == 0 ? 1.0 : kSmoothingShare * (2.0 - kSmoothingShare);  // of two looks
    tension_.resize(line.bars());
    for (std::size_t bar = 0; bar < line.bars(); ++bar) {
      tension_[bar] += share * (motion_.tension(bar) - tension_[bar]);
      const bool main = bar + 1 < line.main_nodes;
      grow(main ? main_ : backup_, main ? result_.main : result_.backup, tension_[bar]);
    }
  }

  void look_at_line() {
    look_at_bars();
    const MotionLine& line = start_.line;
    const std::size_t cut = what_.cut.value_or(line.bars());
    const bool near_holds = cut > ends_.main_near, far_holds = cut < ends_.main_far || cut == line.bars();
    const auto pull = [](bool counts, const Vec3& force) { return counts ? force : Vec3{}; };
    grow(near_, result_.near, pull(near_holds, at_ends_.main_near) + at_ends_.backup_near, 1.0);
    grow(far_, result_.far, -pull(far_holds, at_ends_.main_far) - at_ends_.backup_far, -1.0);
  }

  // By the same slow eye as all forces: what a loop that snaps tight gives its tape for a millisecond does not tear it.
  void tear_tapes() {
    if (what_.tape_strength == kTapesHold) return;
    const bool first = on_tie_.size() != motion_.ties().size();
    on_tie_.resize(motion_.ties().size());
    for (std::size_t tie = motion_.ties().size(); tie-- > 0;) {
      const Vec3 force = motion_.tie_force(tie);
      on_tie_[tie] += (first ? 1.0 : kSmoothingShare) * (force - on_tie_[tie]);
      if (norm(on_tie_[tie]) <= what_.tape_strength) continue;
      motion_.tear(tie);
      on_tie_.erase(on_tie_.begin() + std::ptrdiff_t(tie));
      ++result_.torn;
      news_ = motion_.time();
    }
  }

  void keep_point() {
    result_.ledger = motion_.ledger();
    least_stretch_ = std::min(least_stretch_, result_.ledger.stretch);
    most_stretch_ = std::max(most_stretch_, result_.ledger.stretch);
    result_.path.push_back({motion_.time(), faller_.hip(), faller_.ring(), leash_});
    if (options_.frame_every <= 0.0 || motion_.time() < double(result_.frames.size()) * options_.frame_every - 1e-9) return;
    FallFrame frame{motion_.time(), {}, {}, rig_.line.main_nodes - 1, faller_.hip(), faller_.ring()};
    for (std::size_t i = 0; i < motion_.nodes(); ++i) (i < rig_.line.main_nodes ? frame.main : frame.backup).push_back(motion_.place(i));
    if (what_.cut) frame.cut_after = *what_.cut;
    result_.frames.push_back(std::move(frame));
  }

  const MovingRig& rig_;
  const FallCase& what_;
  const FallStart& start_;
  const FallOptions& options_;
  const EndBars ends_;
  Faller faller_;
  Motion motion_;
  FallResult result_;
  double least_stretch_ = std::numeric_limits<double>::infinity(), most_stretch_ = 0.0;
  struct { Vec3 main_near, main_far, backup_near, backup_far; } at_ends_;  // force of each end bar on its near node [N]
  std::vector<Vec3> on_tie_;           // force of each tape that holds [N]
  std::vector<double> tension_;        // of each bar [N]
  Extreme body_, main_, backup_, near_, far_, depth_, clearance_, wall_;
  std::size_t looks_ = 0;
  double leash_ = 0.0;                 // its force [N]
  double news_ = 0.0;                  // when something new was last seen [s]
};

}  // namespace

const char* name_of(Posture posture) {
  switch (posture) {
    case Posture::standing: return "standing";
    case Posture::sitting: return "sitting";
    case Posture::hanging: return "hanging";
  }
  return "";
}

const char* name_of(StepOff step_off) {
  switch (step_off) {
    case StepOff::sideways: return "sideways";
    case StepOff::backwards: return "backwards";
    case StepOff::from_sitting: return "from sitting";
  }
  return "";
}

const char* name_of(RingRun run) { return run == RingRun::runs ? "runs" : "caught"; }

FallOutcome run_fall(const MovingRig& rig, const FallCase& what, const FallOptions& options) {
  const FallStartOutcome begun = start_of_fall(rig, what);
  if (!begun.start) return {std::nullopt, begun.why};
  const FallStart& start = *begun.start;
  const double step = options.step > 0.0 ? options.step : start.step;
  FallOutcome outcome;
  outcome.result = with_finer_steps(step, [&](double h) { return Run(rig, what, start, options, h).to_the_end(); });
  if (!outcome.result) outcome.why = "the energy ledger did not close, however fine the step of time";
  return outcome;
}

}  // namespace spanloom
