// A rig cut into bars: the line that the solvers work on.
//
// Notation. Tapes 0..n are the places where main and backup meet; 0 and n are the anchors. Bay k lies
// between tapes k and k+1 and holds two chains of bars: main (chain 2k) and loop (chain 2k+1, may be
// empty). A chain runs from its near end A to its far end B over bars i = 0..m-1; its nodes are A, the
// m-1 nodes between bars, B. Loads are dead: they keep size and direction.
#pragma once

#include <cstddef>
#include <span>
#include <vector>

#include "base/vec3.h"
#include "webbing/stretch_curve.h"

namespace spanloom {

/// Bars of one chain, as a range of Line's arrays.
struct ChainRange {
  std::size_t first = 0;  ///< first bar
  std::size_t count = 0;  ///< bars; 0: no chain here
};

/// Fixed ends of the line [m]. Main and backup may have anchors of their own.
struct LineEnds {
  Vec3 main_near, main_far, backup_near, backup_far;
};

/// The part of tape_load at the anchors that hangs on main and backup [N].
struct EndLoads {
  Vec3 main_near, main_far, backup_near, backup_far;
};

/// A line ready to be solved. Arrays over bars; node loads are kept bar by bar: `load[i]` acts on the
/// node at the far end of bar i, except for the last bar of a chain whose far end is a tape.
struct Line {
  std::vector<StretchCurve> laws;      ///< the materials
  std::vector<double> length;          ///< natural length of each bar [m]
  std::vector<int> law;                ///< material of each bar
  std::vector<Vec3> load;              ///< on the inner node after each bar [N]; 0 at a chain's last bar
  std::vector<ChainRange> chains;      ///< 2 a bay: main, loop
  std::vector<Vec3> tape_load;         ///< on each tape, 0 and n included [N]
  LineEnds ends;
  EndLoads end_loads;

  std::size_t bays() const { return chains.size() / 2; }
  std::size_t bars() const { return length.size(); }
  const ChainRange& main_chain(std::size_t bay) const { return chains[2 * bay]; }
  const ChainRange& loop_chain(std::size_t bay) const { return chains[2 * bay + 1]; }
};

/// A bar of a chain under construction.
struct BarSpec {
  double length;           ///< natural [m], > 0
  int law;
  double mass_per_length;  ///< [kg/m]
  double end_mass = 0.0;   ///< lumped on the node at its far end besides its own [kg]
};

/// Builds a line bay by bay. Bar masses go half to each end; gravity acts down.
class LineBuilder {
 public:
  explicit LineBuilder(std::vector<StretchCurve> laws, const LineEnds& ends);
  /// Adds a bay. @param loop may be empty. @throws InputError when a bar is not positive and finite
  void add_bay(std::span<const BarSpec> main, std::span<const BarSpec> loop, double tape_mass = 0.0);
  Line build() &&;

 private:
  void add_chain(std::span<const BarSpec> bars);
  Line line_;
};

/// A place on the line: the node after so many bars of a chain; bars 0 and count are its tapes.
struct NodeAt {
  std::size_t bay = 0;
  std::size_t bar = 0;   ///< nodes are counted from the near tape of the bay
};

/// Adds a dead load to a node of the main [N].
void add_main_load(Line& line, const NodeAt& at, const Vec3& force);

}  // namespace spanloom
