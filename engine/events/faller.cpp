#include "events/faller.h"

#include <algorithm>
#include <cmath>

#include "base/constants.h"
#include "base/same_everywhere.h"

namespace spanloom {
namespace {

constexpr double kUpperShare = 0.678;       // of the body's mass above the hip [-]
constexpr double kSpineFrequency = 52.9;    // [rad/s]
constexpr double kSpineDamping = 0.224;     // of critical [-]

double kinetic(double mass, const Vec3& velocity) { return 0.5 * mass * dot(velocity, velocity); }

}  // namespace

Faller::Faller(const FallerSpec& spec)
    : spec_(spec), hip_(spec.hip), velocity_(spec.velocity), ring_(spec.ring), stands_(spec.foot.has_value()) {
  upper_mass_ = spec.body == BodyModel::two_masses ? kUpperShare * spec.mass : 0.0;
  lower_mass_ = spec.mass - upper_mass_;
  upper_ = {0.0, 0.0, -kGravity / (kSpineFrequency * kSpineFrequency)};  // sat down by its weight
  upper_velocity_ = velocity_;
}

double Faller::leg_push(const Motion& motion) const {
  if (!stands_) return 0.0;
  return kLegStiffness * std::max(0.0, motion.place(*spec_.foot).z + spec_.leg - hip_.z);
}

void Faller::push_foot(Motion& motion, double time) {
  if (!stands_) return;
  const double push = leg_push(motion);
  if (push <= 0.0 || time_ >= spec_.loses_balance) {
    stands_ = false;
    lost_ += 0.5 * push * push / kLegStiffness;
    return;
  }
  motion.push_on(*spec_.foot, {0.0, 0.0, -time * push});
  velocity_.z += time * push / lower_mass_;
}

double Faller::leash_force() const {
  return spec_.leash.tension(norm(hip_ - ring_) / spec_.leash_length - 1.0);
}

void Faller::pull_leash(double time) {
  const double force = leash_force();
  if (force <= 0.0) return;
  if (!tight_) tight_ = time_;
  const Vec3 reach = hip_ - ring_;
  const Vec3 impulse = time * force / norm(reach) * reach;
  velocity_ -= 1.0 / lower_mass_ * impulse;
  ring_velocity_ += 1.0 / spec_.ring_mass * impulse;
}

void Faller::pull_upper(double time) {
  if (upper_mass_ == 0.0) return;
  const Vec3 impulse = -time * upper_mass_ * kSpineFrequency * kSpineFrequency * upper_;
  upper_velocity_ += 1.0 / upper_mass_ * impulse;
  velocity_ -= 1.0 / lower_mass_ * impulse;
}

// The damper as the decay that it is, so that it can only take energy.
void Faller::damp_upper(double time) {
  if (upper_mass_ == 0.0) return;
  const double reduced = upper_mass_ * lower_mass_ / (upper_mass_ + lower_mass_);
  const double keeps = exp_of_minus(time * 2.0 * kSpineDamping * kSpineFrequency * upper_mass_ / reduced);
  const Vec3 apart = upper_velocity_ - velocity_;
  lost_ += kinetic(reduced, apart) * (1.0 - keeps * keeps);
  upper_velocity_ -= (1.0 - keeps) * reduced / upper_mass_ * apart;
  velocity_ += (1.0 - keeps) * reduced / lower_mass_ * apart;
}

// The damper goes half before the forces and half after them: so the step stays of second order.
void Faller::kick(Motion& motion, double time) {
  damp_upper(0.5 * time);
  const Vec3 fall{0.0, 0.0, -time * kGravity};
  velocity_ += fall, ring_velocity_ += fall, upper_velocity_ += fall;
  push_foot(motion, time);
  pull_leash(time);
  pull_upper(time);
  for (StrandRing& strand : strands_) {
    ring_velocity_ += 1.0 / spec_.ring_mass * strand.kick(motion, ring_, time);
  }
  for (SliderRing& slider : sliders_) {
    motion.push_on(slider.node, slider.ring.kick(motion, motion.place(slider.node), time));
  }
  damp_upper(0.5 * time);
}

void Faller::drift(double time) {
  upper_ += time * (upper_velocity_ - velocity_);
  hip_ += time * velocity_;
  ring_ += time * ring_velocity_;
  time_ += time;
}

double Faller::energy(const Motion& motion) const {
  double sum = kinetic(lower_mass_, velocity_) + kinetic(spec_.ring_mass, ring_velocity_);
  sum += kGravity * (spec_.mass * hip_.z + spec_.ring_mass * ring_.z);
  if (upper_mass_ > 0.0) {
    sum += kinetic(upper_mass_, upper_velocity_) + upper_mass_ * kGravity * upper_.z;
    sum += 0.5 * upper_mass_ * kSpineFrequency * kSpineFrequency * dot(upper_, upper_);
  }
  sum += spec_.leash_length * spec_.leash.energy(norm(hip_ - ring_) / spec_.leash_length - 1.0);
  const double push = leg_push(motion);
  sum += 0.5 * push * push / kLegStiffness;
  for (const StrandRing& strand : strands_) sum += strand.energy(motion, ring_);
  for (const SliderRing& slider : sliders_) sum += slider.ring.energy(motion, motion.place(slider.node));
  return sum;
}

double Faller::lost() const {
  double sum = lost_;
  for (const StrandRing& strand : strands_) sum += strand.lost();
  for (const SliderRing& slider : sliders_) sum += slider.ring.lost();
  return sum;
}

bool Faller::lost_the_line() const {
  return std::none_of(strands_.begin(), strands_.end(), [](const StrandRing& strand) { return strand.on(); });
}

void Faller::stop() { velocity_ = ring_velocity_ = upper_velocity_ = {}; }

}  // namespace spanloom
