#include "spacing/moved_return.h"

#include <algorithm>
#include <cmath>

#include "base/input_error.h"
#include "motion/shake_report.h"
#include "spacing/layout_judge.h"

namespace spanloom {
namespace {

constexpr double kSoftWaveSpeed = 800.0;  // axial, of the backup [m/s]
constexpr double kFastFrom = 1.2;         // [Hz]
constexpr double kSizedWithin = 0.05;     // of the asked first swing
constexpr std::size_t kShakesARound = 100;  // at the most: crews of other rounds have other numbers
constexpr std::size_t kCrewsTried = 10;
constexpr double kLeastStep = 0.3;        // of the rig's own step of time
constexpr double kNone = -1.0;            // in MovedReturn::each
// Coarser mains make no difference, coarser loops do: at 3 Hz a loop's own waves are a metre long.
constexpr MotionMesh kMesh{0.9, 0.30, 8};

void take_means(MovedReturn& of) {
  double sum = 0.0, count = 0.0;
  of.worst = 0.0;
  for (const double returned : of.each) {
    if (returned < 0.0) continue;
    sum += returned, count += 1.0;
    of.worst = std::max(of.worst, returned);
  }
  of.mean = count > 0.0 ? sum / count : 0.0;
  std::sort(of.over.begin(), of.over.end());
  of.over.erase(std::unique(of.over.begin(), of.over.end()), of.over.end());
}

}  // namespace

std::vector<Shake> judged_shakes(const Rig& rig) {
  constexpr double kPlaces[] = {0.15, 0.35, 0.5};
  std::vector<Shake> shakes;
  for (const double frequency : third_octaves()) {
    shakes.push_back({frequency, kPlaces[shakes.size() % std::size(kPlaces)], ShakeDirection::sideways, rig.shake.swing.value});
  }
  return shakes;
}

Rig with_soft_backup(const Rig& rig) {
  Rig soft = rig;
  for (Segment& segment : soft.backup.run.segments) {
    Webbing webbing = rig.webbings[segment.webbing];
    const double softest = kSoftWaveSpeed * kSoftWaveSpeed * webbing.mass_per_length;
    constexpr double kHardlyStretched = 1e-6;
    if (!(webbing.curve.stiffness(kHardlyStretched) > softest)) continue;
    webbing.curve = StretchCurve::linear(softest);
    segment.webbing = soft.webbings.size();
    soft.webbings.push_back(std::move(webbing));
  }
  return soft;
}

MovedJudge::MovedJudge(const Rig& rig, std::uint64_t seed, const TapingErrors& errors)
    : rig_(with_soft_backup(rig)), seed_(seed), errors_(errors), shakes_(judged_shakes(rig)), own_(moving_rig(rig_, kMesh).rig) {
  for (const Shake& shake : shakes_) {
    slow_ += shake.frequency < kFastFrom ? 1 : 0;
    if (own_) force_.push_back(sized_force(*own_, shake, kSizedWithin));
  }
}

std::optional<MovingRig> MovedJudge::ready(const Rig& rig) const {
  if (!own_) return std::nullopt;
  try {
    MovingOutcome outcome = moving_rig(rig, kMesh);
    if (!outcome.rig) return std::nullopt;
    // A tape that all but meets a connector makes a bar of millimetres, and a hundred times the work.
    if (steady_step(outcome.rig->line, Scheme::leapfrog) < kLeastStep * steady_step(own_->line, Scheme::leapfrog)) return std::nullopt;
    outcome.rig->round_trip = own_->round_trip;
    return std::move(outcome.rig);
  } catch (const InputError&) {
    return std::nullopt;  // a layout of ours that meets a joint or the like
  }
}

std::optional<MovingRig> MovedJudge::line(const Layout& layout) const { return ready(with_layout(rig_, layout)); }

std::optional<MovingRig> MovedJudge::line(const TapedLine& taped) const {
  Rig cut = with_layout(rig_, {taped.bays, std::vector<double>(taped.bays.size(), 0.0)});
  cut.backup.amount = LoopLength{taped.loops};
  return ready(cut);
}

std::optional<MovingRig> MovedJudge::taped_line(const Layout& layout, const std::vector<double>& loops, std::size_t crew) const {
  for (std::size_t i = 0; i < kCrewsTried; ++i) {
    // Crews of other shakes and rounds are not among those that stand in.
    if (auto found = line(taped_by(crew + (i << 32), layout, loops, errors_, seed_))) return found;
  }
  return std::nullopt;
}

void MovedJudge::add(MovedReturn& result, const MovingRig* line, std::size_t shake) const {
  const std::optional<GlancedShake> seen = line ? glance_at_shake(*line, shakes_[shake], force_[shake]) : std::nullopt;
  result.each.push_back(seen ? seen->returned : kNone);
  ++(seen ? result.shakes : result.without);
  for (std::size_t bay = 0; seen && bay < seen->loops.size(); ++bay) {
    if (seen->loops[bay].passes_over) result.over.push_back(bay + 1);
  }
}

MovedReturn MovedJudge::shake(const MovingRig& line, ShakeSet set) const {
  MovedReturn result;
  for (std::size_t i = set == ShakeSet::fast ? slow_ : 0; i < shakes_.size(); ++i) add(result, &line, i);
  take_means(result);
  return result;
}

MovedReturn MovedJudge::shake_as_taped(const Layout& layout, ShakeSet set, std::size_t round) const {
  MovedReturn result;
  const std::optional<MovingRig> planned = line(layout);
  const std::vector<double> loops = planned ? loop_lengths_of(planned->mesh.line) : std::vector<double>{};
  for (std::size_t i = set == ShakeSet::fast ? slow_ : 0; i < shakes_.size(); ++i) {
    const auto taped = planned ? taped_line(layout, loops, round * kShakesARound + i) : std::nullopt;
    add(result, taped ? &*taped : nullptr, i);
  }
  std::erase_if(result.over, [&](std::size_t bay) { return bay > layout.bays.size(); });   // of crews with one more
  take_means(result);
  return result;
}

MovedReturn mean_of(const std::vector<MovedReturn>& rounds) {
  MovedReturn result;
  double square = 0.0;                    // of the standard errors of each
  for (std::size_t i = 0; !rounds.empty() && i < rounds.front().each.size(); ++i) {
    double sum = 0.0, count = 0.0;
    for (const MovedReturn& round : rounds) {
      if (round.each[i] >= 0.0) sum += round.each[i], count += 1.0;
    }
    result.each.push_back(count > 0.0 ? sum / count : kNone);
    for (const MovedReturn& round : rounds) {
      const double off = round.each[i] - result.each.back();
      if (round.each[i] >= 0.0 && count > 1.0) square += off * off / (count * (count - 1.0));
    }
  }
  if (!result.each.empty()) result.error = std::sqrt(square) / double(result.each.size());
  for (const MovedReturn& round : rounds) {
    result.shakes += round.shakes, result.without += round.without;
    result.over.insert(result.over.end(), round.over.begin(), round.over.end());
  }
  take_means(result);
  return result;
}

}  // namespace spanloom
