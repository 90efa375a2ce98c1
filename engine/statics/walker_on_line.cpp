#include "statics/walker_on_line.h"

#include <algorithm>
#include <cmath>
#include <utility>

#include <fmt/format.h>

#include "base/constants.h"
#include "base/input_error.h"
#include "rig/find_problems.h"
#include "statics/force_ledger.h"
#include "statics/natural_lengths.h"
#include "statics/walker_sweep.h"

namespace spanloom {
namespace {

/// Natural length along the unloaded main, from the near connector, of a place of the gap axis [m]. Between nodes in
/// proportion; on end hardware the end of the webbing.
double coordinate_at(const Rig& rig, const StandingRig& found, const Shape& shape, double at) {
  const Line& line = found.mesh.line;
  double s = -rig.main.run.near_hardware.length;
  for (std::size_t k = 0; k < line.bays(); ++k) {
    const ChainRange chain = line.main_chain(k);
    for (std::size_t i = 0; i < chain.count; ++i) {
      const double from = shape.main[k][i].x, to = shape.main[k][i + 1].x;
      const double share = to > from ? std::clamp((at - from) / (to - from), 0.0, 1.0) : 0.0;
      s += share * line.length[chain.first + i];
    }
  }
  return std::clamp(s, 0.0, found.mesh.tape_s.back());
}

StandingOutcome stand(const Rig& rig) {
  const PlanOptions plan;  // cut as a plan cuts it
  return find_natural_lengths(rig, {plan.main_bars, plan.loop_bars});
}

}  // namespace

WalkerOnLineOutcome walker_on_line(const Rig& rig, double at) {
  if (std::vector<Problem> problems = find_problems(rig); !problems.empty()) throw InputError(std::move(problems));
  if (!(at >= 0.0 && at <= rig.site.gap)) {
    throw InputError("walker", fmt::format("a place at {:.3f} m", at), fmt::format("one within the gap, 0 m to {:.3f} m", rig.site.gap));
  }
  Rig asked = rig;
  asked.extra_places.clear();
  const StandingOutcome bare = stand(asked);
  if (!bare.rig) return {std::nullopt, bare.why.words};
  const EquilibriumSolver solver(bare.rig->mesh.line);
  asked.extra_places = {coordinate_at(rig, *bare.rig, solver.shape(bare.rig->standing), at)};
  const StandingOutcome found = stand(asked);
  if (!found.rig) return {std::nullopt, found.why.words};

  const Mesh& mesh = found.rig->mesh;
  const Shape standing = EquilibriumSolver(mesh.line).shape(found.rig->standing);
  ForceLedger ledger(asked, mesh);
  WalkerSweep sweep(asked, mesh, mesh.line, found.rig->standing, standing, ledger, asked.backup.joint);
  WalkerSweep::Answer answer =
      sweep.solve({mesh.asked[0], asked.extra_places[0], false}, {0.0, 0.0, -asked.walker.mass * kGravity}, "walker at {}");
  if (!answer.place.certified) {
    return {std::nullopt, fmt::format("No proven equilibrium with the walker at {:.2f} m of the gap.", at)};
  }
  return {WalkerOnLine{std::move(answer.place), answer.ankle_margin, std::move(answer.shape)}, {}};
}

}  // namespace spanloom
