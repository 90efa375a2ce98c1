// A chain of bars condensed to its two ends.
//
// Between two tapes the chain carries only dead loads, so the force in every bar follows from the
// force f at its near end: F_i = f - (loads on the inner nodes before bar i). Its ends are then apart
// by the reach r(f) = sum of L_i (1 + e(T_i)) F_i / T_i, T_i = |F_i|, and dr/df is the compliance, which
// is symmetric and positive definite. r is the gradient of the convex coenergy
// sum of L_i (T_i + W*(T_i)), W* = integral of e dT. So three numbers stand for the whole chain however
// many bars it has, no bar can push, and a slack chain needs no special treatment: it hangs.
// This is the flexibility method of cable analysis with the summed instead of the closed-form catenary
// (O'Brien & Francis 1964; Jayaraman & Knudson 1981), so any load-stretch curve may be used.
#pragma once

#include <vector>

#include "base/lane.h"
#include "base/sym3.h"
#include "base/vec3.h"
#include "line/line.h"

namespace spanloom {

/// What a chain does when its near end pulls with a force.
struct ChainAt {
  Vec3 reach;       ///< far end minus near end [m]
  Sym3 compliance;  ///< d reach / d force [m/N]
};

/// All chains of a line in the layout the hot loop wants: bars of one chain side by side, padded to
/// whole lanes with bars of no length.
class ChainSet {
 public:
  explicit ChainSet(const Line& line);

  /// Takes over changed loads; bars and materials must be those of construction.
  void set_loads(const Line& line);

  std::size_t size() const { return ranges_.size(); }
  bool empty(std::size_t chain) const { return ranges_[chain].count == 0; }
  /// Reach and compliance of a chain for the force in its first bar [N].
  ChainAt evaluate(std::size_t chain, const Vec3& near_force) const;
  /// Coenergy sum of L (T + W*) [J].
  double coenergy(std::size_t chain, const Vec3& near_force) const;
  /// Sum of the loads on its inner nodes [N]; the force in the last bar is near_force - inner_load.
  const Vec3& inner_load(std::size_t chain) const { return inner_load_[chain]; }
  /// Square of the trace of force that keeps its slack bars in shape [N2].
  double trace_squared(std::size_t chain) const { return ranges_[chain].trace_squared; }
  /// Natural length of the chain [m].
  double natural_length(std::size_t chain) const { return natural_length_[chain]; }
  /// Takes over changed natural lengths.
  void set_lengths(const Line& line);
  /// Greatest bar force in bars [from, to) of a chain [N].
  double greatest_force(std::size_t chain, const Vec3& near_force, std::size_t from, std::size_t to) const;
  /// Mean stretch of the chain were it straight under a tension [-], and its compliance.
  StretchAt mean_stretch(std::size_t chain, double tension) const;
  /// Places of the count + 1 nodes between ends that are the chain's reach apart [m]. What is left
  /// of the closure goes to each bar by its compliance, so that no stiff bar is strained by it.
  std::vector<Vec3> nodes(std::size_t chain, const Vec3& near_force, const Vec3& near, const Vec3& far) const;
  /// Standing (stretched) length of the chain [m].
  double stretched_length(std::size_t chain, const Vec3& near_force) const;

 private:
  struct Range {
    std::size_t first = 0;           // first padded bar
    std::size_t count = 0;           // bars without padding
    double compliance_per_length = 0.0;  // 1 / EA if all bars are of one straight law, else 0
    double trace_squared = 0.0;  // of the force that keeps a slack bar in shape [N2]
  };
  struct Bars { Lane x, y, z, a, b; };
  Bars bars_at(const Range& range, std::size_t bar, const Vec3& near_force) const;
  template <class Visit>
  void for_each_bar(std::size_t chain, const Vec3& near_force, Visit visit) const;

  std::vector<StretchCurve> laws_;
  std::vector<Range> ranges_;
  std::vector<double> length_, before_x_, before_y_, before_z_;  // padded; loads before each bar
  std::vector<int> law_;
  std::vector<Vec3> inner_load_;
  std::vector<double> natural_length_;
};

}  // namespace spanloom
