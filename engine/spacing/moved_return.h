// The return of full-size shakes: large swings, loops that go slack and snap, loss, air. What layouts are chosen by.
//
// Each shake is a glance (motion/shake.h: its energy adds up to within 3 %) and is given to a line as another crew tapes
// it, so the mean over the shakes is one over crews too, and a layout that lives on exact lengths gains nothing by them.
// The backup is softened to an axial wave speed of 800 m/s: its loops hang and snap all the same, and steps of time are
// three times longer. Means of ten shakes agree with those of the true backup as well as the chaotic motion does with
// itself (docs/spacing.md).
#pragma once

#include <cstddef>
#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "motion/shake.h"
#include "spacing/layout.h"
#include "spacing/taping_errors.h"
#include "statics/plan.h"

namespace spanloom {

/// Returns of one layout over several shakes.
struct MovedReturn {
  std::vector<double> each;               ///< by shake, mean over the rounds that gave a number [-]; below 0 where none did
  double mean = 0.0, worst = 0.0;         ///< over `each` [-]
  double error = 0.0;                     ///< standard error of the mean, from how rounds differ; 0 of one round [-]
  std::size_t shakes = 0;                 ///< that gave a number, all rounds
  std::size_t without = 0;                ///< that did not: no line found rest, or the ledger did not close
  std::vector<std::size_t> over;          ///< bays whose loops swung over the main, counted from 1
};

/// Sideways, each third-octave from 0.5 to 4 Hz once, at 15, 35 and 50 % of the gap in turn.
std::vector<Shake> judged_shakes(const Rig& rig);

/// Which of them: all, or those of 1.25 Hz and above, which take half the time and of which most comes back.
enum class ShakeSet { all, fast };

/// The rig with its backup softened.
Rig with_soft_backup(const Rig& rig);

/// Shakes many layouts of one rig alike. May be used by many threads at once.
class MovedJudge {
 public:
  /// @param seed  of the crews' errors
  explicit MovedJudge(const Rig& rig, std::uint64_t seed = 1, const TapingErrors& errors = {});

  /// Whether the rig as it is found rest: without, nothing else can be asked.
  bool stands() const { return own_.has_value(); }
  std::size_t shakes(ShakeSet set) const { return set == ShakeSet::all ? shakes_.size() : shakes_.size() - slow_; }

  /// The layout ready to be shaken, as planned; softened, its round trip that of the rig as it is. Empty where it found no
  /// rest, or a tape all but meets a connector.
  [[nodiscard]] std::optional<MovingRig> line(const Layout& layout) const;
  /// With the lengths that a crew in fact cut.
  [[nodiscard]] std::optional<MovingRig> line(const TapedLine& taped) const;

  /// All on one line.
  [[nodiscard]] MovedReturn shake(const MovingRig& line, ShakeSet set) const;
  /// Each on the line of another crew; other rounds, other crews. Where a crew's line finds no rest the next one's is taken.
  [[nodiscard]] MovedReturn shake_as_taped(const Layout& layout, ShakeSet set, std::size_t round) const;

 private:
  std::optional<MovingRig> ready(const Rig& rig) const;
  std::optional<MovingRig> taped_line(const Layout& layout, const std::vector<double>& loops, std::size_t crew) const;
  void add(MovedReturn& result, const MovingRig* line, std::size_t shake) const;   // null: no line

  Rig rig_;                               // softened
  std::uint64_t seed_;
  TapingErrors errors_;
  std::vector<Shake> shakes_;             // rising frequencies
  std::size_t slow_ = 0;                  // how many of them are below 1.25 Hz
  std::optional<MovingRig> own_;
  std::vector<double> force_;             // of each [N]
};

/// Rounds of the same shakes taken together.
MovedReturn mean_of(const std::vector<MovedReturn>& rounds);

}  // namespace spanloom
