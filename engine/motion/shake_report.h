// What a rigger wants to know of shakes: the return of the rig against the same line evenly taped and bare, over
// frequencies, places and directions; natural frequencies; loops that swing over.
#pragma once

#include <functional>
#include <optional>
#include <string>
#include <vector>

#include "base/quantity_text.h"
#include "motion/shake.h"
#include "motion/swing_over.h"

namespace spanloom {

enum class ComparedLine { rig, even, bare };
/// "rig", "even", "bare".
const char* name_of(ComparedLine line);
/// "sideways", "up".
const char* name_of(ShakeDirection direction);

struct ReportedShake {
  ComparedLine line = ComparedLine::rig;
  ShakeResult result;
  std::optional<Settling> settling;       ///< only of the worst case, not when quick

  /// Of a line that settles; else empty [s].
  std::optional<double> settling_time() const {
    return settling && settling->settles ? std::optional<double>(settling->time) : std::nullopt;
  }
};

/// The return of one line at one frequency over the places where it was shaken.
struct ReturnOverPlaces {
  double mean = 0.0;                      ///< [-]
  double worst = 0.0;                     ///< [-]
  std::size_t places = 0;                 ///< that were computed
};

/// One line as it was compared.
struct ComparedState {
  ComparedLine line = ComparedLine::rig;
  bool there = false;
  std::string why_not;                    ///< in words, when it is not there
  double tension = 0.0;                   ///< [N]
  double round_trip = 0.0;                ///< [s]
  double mean_sideways = 0.0, mean_up = 0.0;  ///< return, mean over frequencies and places [-]
};

/// How unlike its bays and its drops are: standard deviation over mean [-].
struct Unevenness { double bays = 0.0, drops = 0.0; };

struct ShakeReport {
  std::vector<double> frequencies;        ///< third-octaves [Hz]
  std::vector<double> places;             ///< shares of the gap [-]
  std::vector<ComparedState> lines;       ///< rig, even, bare
  std::vector<ReportedShake> shakes;
  std::optional<std::size_t> worst;       ///< index into shakes: the rig's greatest return
  Unevenness unevenness;                  ///< of the rig
  /// Natural frequencies of the standing rig below 5 Hz [Hz]; empty: not computed or not proven (in-plane: when quick).
  std::optional<std::vector<double>> lateral, in_plane;
  std::vector<SwingCase> swings;          ///< shakes, gust, bounce; the two latter only when not quick
  ShakeHistory history;                   ///< of the picture
  Shake pictured;                         ///< what is shaken in it
  std::string headline;                   ///< what comes back of sideways shakes in the mean; among the sentences, unless quick
  std::vector<std::string> sentences;     ///< what it means: the shake, means, worst case, evenness
  std::vector<std::string> swing_sentences;  ///< how far loops swing
  std::vector<std::string> notes;         ///< what was assumed, left out or could not be had
  bool quick = false;                     ///< the rig alone, sideways
  bool stopped = false;                   ///< the caller stopped it: what is here is what was done

  /// The shake of a line at one frequency, place and direction; null if it is not there.
  const ReportedShake* find(ComparedLine line, double frequency, double place, ShakeDirection direction) const;
  /// Empty where no place was computed.
  std::optional<ReturnOverPlaces> over_places(ComparedLine line, double frequency, ShakeDirection direction) const;
};

struct ShakeReportOptions {
  bool quick = false;                     ///< the rig alone, sideways
  unsigned threads = 1;                   ///< [-]
  MotionMesh mesh{};
  UnitSystem units = UnitSystem::metric;  ///< of sentences
  /// Called after each piece of work with the number done and the number in all, from any one thread at a time.
  /// Returning false stops.
  std::function<bool(std::size_t, std::size_t)> progress;
};

struct ShakeReportOutcome {
  std::optional<ShakeReport> report;
  std::string why;                        ///< in words, when it is empty
};

/// Third-octaves from 0.5 to 4 Hz.
std::vector<double> third_octaves();

/// The same numbers whatever the number of threads.
/// @throws InputError if find_problems(rig) is not empty
[[nodiscard]] ShakeReportOutcome make_shake_report(const Rig& rig, const ShakeReportOptions& options = {});

}  // namespace spanloom
