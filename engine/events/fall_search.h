// Where it goes worst: falls asked for by place, so that the same one can be computed on any mesh, and the order in
// which a search asks for them.
#pragma once

#include <string>
#include <vector>

#include "base/quantity_text.h"
#include "events/fall.h"

namespace spanloom {

/// Which part of the main fails, as seen from the walker.
enum class CutWhere { nowhere, near_anchor, far_anchor, connector, beside_nearer, beside_farther, halfway_near, halfway_far };

/// A fall by places instead of nodes.
struct AskedFall {
  FallCase what;                          ///< its walker and cut are not used
  double walker = 0.0;                    ///< on the gap axis, standing [m]
  CutWhere cut = CutWhere::nowhere;
  std::size_t connector = 0;              ///< which, from the near anchor
};
bool same_fall(const AskedFall& a, const AskedFall& b);
/// The same fall on a mesh.
FallCase case_on(const MovingRig& rig, const AskedFall& asked);

struct SearchedFall {
  AskedFall asked;
  FallOutcome outcome;
};

/// Measures that the worst is looked for in.
/// `main` only where it holds: in leash falls.
enum class FallMeasure { body, fall, clearance, wall, near, far, backup, main, clear_height };
inline constexpr FallMeasure kFallMeasures[] = {FallMeasure::body, FallMeasure::fall, FallMeasure::clearance, FallMeasure::wall,
                                                FallMeasure::near, FallMeasure::far, FallMeasure::backup, FallMeasure::main,
                                                FallMeasure::clear_height};
/// The greater, the worse; minus infinity where it was not computed or the walker was lost, and for heights of walkers
/// in the anchor zones.
double badness(const FallResult& result, FallMeasure measure);

/// Strengths of tapes that a main failure is computed with: holding, and tearing at what the rig states or at nothing.
/// Rings do not tear: then only one.
std::vector<double> tape_strengths(const Rig& rig);

/// The first round: walkers over the gap between the edges of the ground, every way in which the main can fail as seen from
/// them, every way to step off.
std::vector<AskedFall> first_round(const MovingRig& rig);
/// The second: around the worst of the first, places half and a quarter of the first round's distance aside, and the
/// walker sitting or hanging there.
std::vector<AskedFall> second_round(const MovingRig& rig, const std::vector<SearchedFall>& first);
/// The worst by every measure, two by those that decide verdicts, each with each strength of tapes, each once.
std::vector<AskedFall> worst_of(const std::vector<SearchedFall>& searched);
/// What the first round looks at, for people.
std::vector<std::string> search_words(const MovingRig& rig, UnitSystem units);

}  // namespace spanloom
