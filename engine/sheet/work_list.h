// What the crew does with its hands: where each tape goes, what is cut, what is carried.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "rig/rig.h"
#include "statics/plan.h"

namespace spanloom {

/// One line of the tape list: a tape and the bay before it. Lengths are natural ones, so main and
/// backup may be laid side by side unloaded.
struct TapeRow {
  int bay = 0;                  ///< number of the bay before the tape, from 1
  bool far_end = false;         ///< no tape: the far end of the main
  double running = 0.0;         ///< along the unloaded main from the near connector [m]
  double running_arm_spans = 0.0;  ///< the same [arm spans]
  double main_piece = 0.0;      ///< [m]
  double backup_piece = 0.0;    ///< [m]
  double extra_backup = 0.0;    ///< backup_piece - main_piece [m]
  double drop = 0.0;            ///< when standing [m]
  bool leftover = false;        ///< the bay takes up what the spacing left over
  bool close = false;           ///< the bay belongs to the close bays
};

/// A row for every tape in rigging order, then one for the far end.
std::vector<TapeRow> tape_rows(const Rig& rig, const Plan& plan);

/// A stretch of webbing between two ends or connectors.
struct CutPiece {
  bool on_backup = false;
  int segment = 0;              ///< from 1 at the near anchor
  std::string webbing;
  bool solved = false;          ///< its length is what the plan found, not what the file gives
  double starts = 0.0;          ///< running length at its near end [m]
  double natural_length = 0.0;  ///< end to end, unloaded: where the mark goes [m]
  double near_tail = 0.0;       ///< beyond the near end, 0 at a connector [m]
  double far_tail = 0.0;        ///< [m]
  double pull_room = 0.0;       ///< what the near tail lacks to be pulled through from hand-tight [m]
  double mass_per_length = 0.0; ///< [kg/m]

  /// All webbing beyond the near end once the line stands [m].
  double beyond_near_end() const { return near_tail + pull_room; }
  double cut_length() const { return beyond_near_end() + natural_length + far_tail; }
  double mass() const { return cut_length() * mass_per_length; }
};

/// A connector or end hardware and where it sits.
struct LinkPlace {
  bool on_backup = false;
  bool at_anchor = false;       ///< end hardware, whose length is taken from the gap
  bool at_far_end = false;
  Link link;
  double starts = 0.0;          ///< running length at its near side; 0 and the end for hardware [m]
};

/// What a link is called where it has no name: after where it sits.
std::string link_name(const LinkPlace& place);

/// What must still stand out of the near end at hand-tight so that hands or pulleys get a grip [m].
/// Common practice, no source.
inline constexpr double kGripLength = 1.0;

/// The first segment of the main is cut long enough to lie hand-tight: once pulled through to stand,
/// its near tail is what came through and kGripLength, or the tail of the file where that is longer.
std::vector<CutPiece> cut_pieces(const Rig& rig, const Plan& plan);

/// That rule in words, with the numbers of this plan; empty where nothing is pulled through.
std::string pull_room_words(const Rig& rig, const Plan& plan, UnitSystem units);

/// Connectors and end hardware in order, main first. Hardware without length, mass
/// and strength is left out.
std::vector<LinkPlace> link_places(const Rig& rig, const Plan& plan);

/// Something to carry.
struct GearItem {
  std::string what;
  int count = 1;
  std::optional<double> mass;   ///< of all of them together [kg]; empty: the file gives none
};

struct GearList {
  std::vector<GearItem> items;
  double mass = 0.0;            ///< of all items with a known one [kg]
  bool some_unweighed = false;
};

GearList gear_list(const Rig& rig, const Plan& plan);

/// "tape" or "ring", as the rig joins main and backup.
std::string joint_word(const Rig& rig);
std::string joint_word_plural(const Rig& rig);

}  // namespace spanloom
