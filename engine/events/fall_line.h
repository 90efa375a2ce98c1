// Where a main can fail, and how finely a line is cut for falls.
#pragma once

#include <string>
#include <vector>

#include "motion/moving_rig.h"

namespace spanloom {

/// How finely a line is cut for falls: coarse for a search, fine for what is told.
inline constexpr MotionMesh kSearchMesh{.main_bar = 0.60, .loop_bar = 0.45, .loop_bars = 4};
inline constexpr MotionMesh kToldMesh{.main_bar = 0.30, .loop_bar = 0.30, .loop_bars = 6};

/// One bar of the main that may fail.
struct CutPlace {
  std::size_t bar = 0;                    ///< of the main
  double along = 0.0;                     ///< its middle on the gap axis, standing [m]
  std::string words;                      ///< "at the near anchor", "soft link", "webbing"
};
/// @throws InputError "cut" if the main has no such bar
CutPlace cut_place(const MovingRig& rig, std::size_t bar);
/// A bar for each connector between segments, from the near anchor on: its own, or the webbing before it where it takes
/// no length.
std::vector<std::size_t> connector_bars(const MovingRig& rig);

/// The first and last bar of webbing of main and backup, beyond the hardware at the anchors: what pulls on an anchor.
/// A bar of the hardware itself also feels how it tumbles about when it is slack.
struct EndBars { std::size_t main_near, main_far, backup_near, backup_far; };
EndBars end_bars(const MovingRig& rig);

/// The bay of a main node, from 0; a tape counts to the bay before it.
std::size_t bay_of(const MovingRig& rig, std::size_t node);
/// The same node as the statics name it.
NodeAt node_at(const MovingRig& rig, std::size_t node);

}  // namespace spanloom
