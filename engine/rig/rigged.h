// A rig with every natural length known: what is cut, taped and hung.
#pragma once

#include <cstddef>
#include <vector>

#include "rig/rig.h"

namespace spanloom {

/// A stretch of one material along a run, in order from the near anchor.
struct Piece {
  enum class Kind { webbing, link };
  Kind kind = Kind::webbing;
  std::size_t index = 0;       ///< webbing index, or the number of a link as link_of() counts
  double natural_length = 0.0; ///< [m], > 0
};

/// Natural lengths of the standing rig. `tape_s` holds the interior tapes only; bays are counted from
/// the near anchor, bay k lies between tape k and k+1 where 0 and bays() are the anchors.
struct Rigged {
  std::vector<double> main_segment_length;    ///< all segments, the solved one included [m]
  std::vector<double> backup_segment_length;  ///< [m]
  std::vector<double> tape_s;                 ///< natural length from the near connector [m]
  std::vector<double> loop_length;            ///< natural length of each loop, hardware included [m]

  std::size_t bays() const { return loop_length.size(); }
};

/// Main from anchor to anchor: near hardware, segments and connectors, far hardware.
std::vector<Piece> main_pieces(const Rig& rig, const Rigged& rigged);
/// Backup from anchor to anchor.
std::vector<Piece> backup_pieces(const Rig& rig, const Rigged& rigged);

/// The link that a piece names by its index: 0 near hardware, 1.. connectors, the last far hardware.
/// @param index  0 to run.connectors.size() + 1
const Link& link_of(const WebbingRun& run, std::size_t index);

/// Natural length of webbing and connectors of the main without its end hardware [m].
double main_webbing_length(const Rig& rig, const Rigged& rigged);
/// The same for the backup [m].
double backup_webbing_length(const Rig& rig, const Rigged& rigged);

}  // namespace spanloom
