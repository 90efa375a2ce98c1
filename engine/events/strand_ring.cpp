#include "events/strand_ring.h"

#include <algorithm>
#include <cmath>

namespace spanloom {
namespace {

constexpr int kNewtonSteps = 20, kMostHalvings = 12;
constexpr double kJump = 0.25;              // in one step of time: farther than any ring runs [nodes]
constexpr double kRounding = 1e-12;         // relative: so near to the nearest place distances cannot tell any more
constexpr double kNearEnough = 1e-9;        // [nodes]
constexpr double kLongestNewtonStep = 0.5;  // [nodes]

Vec3 mean(const Motion& motion, const StrandPlace& at, const std::array<double, 3>& weights) {
  Vec3 sum;
  for (std::size_t k = 0; k < 3; ++k) sum += weights[k] * motion.place(at.node[k]);
  return sum;
}

}  // namespace

StrandPlace strand_place(const StrandPart& part, double u) {
  // The three nodes around the nearest one; at an end those of its neighbour, extrapolated by a node that mirrors it.
  const double nearest = std::clamp(std::round(u), double(part.first), double(part.last));
  const double t = u - nearest;  // in [-1/2, 1/2]
  StrandPlace at;
  at.weight = {0.5 * (0.5 - t) * (0.5 - t), 0.75 - t * t, 0.5 * (0.5 + t) * (0.5 + t)};
  at.slope = {t - 0.5, -2.0 * t, t + 0.5};
  at.bend = {1.0, -2.0, 1.0};
  const auto middle = std::size_t(nearest);
  at.node = {middle - 1, middle, middle + 1};
  const auto fold = [&](std::size_t missing, std::size_t opposite) {
    for (auto* weights : {&at.weight, &at.slope, &at.bend}) {
      (*weights)[1] += 2.0 * (*weights)[missing];
      (*weights)[opposite] -= (*weights)[missing];
      (*weights)[missing] = 0.0;
    }
    at.node[missing] = middle;
  };
  if (middle == part.first) fold(0, 2);
  if (middle == part.last) fold(2, 0);
  return at;
}

StrandRing::Bearing StrandRing::bearing_at(const Motion& motion, const Vec3& ring) const {
  Bearing at{strand_place(part_, u_), {}, {}, {}, 0.0, 0.0};
  at.away = mean(motion, at.place, at.place.weight) - ring;
  at.along = mean(motion, at.place, at.place.slope);
  at.bend = mean(motion, at.place, at.place.bend);
  at.distance = norm(at.away);
  const double straight = dot(at.along, at.along), full = straight + dot(at.away, at.bend);
  at.full = full > 0.0 ? full : straight;
  return at;
}

// One Newton step to the nearest place, halved until it leads nearer: around a fold of a whipping strand full steps
// would go to and fro. @return how far it went [nodes]
double StrandRing::step_nearer(const Motion& motion, const Vec3& ring, Bearing& at) {
  const Bearing was = at;
  const double from = u_;
  double by = std::clamp(-dot(at.away, at.along) / at.full, -kLongestNewtonStep, kLongestNewtonStep);
  if (!std::isfinite(by)) return 0.0;  // the run has gone astray; its ledger will say so
  for (int halving = 0; halving < kMostHalvings; ++halving, by *= 0.5) {
    u_ = std::clamp(from + by, double(part_.first), double(part_.last));
    at = bearing_at(motion, ring);
    if (at.distance <= was.distance * (1.0 + kRounding)) return std::abs(u_ - from);
  }
  u_ = from, at = was;
  return 0.0;
}

// The nearest place of the strand, from where it was.
StrandRing::Bearing StrandRing::find(const Motion& motion, const Vec3& ring) {
  Bearing at = bearing_at(motion, ring);
  const double before = u_, was_beyond = std::max(0.0, at.distance - reach_);
  for (int step = 0; step < kNewtonSteps && at.full > 0.0; ++step) {
    if (step_nearer(motion, ring, at) < kNearEnough) break;
  }
  if (std::abs(u_ - before) > kJump) {
    // Where the strand folds, a nearest place may cease to be one; then it flips over in the ring to the next. What the
    // spring held more there is lost; nothing slid.
    const double beyond = std::max(0.0, at.distance - reach_);
    lost_ += 0.5 * options_.stiffness * (was_beyond * was_beyond - beyond * beyond);
    clings_to_ += u_ - before;
  }
  return at;
}

bool StrandRing::slips_off(const Bearing& at) const {
  const bool at_first = part_.open_first && u_ <= double(part_.first), at_last = part_.open_last && u_ >= double(part_.last);
  if (!at_first && !at_last) return false;
  return at.distance > reach_ && dot(at.away, at.along) * (at_last ? -1.0 : 1.0) > 0.0;
}

// At an end of the strand u stays where it is, whatever moves: nothing to cling along.
bool StrandRing::clings(const Bearing& at) const {
  const bool at_end = u_ <= double(part_.first) || u_ >= double(part_.last);
  return options_.friction > 0.0 && !at_end && at.full > 0.0 && norm(at.along) > 0.0;
}

void StrandRing::let_go(const Bearing& at) {
  if (spacing_ > 0.0) cling(at, 0.0);
  spacing_ = 0.0;
}

// @return what the friction's spring pushes along u, after it has slipped down to the most that it may carry [N m a node]
double StrandRing::cling(const Bearing& at, double most) {
  const double length = norm(at.along);
  if (spacing_ == 0.0) spacing_ = length, clings_to_ = u_, was_drawn_ = 0.0;
  const double may = most * at.full / (length * clinging_stiffness());  // [nodes]
  const double drawn = std::clamp(u_ - clings_to_, -may, may), slipped = u_ - drawn - clings_to_;
  clings_to_ = u_ - drawn;
  lost_ += 0.5 * clinging_stiffness() * (was_drawn_ + drawn) * slipped;  // the work of a step, as the step does it
  was_drawn_ = drawn;
  return clinging_stiffness() * drawn;
}

Vec3 StrandRing::kick(Motion& motion, const Vec3& ring, double time) {
  if (!on_) return {};
  const Bearing at = find(motion, ring);
  const double beyond = at.distance - reach_;
  const double pull = options_.stiffness * std::max(0.0, beyond);
  if (slips_off(at)) {
    on_ = false;
    let_go(at);
    lost_ += 0.5 * pull * beyond;
    return {};
  }
  reach_ = std::max(options_.reach, std::min(reach_, at.distance));
  if (beyond <= 0.0) {
    let_go(at);
    return {};
  }
  const Vec3 spring = pull / at.distance * at.away;  // on the ring
  const double clinging = clings(at) ? cling(at, options_.friction * pull) / at.full : 0.0;
  const Vec3 impulse = time * (spring - clinging * at.along);
  for (std::size_t k = 0; k < 3; ++k) {
    const Vec3 on_node = clinging * (at.place.weight[k] * at.along + at.place.slope[k] * at.away) - at.place.weight[k] * spring;
    motion.push_on(at.place.node[k], time * on_node);
  }
  return impulse;
}

double StrandRing::energy(const Motion& motion, const Vec3& ring) const {
  if (!on_) return 0.0;
  StrandRing now = *this;  // the places have moved on since the last kick
  const Bearing at = now.find(motion, ring);
  const double beyond = std::max(0.0, at.distance - reach_);
  if (beyond <= 0.0) now.let_go(at);
  else if (now.clings(at)) now.cling(at, options_.friction * options_.stiffness * beyond);
  return 0.5 * options_.stiffness * beyond * beyond + now.clinging_energy() + now.lost_ - lost_;
}

}  // namespace spanloom
