// SUNDIALS as a peer: a line as point masses joined by bars that only pull, without loss or air, set up
// here from the line's arrays alone and integrated by ARKODE's explicit Runge-Kutta steps with error control.
#pragma once

#include <cstddef>
#include <functional>
#include <stdexcept>
#include <vector>

#include "line/line.h"
#include "statics/equilibrium.h"

namespace spanloom::peers {

/// A force on a node that changes with time.
struct PeerPush {
  std::size_t node = 0;
  std::function<Vec3(double)> force;  ///< of time [s], [N]; empty: none
};

/// Debian builds SUNDIALS's own vectors without optimisation: four fifths of the time go there. The sums that cost
/// most are therefore done by code compiled here, unless SUNDIALS is wanted as it is packaged.
enum class SundialsVectors { compiled_here, as_packaged };

/// How ARKODE is driven. Unknowns are displacements from the start [m] and velocities [m/s].
struct SundialsOptions {
  int order = 8;                  ///< of the method, 2 to 8: SUNDIALS's own choice of table for it [-]
  double relative = 1e-10;        ///< tolerance of a step [-]
  double absolute = 1e-12;        ///< the same, of displacements [m] and velocities [m/s]
  PeerPush push;
  SundialsVectors vectors = SundialsVectors::compiled_here;
};

/// Energy of the whole line [J]; without loss their sum stays.
struct PeerEnergy {
  double kinetic = 0.0, stretch = 0.0, height = 0.0;
  double sum() const { return kinetic + stretch + height; }
};

struct SundialsRun {
  std::vector<std::vector<Vec3>> places;  ///< at each sample, of each watched node [m]
  std::vector<PeerEnergy> energy;         ///< at each sample
  long steps = 0, force_passes = 0;
  double seconds = 0.0;                   ///< of integrating alone
};

/// SUNDIALS refused or gave up.
struct SundialsError : std::runtime_error {
  using std::runtime_error::runtime_error;
};

/// A line whose node loads are its weights (and may have other parts sideways): mass = weight / g.
class SundialsLine {
 public:
  explicit SundialsLine(const Line& line);

  /// Nodes by their place in the line; bars 0 and count are the tapes or the anchors.
  std::size_t main_node(std::size_t bay, std::size_t bar) const { return main_[bay][bar]; }
  std::size_t loop_node(std::size_t bay, std::size_t bar) const { return loop_[bay][bar]; }
  std::size_t nodes() const { return mass_.size(); }
  /// Places of a shape of the line, by node [m].
  std::vector<Vec3> places(const Shape& shape) const;

  /// Let go at rest from given places at time 0.
  /// @param times  of the samples [s], rising, > 0
  /// @throws SundialsError
  SundialsRun release(const std::vector<Vec3>& from, const std::vector<double>& times,
                      const std::vector<std::size_t>& watched, const SundialsOptions& options = {}) const;

  struct Push { std::size_t node; Vec3 force; };  // at an instant [N]
  /// Right-hand side: of 3 nodes() displacements and as many velocities.
  /// @param reach  far minus near end of each bar at the start: exact where large places would round [m]
  void rates(const std::vector<Vec3>& reach, const Push& push, const double* state, double* rate) const;

 private:
  struct Bar { std::size_t near, far; double length, stiffness; int law; };

  std::vector<std::size_t> add_chain(const ChainRange& chain, std::size_t near, std::size_t far);
  const StretchCurve& law(const Bar& bar) const { return line_.laws[std::size_t(bar.law)]; }
  PeerEnergy energy(const std::vector<Vec3>& from, const double* state) const;

  Line line_;
  std::vector<std::vector<std::size_t>> main_, loop_;  // nodes of each bay, tape to tape
  std::vector<double> mass_;                           // 0: held
  std::vector<Vec3> load_;
  std::vector<Bar> bars_;
};

}  // namespace spanloom::peers
