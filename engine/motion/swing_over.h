// Whether loops swing over the main: the angle of each loop about it, while the line moves.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "base/quantity_text.h"
#include "motion/shake.h"

namespace spanloom {

/// Follows the loops of a line in motion.
class SwingWatch {
 public:
  explicit SwingWatch(const MovingRig& rig);
  /// Takes in where the loops are now. Call it many times a swing.
  void look(const Motion& motion);
  const std::vector<LoopSwing>& loops() const { return loops_; }

 private:
  struct Middle { std::size_t main = 0, loop = 0; double drop = 0.0; double side = 0.0; bool above = false; };
  std::vector<Middle> middles_;
  std::vector<LoopSwing> loops_;
};

/// The greatest swing of every loop in one kind of motion.
struct SwingCase {
  std::string name;                       ///< "shakes", "gust", "bounce"
  std::string what;                       ///< how hard and where, as the beginning of a sentence
  std::vector<LoopSwing> loops;           ///< of each bay
  std::optional<std::string> why_not;     ///< in words, where it was not computed
};

/// What one case comes to. Bays are counted from 1.
struct SwungLoops {
  double greatest = 0.0;                  ///< [rad]
  std::size_t greatest_bay = 0;           ///< 0: no loops
  std::vector<std::size_t> far, over;     ///< higher than level with the main; over it
};
SwungLoops swung_loops(const SwingCase& swing);

/// A gust from the side, rising and falling as 1 - cos on top of the steady wind. Webbing broadside to it.
[[nodiscard]] SwingCase swing_in_gust(const MovingRig& rig, UnitSystem units);
/// A walker at the middle who pushes once down and up at the line's own frequency under the walker, in light air from
/// the side, without which loops would have no side to go to.
[[nodiscard]] SwingCase swing_in_bounce(const MovingRig& rig, UnitSystem units);

/// Bays, from 1, whose loops swing over the main in the gust or the bounce, rising.
std::vector<std::size_t> over_in_gust_or_bounce(const MovingRig& rig);

}  // namespace spanloom
