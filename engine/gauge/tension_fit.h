// Tension from all readings together: least squares weighted with their uncertainties, with priors.
//
// Unknown: x = ln(tension), and how far what is unsure (mass, stretch, gap, ...) is from the file, in
// standard deviations of its prior.
// Minimised: sum ((read - foretold(x, a)) / sd)^2 + |a|^2. What the line foretells is tabled over x, with its slopes in a;
// between the rows of the table it is a cubic (Catmull & Rom 1974). Covariance: inverse of J^T J at the minimum, J of the
// weighted readings and the priors (Bjoerck 1996, Numerical Methods for Least Squares Problems, ch. 1 and 9).
#pragma once

#include <array>
#include <cstddef>
#include <optional>
#include <string>
#include <vector>

#include "gauge/line_as_hung.h"
#include "gauge/readings.h"
#include "gauge/tension_rows.h"

namespace spanloom {

/// mass, stretch, gap, and where the peaks of a record come to lie
inline constexpr std::size_t kUnsure = 4;
/// A line that moves enough to be recorded moves too much for its loops to follow: they fly, and all peaks of a record come
/// to lie some hundredths off those of small motion. Common to them, as a share [-]; our choice, from the computed record
/// of the practice line.
inline constexpr double kPeaksShift = 0.025;
using Unsure = std::array<double, kUnsure>;

/// Standard deviations of what is unsure, in its own unit; 0: known.
Unsure prior_sds(const GaugePrior& prior);

/// The state at a tension with what is unsure so many of its standard deviations off.
HungState state_at(const Rig& rig, double tension, const Unsure& sds, const Unsure& off);

/// What the line would read for every row over a stretch of tensions.
struct ForetoldTable {
  std::vector<double> log_tension;                         ///< evenly rising [ln N]
  std::vector<std::vector<std::optional<double>>> value;   ///< by row, then tension [unit of the row]
  /// Change for one standard deviation of each thing unsure, by row, then tension [unit of the row].
  std::vector<std::vector<Unsure>> slope;
};

/// How much of a table is wanted.
enum class Slopes { left_out, wanted };

/// @param from, to  tension [N]  @param count  of tensions, >= 4
/// @param slopes  left out: a first look, with pulses guessed smoothly
/// @param asked   which rows; empty: all
ForetoldTable foretell(const LineHanger& hanger, const Rig& rig, const std::vector<TensionRow>& rows, const Unsure& sds,
                       double from, double to, std::size_t count, Slopes slopes, const std::vector<char>& asked = {});

struct TensionFit {
  double tension = 0.0, sd = 0.0;      ///< [N]; sd of the logarithm times the tension
  double log_sd = 0.0;                 ///< [-]
  Unsure off{};                        ///< found, in standard deviations of the prior
  double misfit = 0.0;                 ///< sum of squares of the readings and the priors [-]
  /// Of every row: what was foretold [unit], and read against what the others foretell, in standard deviations of the
  /// difference [-]; 0 for rows that were not used.
  std::vector<std::optional<double>> fitted;
  std::vector<double> off_others;
  bool at_the_edge = false;            ///< the minimum lies at an end of the table
  /// Another tension that fits nearly as well, if there is one [N].
  std::optional<double> other;
};

/// @param used  which rows count; as long as the rows
/// @return empty where no row that counts is in the table
std::optional<TensionFit> fit_tension(const ForetoldTable& table, const std::vector<TensionRow>& rows,
                                      const std::vector<char>& used);

}  // namespace spanloom
