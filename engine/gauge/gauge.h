// From readings to the line as it hangs: tension and loops with their uncertainty, what to do, the checks again.
//
// Unknown are the logarithm of the standing tension and, held to their prior, how far mass, stretch and gap are from
// what the rig file says. All readings together are fitted by least squares weighted with their uncertainties; what
// each of them should read comes from this line (line_as_hung.h), not from a formula for a bare string. Tapes stay
// where they are on the webbing; main is pulled in or let out at the far end, the last loop with it.
#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <vector>

#include "base/quantity_text.h"
#include "checks/verdicts.h"
#include "gauge/readings.h"
#include "rig/rig.h"
#include "statics/plan.h"

namespace spanloom {

enum class GaugeMethod { pulse, sag, frequency, marks, spectrum };

/// "pulse", "sag", "frequency", "marks", "spectrum".
const char* name_of(GaugeMethod method);

/// One number that was read, and what the fitted line makes of it.
struct GaugedReading {
  GaugeMethod method = GaugeMethod::pulse;
  std::string words;                     ///< "2 round trips at 1.50 m"
  std::string unit;                      ///< "s", "m" or "Hz": of what follows
  double read = 0.0, sd = 0.0;
  std::optional<double> fitted;          ///< what the line at the found tension should read; empty: nothing that holds
  double off = 0.0;                      ///< read against what all others foretell, in standard deviations of that difference [-]
  bool left_out = false;                 ///< an outlier
  /// Tension from this reading alone, if it gives one [N].
  std::optional<double> tension, tension_sd;
  std::vector<std::string> notes;        ///< what the crew should know of it
};

/// Tension by one method alone: all its readings that were not left out.
struct MethodTension {
  GaugeMethod method = GaugeMethod::pulse;
  double tension = 0.0;                  ///< at the near anchor, standing [N]
  double sd = 0.0;                       ///< [N]
};

struct Interval { double low = 0.0, high = 0.0; };

/// One loop as it hangs.
struct GaugedLoop {
  std::size_t bay = 0;                   ///< counted from 0
  double planned_drop = 0.0;             ///< [m]
  std::optional<double> read_drop;       ///< [m]
  double drop = 0.0, drop_sd = 0.0;      ///< found [m]
  double slack = 0.0, slack_sd = 0.0;    ///< found [-]
  double planned_slack = 0.0;            ///< [-]
  double length = 0.0, length_sd = 0.0;  ///< natural, hardware included [m]
  double let_in = 0.0;                   ///< webbing to let into the loop to have it as planned, < 0: take out [m]
  double off = 0.0;                      ///< read against what prior and the other loops foretell [sd]; 0: not read
  bool retape = false;
  std::string why;                       ///< in words, where it is to be retaped
};

/// `read_again`: the readings contradict each other.
enum class MainAdvice { leave, pull_in, let_out, measure_more, read_again };

struct GaugeReport {
  double planned_tension = 0.0;          ///< [N]
  double tension = 0.0, tension_sd = 0.0;  ///< [N]
  Interval interval;                     ///< 95 % [N]
  bool from_readings = false;            ///< false: only drops were read, the tension is the planned one
  double mass_factor = 1.0, stretch_factor = 1.0;  ///< found against the file's [-]
  double gap = 0.0;                      ///< found [m]
  /// Sum of squares of what is left, in sd, and how many readings there are beyond the unknowns [-].
  double misfit = 0.0;
  int freedom = 0;
  bool torn = false;                     ///< readings contradict each other, and no majority says which are wrong
  std::vector<MethodTension> by;
  std::vector<GaugedReading> readings;
  std::vector<GaugedLoop> loops;         ///< of all bays

  MainAdvice advice = MainAdvice::leave;
  double main_length = 0.0;              ///< natural, as it hangs [m]
  double pull = 0.0, pull_sd = 0.0;      ///< natural length of main to pull in (< 0: let out) to have the planned tension [m]
  double pull_stretched = 0.0;           ///< the same as it comes through the clamp, under tension [m]

  Rig as_hung;                           ///< the rig of the line as it hangs
  Plan plan;                             ///< of it
  std::vector<Check> checks;
  /// Checks whose verdict is worse at an end of the 95 % interval: said in words.
  std::vector<std::string> less_sure;
  std::vector<std::string> assumed;      ///< defaults that the numbers rest on, in words
  std::vector<std::string> notes;
};

struct GaugeOutcome {
  std::optional<GaugeReport> report;
  std::string why;                       ///< in words, when `report` is empty
};

/// @param plan  of `rig`
/// @throws InputError with keys "pulse[i].at", "sag[i].mass", "drop[i].bay" ... (i from 0) where a reading cannot be of
/// this rig; "readings" where there are none
[[nodiscard]] GaugeOutcome gauge(const Rig& rig, const Plan& plan, const Readings& readings,
                                 UnitSystem units = UnitSystem::metric);

}  // namespace spanloom
