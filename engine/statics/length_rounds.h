// Rounds that find natural lengths: rest the line, correct each length by what it misses, again.
#pragma once

#include <optional>
#include <variant>
#include <vector>

#include "line/mesh.h"
#include "rig/rig.h"
#include "statics/equilibrium.h"

namespace spanloom {

/// What the lengths must bring about.
struct AskedLengths {
  std::optional<double> tension;   ///< main at the near anchor [N]; empty: the main is as long as it is
  std::variant<SlackShare, LoopDrop, LoopLength> amount;
  bool last_loop_follows = false;  ///< the backup is let out at the far anchor as much as the main
};

/// One value for all bays, or one per bay.
double of_bay(const std::vector<double>& values, std::size_t bay);

/// The line resting with lengths as asked. Empty where no such lengths were found. The mesh is left with
/// the lengths of the last round.
/// Tension is met to 1e-10 relative, slack to 1e-12 of a loop's length, drop to 1e-8 m.
///
/// Loops that are to be found act on the main as the pull they have at their asked slack or drop, which
/// hardly depends on where the tapes are; held as springs, a shallow loop would hold the tapes where its
/// wrong length wants them. The main is then one chain with three unknowns. Loops of given length are
/// springs as in the line.
[[nodiscard]] std::optional<Equilibrium> find_lengths(const AskedLengths& asked, Mesh& mesh);

}  // namespace spanloom
