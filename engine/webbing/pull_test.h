// A pull test of a webbing, several load cycles, as the curve and the loss that a rig file asks for.
#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <vector>

#include "base/quantity_text.h"
#include "webbing/pull_test_cycles.h"
#include "webbing/stretch_curve.h"

namespace spanloom {

/// The tension has turned where it has come back by this share of the greatest tension of the test [-].
inline constexpr double kTurnShare = 0.1;
/// A cycle is full if it starts and ends below this share of the greatest tension [-] ...
inline constexpr double kFullFrom = 0.2;
/// ... and reaches this share of it [-].
inline constexpr double kFullTo = 0.9;
/// A full cycle after the first is settled if it adds less than this to what stays of the stretch [-].
inline constexpr double kSettledGrowth = 0.001;

struct PullTestOptions {
  std::optional<std::size_t> cycle;        ///< whose loading becomes the curve, from 1; empty: the last full one
  UnitSystem units = UnitSystem::metric;   ///< of notes and of errors
};

/// What one cycle says. Stretches are of the length without load before the first cycle.
struct CycleFound {
  LoadCycle rows;
  bool full = false;
  double greatest_tension = 0.0;       ///< [N]
  double greatest_stretch = 0.0;       ///< at the end of the loading [-]
  double stretch_before = 0.0;         ///< without load, at the start [-]
  std::optional<double> stretch_after; ///< without load, at the end: what stays; empty without an unloading to near zero [-]
  std::optional<double> growth;        ///< of what stays, since the end of the cycle before or the start of the test [-]
  /// Energy lost, share of the mean of what loading took and unloading gave back [-]; of a full cycle. For a steady
  /// harmonic cycle it is pi/2 tan(delta), what `loss` means to the motion (motion/loss.h).
  std::optional<double> loss;
  /// The same as a share of what loading took alone [-].
  std::optional<double> loss_of_loading;
};

/// A point of the curve, and the same stretch in the other settled cycles.
struct PointFound {
  CurvePoint at;
  std::optional<double> least, greatest;  ///< tension there in the settled cycles that reach it, if two or more [N]
};

struct PullTest {
  std::vector<CycleFound> cycles;
  std::size_t chosen = 0;              ///< index of the cycle whose loading is the curve
  /// Strictly rising. Its stretch is that from the length without load at the start of the chosen cycle.
  std::vector<PointFound> points;
  StretchCurve curve = StretchCurve::linear(1.0);  ///< through them
  double read_without_load = 0.0;      ///< stretch, as read, before the first cycle [-]
  double lengthened = 0.0;             ///< that length / the length before the first cycle - 1 [-]
  double residual_rms = 0.0;           ///< readings of the loading against the curve [N]
  double greatest_miss = 0.0;          ///< [N]
  double greatest_miss_at = 0.0;       ///< stretch of the curve [-]
  double from_isotonic_rms = 0.0;      ///< curve against the isotonic regression of the readings [N]
  double lowest_tension = 0.0;         ///< of the chosen loading; below it the curve is a straight line to zero [N]
  std::optional<double> loss;          ///< mean of the settled cycles, or of the only full one [-]
  std::vector<std::size_t> settled;    ///< indices of the settled full cycles; of all full ones after the first if none has settled
  std::vector<std::string> notes;      ///< what the numbers rest on, in words

  double greatest_tension() const { return points.back().at.tension; }
};

/// Curve: least squares through the readings of one loading (pull_test_fit.h), rounded to five figures of the greatest
/// tension and stretch, so that what is written is what was judged.
/// @throws InputError "[row]" for a row that cannot be, "" for the test as a whole: no loading, a curve that falls, too few
/// rows; "cycle" for one that is not there or starts far from zero
PullTest analyse_pull_test(const std::vector<PullSample>& samples, const PullTestOptions& options = {});

}  // namespace spanloom
