// The inverse problem: what to cut and tape so that the standing line is the one asked for.
#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <vector>

#include "base/quantity_text.h"
#include "line/mesh.h"
#include "rig/rig.h"
#include "rig/rigged.h"
#include "statics/equilibrium.h"

namespace spanloom {

/// A rig with its natural lengths found, standing.
struct StandingRig {
  Rigged rigged;
  Mesh mesh;
  Equilibrium standing;
  std::vector<std::string> notes;  ///< what the spacing left over, in words
  std::vector<std::size_t> leftover_bays;  ///< bays, counted from 0, that took it
  std::vector<std::size_t> close_bays;     ///< bays, counted from 0, where tricks are done
};

/// A line that cannot be as asked, or a solve that did not end.
struct CannotStand {
  bool no_certificate = false;
  std::string words;
};

struct StandingOutcome {
  std::optional<StandingRig> rig;
  CannotStand why;                 ///< meaningful when `rig` is empty
};

/// Finds main and loop lengths: the last main segment such that the standing tension at the near anchor is
/// as asked, each loop such that its slack or drop is as asked (length_rounds.h says how closely).
/// Places that the rig asks for get a node. Where the backup runs through rings, the lengths are found
/// with the rings locked and the rings are then let go.
/// @param units  of notes and words
/// @throws InputError when tapes, asked places or per-bay values do not fit
[[nodiscard]] StandingOutcome find_natural_lengths(const Rig& rig, const MeshOptions& options,
                                                   UnitSystem units = UnitSystem::metric);

/// Natural length of main that must still be pulled through to take the standing line from a lower
/// tension at the near anchor to where it stands [m], and the line at that tension. Tapes stay where they
/// are; at the far anchor the backup is let out as much as the main.
struct Slackened {
  double length = 0.0;
  Mesh mesh;
  Equilibrium line;
};
[[nodiscard]] std::optional<Slackened> slacken(const StandingRig& standing, double tension);

}  // namespace spanloom
