// Strands that do not give, and what is hung on them: for rings and bodies whose own motion is checked.
#pragma once

#include <vector>

#include "base/constants.h"
#include "events/faller.h"
#include "support/at_rest.h"

namespace spanloom {

/// A straight strand of nodes `spacing` apart, all held, from the origin along a direction of length 1.
inline AtRest held_strand(std::size_t nodes, double spacing, const Vec3& along = {1.0, 0.0, 0.0}) {
  AtRest rest = beaded_string(1e3, spacing, std::vector<double>(nodes - 2, 1.0));
  rest.line.held.assign(nodes, 1);
  for (std::size_t i = 0; i < nodes; ++i) rest.places[i] = spacing * double(i) * along;
  return rest;
}

/// A ring of some mass alone on strands.
class LoneRing : public Beside {
 public:
  LoneRing(double mass, const Vec3& at, const Vec3& velocity) : mass_(mass), at_(at), velocity_(velocity) {}
  void add_strand(const StrandRing& strand) { strands_.push_back(strand); }
  void kick(Motion& motion, double time) override {
    velocity_.z -= time * kGravity;
    for (StrandRing& strand : strands_) velocity_ += 1.0 / mass_ * strand.kick(motion, at_, time);
  }
  void drift(double time) override { at_ += time * velocity_; }
  double energy(const Motion& motion) const override {
    double sum = kinetic() + mass_ * kGravity * at_.z;
    for (const StrandRing& strand : strands_) sum += strand.energy(motion, at_);
    return sum;
  }
  double lost() const override {
    double sum = 0.0;
    for (const StrandRing& strand : strands_) sum += strand.lost();
    return sum;
  }
  double kinetic() const { return 0.5 * mass_ * dot(velocity_, velocity_); }  ///< [J]
  const Vec3& at() const { return at_; }                                       ///< [m]
  const Vec3& velocity() const { return velocity_; }                           ///< [m/s]
  const std::vector<StrandRing>& strands() const { return strands_; }

 private:
  double mass_;
  Vec3 at_, velocity_;
  std::vector<StrandRing> strands_;
};

inline Drive beside(Beside& what) { return {{}, {}, {}, &what}; }

}  // namespace spanloom
