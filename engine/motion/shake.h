// One shake of one line: a sine cycle of force at a place, and how much of the swing comes back.
//
// Notation. t0: end of the shake, one period after its start. t_r: round trip, 2 gap / sqrt(T / m) with the
// standing tension T of the main and the mass m of main and backup together per metre of main, of the rig for every
// line that is compared with it. W: the longer of t_r and the period. Return: rms displacement of the main over its length in the direction of the shake from
// t0 + 2 t_r to t0 + 2 t_r + W, over the same from 0 to t0.
#pragma once

#include <algorithm>
#include <functional>
#include <optional>
#include <string>
#include <vector>

#include "motion/moving_rig.h"
#include "motion/motion.h"

namespace spanloom {

enum class ShakeDirection { sideways, up };

struct Shake {
  double frequency = 1.0;                 ///< [Hz]
  double place = 0.5;                     ///< share of the gap from the near anchor [-]
  ShakeDirection direction = ShakeDirection::sideways;
  double first_swing = 0.1;               ///< greatest displacement at the place until t0 [m]
};

/// The main over place and time, for pictures and files.
struct ShakeHistory {
  std::vector<double> along;              ///< main nodes on the gap axis, standing [m]
  std::vector<double> time;               ///< [s]
  std::vector<std::vector<double>> displacement;  ///< by time, then node, in the direction of the shake [m]
};

/// How far one loop swung about the main. 0 is hanging, 90 level with the main, 180 above it.
struct LoopSwing {
  double greatest = 0.0;                  ///< [rad]
  bool passes_over = false;               ///< went from one side to the other above the main
};

struct ShakeResult {
  Shake shake;
  double place_m = 0.0;                   ///< on the gap axis, standing [m]
  double force = 0.0;                     ///< amplitude of the force [N]
  double swing = 0.0;                     ///< first swing that it made [m]
  double round_trip = 0.0;                ///< t_r [s]
  double step = 0.0;                      ///< of time, at which the ledger closed [s]
  double returned = 0.0;                  ///< return R [-]
  double energy_share = 0.0;              ///< twice the mean kinetic energy of the main in that direction late, over put in [-]
  EnergyLedger ledger;                    ///< at the end
  std::vector<LoopSwing> loops;           ///< of each bay; empty without loops

  /// When what comes back is looked at: from t0 + 2 t_r on, for W [s].
  double late_from() const { return 1.0 / shake.frequency + 2.0 * round_trip; }
  double late_window() const { return std::max(round_trip, 1.0 / shake.frequency); }
};

/// Why a run gave no number.
struct ShakeFailure {
  std::string words;
};

struct ShakeOptions {
  bool keep_history = false;
  double history_time = 0.0;              ///< run on so long [s]
  /// Shown the line each time that it is looked at, some forty times a period or round trip. A time of 0: what was shown
  /// before was an attempt that counts no more. May be empty.
  std::function<void(const Motion&)> show{};
};

struct ShakeOutcome {
  std::optional<ShakeResult> result;
  ShakeHistory history;                   ///< empty unless kept
  ShakeFailure why;                       ///< meaningful when `result` is empty
};

/// The ledger must close to this share of the energy put in, or the step is halved [-].
inline constexpr double kGreatestDrift = 1e-3;

/// Shakes a line. Never a number whose ledger does not close.
[[nodiscard]] ShakeOutcome run_shake(const MovingRig& rig, const Shake& shake, const ShakeOptions& options = {});

/// What a search sees of a shake.
struct GlancedShake {
  double returned = 0.0;                  ///< [-]
  double swing = 0.0;                     ///< first swing [m]
  std::vector<LoopSwing> loops;           ///< of each bay; empty without loops
};

/// In a glance the ledger must close to this share of the energy put in, or the step is halved [-].
inline constexpr double kGlanceDrift = 0.03;

/// A shake under a given force, seen with a looser ledger and fewer looks: several times faster than run_shake(), for work
/// that takes the mean over many.
/// @param force  amplitude [N]
/// @return empty where the ledger does not close
[[nodiscard]] std::optional<GlancedShake> glance_at_shake(const MovingRig& rig, const Shake& shake, double force);

/// The force that gives a line the asked first swing, within a share of it [N]. @param within  > 0 [-]
double sized_force(const MovingRig& rig, const Shake& shake, double within);

/// Longest settling time that is looked for [s].
inline constexpr double kLongestSettling = 60.0;

/// How a line comes to rest after a shake.
struct Settling {
  bool settles = false;                   ///< within kLongestSettling
  double time = 0.0;                      ///< if so, from the end of the shake until the place stays below 5 % of its first swing [s]
};

/// Empty where the ledger did not close or keep_on said no.
/// @param keep_on  asked once a simulated second; may be empty
[[nodiscard]] std::optional<Settling> settling_of(const MovingRig& rig, const ShakeResult& result,
                                                  const std::function<bool()>& keep_on = {});

/// Whether a ledger closes to a share of the energy that came and went, or to rounding of what the line holds.
bool closes(const EnergyLedger& ledger, double turned_over, double drift = kGreatestDrift);

}  // namespace spanloom
