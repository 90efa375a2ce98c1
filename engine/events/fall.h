// One fall: the main fails under a walker, or the walker steps off and the leash catches.
//
// The line is that of motion/, cut finely enough for its waves; the body, the leash and the rings move with it
// (faller.h). Everything starts at rest under the walker's weight; what happens then is computed, not assumed.
#pragma once

#include <limits>
#include <optional>
#include <string>
#include <vector>

#include "base/vec3.h"
#include "events/fall_line.h"
#include "motion/motion.h"

namespace spanloom {

enum class FallKind { main_failure, leash_fall };
/// How the walker is on the line when it happens.
enum class Posture { standing, sitting, hanging };
/// Where the walker goes who steps off: to the side, back along the line towards the nearer anchor, or off the seat to
/// the side.
enum class StepOff { sideways, backwards, from_sitting };
/// What the leash ring does on the line.
enum class RingRun { runs, caught_between_tapes };

/// "standing", "sitting", "hanging".
const char* name_of(Posture posture);
/// "sideways", "backwards", "from sitting".
const char* name_of(StepOff step_off);
/// "runs", "caught".
const char* name_of(RingRun run);

/// Tapes that never tear.
inline constexpr double kTapesHold = std::numeric_limits<double>::infinity();

/// Forces are those that pass a first-order low-pass of this corner frequency, 45 Hz: what EN 364 asks of the force
/// measurement in fall tests (from memory) [Hz].
inline constexpr double kForceFrequency = 45.0;

/// What happens, where and how.
struct FallCase {
  FallKind kind = FallKind::main_failure;
  std::size_t walker = 0;                 ///< main node where the walker is
  Posture posture = Posture::standing;
  std::optional<std::size_t> cut;         ///< bar of the main that fails; empty: none, a leash fall
  double tape_strength = kTapesHold;      ///< a tape tears when it carries more [N]; 0: none holds from the start
  StepOff step_off = StepOff::sideways;   ///< of a leash fall
  RingRun ring = RingRun::runs;
};

/// The body at an instant.
struct FallPoint {
  double time = 0.0;                      ///< since it began [s]
  Vec3 hip;                               ///< where the leash is tied in [m]
  Vec3 ring;                              ///< [m]
  double leash = 0.0;                     ///< force of the leash [N]
};

/// The line at an instant, for pictures.
struct FallFrame {
  double time = 0.0;                      ///< [s]
  std::vector<Vec3> main, backup;         ///< nodes from the near to the far anchor [m]
  std::size_t cut_after = 0;              ///< main nodes 0..cut_after hang together; the last: not cut
  Vec3 hip, ring;                         ///< [m]
};

struct FallResult {
  FallCase what;
  double walker_m = 0.0;                  ///< on the gap axis, standing line [m]
  std::optional<double> cut_m;            ///< the same of the cut [m]
  std::string cut_words;                  ///< "at the near anchor", "soft link", "webbing"; empty without a cut
  bool lost = false;                      ///< the ring ran off the broken main: nothing holds the walker. Then no
                                          ///< value below but the forces on the line means anything
  double fall = 0.0;                      ///< how far the body went down [m]
  double body = 0.0;                      ///< greatest force of the leash on the body [N]
  double leash_ring_run = 0.0;            ///< how far the ring ran along the line [m]
  double backup = 0.0;                    ///< greatest tension of the backup [N]
  double main = 0.0;                      ///< of the main [N]
  Vec3 near, far;                         ///< greatest load on each anchor towards the gap, main and backup [N]
  double lowest = 0.0;                    ///< height of the feet at their lowest [m]
  double lowest_at = 0.0, lowest_time = 0.0;  ///< where on the gap axis [m] and when [s]
  double clear_height = 0.0;              ///< from the main with nobody on it down to the lowest feet [m]
  bool in_anchor_zone = false;            ///< the walker started there: forces hold, but the rim is near; clearance and
                                          ///< wall are left out, and nothing stops the body there
  std::optional<double> clearance;        ///< least height of the feet over the ground below them [m], < 0: hits
  std::optional<double> clearance_at;     ///< where [m]
  std::optional<double> wall;             ///< least distance of the body to ground or wall beside it [m], 0: hits
  double wall_speed = 0.0;                ///< towards it then [m/s]
  std::optional<double> tight;            ///< when the leash got tight first [s]; empty: never
  std::size_t torn = 0;                   ///< tapes that tore (none counted that held nothing from the start)
  double time = 0.0;                      ///< how long it was followed [s]
  double step = 0.0;                      ///< of time, at which the ledger closed [s]
  EnergyLedger ledger;                    ///< at the end
  double turned_over = 0.0;               ///< energy that came and went: what the drift is held against [J]
  std::vector<FallPoint> path;            ///< at equal times
  std::vector<FallFrame> frames;          ///< empty unless asked for
};

struct FallOutcome {
  std::optional<FallResult> result;
  std::string why;                        ///< in words, when `result` is empty
};

struct FallOptions {
  double frame_every = 0.0;               ///< keep the line at equal times [s]; 0: none
  double longest = 15.0;                  ///< followed at most so long [s]
  double step = 0.0;                      ///< greatest step of time [s]; 0: what the line allows
};

/// Computes one fall. A ledger that does not close is tried again with finer steps; never a number without it.
/// @throws InputError if the case names a node or a bar that is not there
[[nodiscard]] FallOutcome run_fall(const MovingRig& rig, const FallCase& what, const FallOptions& options = {});

}  // namespace spanloom
