// A ring that a strand of webbing runs through: the leash ring on main and backup, a slider ring on the backup.
//
// Notation. The strand is nodes first..last of a line in motion; u is a place on it, counted in nodes. Between nodes the
// strand is the quadratic B-spline of its nodes, p(u) = sum w_j x_j, which has no corners: a ring that ran over a
// polygon would be held by every corner as if by friction. q is the middle of the ring, u its nearest place. The webbing
// may be `reach` away from q; beyond, it is pulled back by a stiff spring along the shortest way, so without friction
// nothing holds the ring along the strand. Friction is Coulomb's with a spring in it, as between grains (Cundall & Strack
// 1979): the ring clings to the strand by a spring along u that slips where it would carry more than mu times that
// pull. Both springs have a potential in q and all x_j, so that only slipping takes energy.
#pragma once

#include <algorithm>
#include <array>
#include <cstddef>

#include "motion/motion.h"

namespace spanloom {

/// The nodes of a strand that a ring can be on, and whether it can slip off there.
struct StrandPart {
  std::size_t first = 0, last = 0;
  bool open_first = false, open_last = false;
};

/// A place of a strand as a mean of three of its nodes.
struct StrandPlace {
  std::array<std::size_t, 3> node{};
  std::array<double, 3> weight{};         ///< sum 1 [-]
  std::array<double, 3> slope{}, bend{};  ///< first and second derivative of the weights by u
};
StrandPlace strand_place(const StrandPart& part, double u);

struct RingOptions {
  double reach = 0.025;                   ///< from the ring's middle to the webbing [m], > 0
  double stiffness = 0.0;                 ///< of the spring beyond it [N/m], > 0
  double friction = 0.0;                  ///< [-]
};

class StrandRing {
 public:
  /// @param u         where the strand is in the ring at the start
  /// @param distance  from the ring's middle then [m]; webbing beyond the reach is let be as far, and as it comes nearer,
  ///                  no farther again
  StrandRing(const StrandPart& part, double u, const RingOptions& options, double distance = 0.0)
      : part_(part), options_(options), u_(u), reach_(std::max(options.reach, distance)) {}

  /// What spring and friction do over a time: on the strand by Motion::push_on().
  /// @param ring  its middle [m]
  /// @return impulse on the ring [N s]
  Vec3 kick(Motion& motion, const Vec3& ring, double time);
  /// Energy in its springs [J].
  double energy(const Motion& motion, const Vec3& ring) const;

  bool on() const { return on_; }         ///< false once the strand's open end ran through
  double at() const { return u_; }        ///< [nodes]
  double lost() const { return lost_; }   ///< to friction, and what the springs held when the ring slipped off [J]

 private:
  // The nearest place p and its derivatives along the strand; away = p - ring; full: of the distance, by u twice.
  struct Bearing { StrandPlace place; Vec3 away, along, bend; double distance, full; };
  Bearing find(const Motion& motion, const Vec3& ring);
  double step_nearer(const Motion& motion, const Vec3& ring, Bearing& at);
  Bearing bearing_at(const Motion& motion, const Vec3& ring) const;
  bool slips_off(const Bearing& bearing) const;
  bool clings(const Bearing& at) const;
  double cling(const Bearing& bearing, double most);
  double clinging_energy() const { return 0.5 * clinging_stiffness() * (u_ - clings_to_) * (u_ - clings_to_); }  // [J]
  double clinging_stiffness() const { return options_.stiffness * spacing_ * spacing_; }  // [J per node squared]
  void let_go(const Bearing& at);

  StrandPart part_;
  RingOptions options_;
  double u_ = 0.0, reach_ = 0.0, lost_ = 0.0;
  double clings_to_ = 0.0;                // the place that the friction's spring is at [nodes]
  double was_drawn_ = 0.0;                // how far that spring was drawn in the last kick [nodes]
  double spacing_ = 0.0;                  // of nodes where it took hold [m]; 0: it does not
  bool on_ = true;
};

}  // namespace spanloom
