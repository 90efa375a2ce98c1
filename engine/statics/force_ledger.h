// The greatest tension that each segment and link met in any state.
#pragma once

#include <string>
#include <vector>

#include "line/mesh.h"
#include "rig/rig.h"
#include "statics/equilibrium.h"

namespace spanloom {

/// Greatest tension in one stretch of material over all states of a plan.
struct PieceForce {
  std::string name;                 ///< "main segment 1 (river)", "backup connector 1 (...)", ...
  Piece::Kind kind = Piece::Kind::webbing;
  bool on_backup = false;
  std::size_t index = 0;            ///< segment number from 0, or link as in Piece::index
  bool at_near_anchor = false;      ///< the first webbing of the run
  bool at_far_anchor = false;       ///< the last webbing of the run
  double tension = 0.0;             ///< greatest [N]
  std::string state;                ///< "walker at 31.0 m", "two people at ...", "standing", ...
};

/// "main segment 1 (river)". @param line  "main" or "backup" @param segment  from 0
std::string segment_name(const Rig& rig, const WebbingRun& run, const char* line, std::size_t segment);
/// "backup connector 1". @param link  as in Piece::index
std::string link_name(const WebbingRun& run, const char* line, std::size_t link);

class ForceLedger {
 public:
  ForceLedger(const Rig& rig, const Mesh& mesh);
  /// Enters one state; its name is kept where it sets a new greatest.
  void enter(const ChainSet& chains, const Equilibrium& at, const std::string& state);
  const std::vector<PieceForce>& forces() const { return forces_; }

 private:
  void add_links_without_length(const WebbingRun& run, bool on_backup);

  struct Stretch { std::size_t chain, from, to, entry; };  // bars of one piece in one chain
  std::vector<Stretch> stretches_;
  std::vector<PieceForce> forces_;
};

}  // namespace spanloom
