// The walker in motion: body, foot on the main, leash, leash ring; and slider rings where the backup runs through them.
//
// The body is a mass at the hip, where the leash is tied in. Until the foot leaves the main it pushes straight up on it
// and never pulls; once off, it does not come back: somebody whose line drops away does not land on it again. The leash
// pulls by the curve of its webbing, without loss and without mass of its own (a share of the body's that does not
// show); the ring runs on its strands (strand_ring.h). The air does not slow the body: at 8 m/s it takes less than a
// thirtieth of its weight. The body passes the webbing without touching it.
//
// Two masses (BodyModel::two_masses): head, arms and trunk, 0.678 of the body (Winter, Biomechanics, from memory), ride
// on the rest by the spring and damper of the Dynamic Response Index, 52.9 rad/s and 0.224 (Stech & Payne 1969, from
// memory), alike in all directions.
#pragma once

#include <optional>
#include <vector>

#include "base/vec3.h"
#include "events/strand_ring.h"
#include "motion/motion.h"
#include "rig/rig.h"
#include "webbing/stretch_curve.h"

namespace spanloom {

/// Stiffness of the legs between hip and main [N/m]: that of running, about 11 to 20 kN/m (McMahon & Cheng 1990, from
/// memory). It only says how the walker's weight comes off the line.
inline constexpr double kLegStiffness = 20e3;

struct FallerSpec {
  double mass = 0.0;                      ///< of the body [kg], > 0
  BodyModel body = BodyModel::one_mass;
  Vec3 hip;                               ///< at the start [m]
  Vec3 velocity;                          ///< [m/s]
  std::optional<std::size_t> foot;        ///< main node that the foot stands on
  double leg = 0.0;                       ///< from the main to the hip, legs unloaded [m]
  double loses_balance = 0.5;             ///< the foot is off from here on, pushing or not [s]
  StretchCurve leash = StretchCurve::linear(1.0);
  double leash_length = 0.0;              ///< natural [m]
  Vec3 ring;                              ///< at the start [m]
  double ring_mass = 0.0;                 ///< [kg], > 0
};

/// A slider ring: a node of the main that the backup runs through.
struct SliderRing {
  std::size_t node = 0;
  StrandRing ring;
};

class Faller : public Beside {
 public:
  explicit Faller(const FallerSpec& spec);
  /// Strands of the leash ring and slider rings, before the first step.
  void add_strand(const StrandRing& strand) { strands_.push_back(strand); }
  void add_slider(const SliderRing& slider) { sliders_.push_back(slider); }

  void kick(Motion& motion, double time) override;
  void drift(double time) override;
  double energy(const Motion& motion) const override;
  double lost() const override;

  const Vec3& hip() const { return hip_; }
  const Vec3& velocity() const { return velocity_; }
  const Vec3& ring() const { return ring_; }
  /// Stops all that moves, as a slow weight would come to rest step by step.
  void stop();
  double leash_force() const;                               ///< now [N]
  const std::optional<double>& tight_since() const { return tight_; }  ///< when the leash first pulled [s]
  bool stands() const { return stands_; }
  /// No strand is left in the leash ring.
  bool lost_the_line() const;
  const std::vector<StrandRing>& strands() const { return strands_; }

 private:
  double leg_push(const Motion& motion) const;
  void push_foot(Motion& motion, double time);
  void pull_leash(double time);
  void pull_upper(double time);
  void damp_upper(double time);

  FallerSpec spec_;
  double lower_mass_ = 0.0, upper_mass_ = 0.0;              // upper: 0 for one mass
  Vec3 hip_, velocity_, ring_, ring_velocity_;
  Vec3 upper_, upper_velocity_;                             // place from the hip [m]; velocity in the world
  std::vector<StrandRing> strands_;
  std::vector<SliderRing> sliders_;
  bool stands_ = false;
  double time_ = 0.0, lost_ = 0.0;
  std::optional<double> tight_;
};

}  // namespace spanloom
