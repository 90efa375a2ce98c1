// What a crew wants to know of spacing: layouts that kill the return and keep every limit, number of tapes against return;
// the rig as it is, evenly taped and at random beside them; how exact taping must be.
#pragma once

#include <functional>
#include <optional>
#include <string>
#include <vector>

#include "spacing/layout_proof.h"
#include "spacing/layout_search.h"
#include "spacing/space_options.h"
#include "spacing/taping_study.h"

namespace spanloom {

/// One line as it was judged.
struct JudgedLayout {
  std::optional<Phrase> phrase;           ///< of a layout found; empty: the rig as it is, or even
  Layout layout;
  std::vector<double> drop;               ///< of each loop, standing [m]
  std::vector<double> ankle_margin;       ///< of each bay [m]; of layouts shown from the plan
  ReturnOver small;                       ///< in small motion [-]
  ReturnAsTaped small_as_taped;           ///< of the mean
  MovedReturn moved;                      ///< in full-size shakes, each on a line as another crew tapes it: what counts
  std::optional<ReturnAsTaped> moved_as_taped;  ///< of the mean of the shakes from 1.25 Hz; only of the rig and the chosen
  std::optional<double> moved_glance;     ///< that mean as planned, which moved_as_taped compares with [-]
  std::size_t taut_crews = 0;             ///< of those crews, on whose lines a loop is pulled taut
  std::vector<BayTouch> touch;            ///< of each bay; empty where 10 mm less pull a loop taut
  double least_ankle_margin = 0.0;        ///< from the plan [m]
  double backup_tension = 0.0;            ///< greatest while the main holds, from the plan [N]
  std::vector<std::string> breaks;        ///< limits broken, in sentences
  std::vector<std::size_t> over_in_gust;  ///< bays, from 1, whose loops swing over the main in a gust or a walker's bounce
  std::size_t tapes() const { return layout.bays.size() - 1; }
};

/// Layouts drawn at random: bays within the bounds, one slack for all.
struct RandomLayouts {
  std::size_t count = 0;
  ReturnOver small, moved;                ///< means over them [-]
  double moved_spread = 0.0;              ///< standard deviation of their mean returns [-]
};

/// Bays and slacks of the chosen layout against common practice (no published source).
struct Practice {
  std::string words;                      ///< "1 to 3 arm spans under 100.00 m"
  bool agrees = false;
  std::vector<int> outside;               ///< bays, from 1
};

struct SpaceReport {
  LayoutBounds bounds;
  TapingErrors errors;                    ///< of the crews
  std::uint64_t seed = 1;
  std::size_t judged = 0, glanced = 0;    ///< layouts, by small motion and at a glance
  std::size_t shaken = 0;                 ///< layouts, judged again in full motion
  std::size_t judged_shakes = 0;          ///< of each layout shown
  JudgedLayout own;
  std::optional<JudgedLayout> even;       ///< as many even bays as the chosen has, the rig's slack over all
  std::string why_no_even;                ///< in words, where there is none
  std::optional<RandomLayouts> random;
  /// The trade-off, rising numbers of tapes: in the shakes that they were chosen by each returns less than all with fewer
  /// tapes; what is told comes from other shakes. Empty where nothing was found.
  std::vector<JudgedLayout> points;
  std::optional<std::size_t> chosen;      ///< index into points
  std::optional<ProvenLayout> proven;     ///< of the chosen: its plan and checks
  Practice practice;
  std::vector<std::string> sentences;     ///< what it means
  std::vector<std::string> notes;         ///< what was left out or could not be had
  /// The caller stopped it: the points are the best so far, by what was known; where `moved` has no shakes they
  /// were chosen by small motion alone.
  bool stopped = false;
  bool quick = false;                     ///< a first look
};

struct SpaceOutcome {
  std::optional<SpaceReport> report;
  std::string why;                        ///< in words, when it is empty
};

/// What one part of the search found, to be joined.
[[nodiscard]] SearchResult search_part(const Rig& rig, const Plan& plan, const SpaceOptions& options, const Part& part);

/// The report on what was found, of one part or joined ones. The same on any number of threads.
/// @throws InputError "backup.joint" where the joints are rings, "bounds" as check_bounds()
[[nodiscard]] SpaceOutcome make_space_report(const Rig& rig, const Plan& plan, const SearchResult& found, const SpaceOptions& options);

/// Searches and reports.
[[nodiscard]] SpaceOutcome find_spacing(const Rig& rig, const Plan& plan, const SpaceOptions& options);

/// @throws InputError "backup.joint" where the joints are rings: the backup runs through them, so no bay keeps its slack
void check_can_be_spaced(const Rig& rig);

}  // namespace spanloom
