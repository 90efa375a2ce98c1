#include "hauling/settling.h"

#include <algorithm>
#include <cmath>

#include <fmt/format.h>

#include "base/input_error.h"
#include "hauling/pull_steps.h"
#include "statics/length_rounds.h"

namespace spanloom {
namespace {

constexpr double kDecadeStep = 0.1;

double webbing_of(const Mesh& mesh, std::size_t bay) {
  const ChainRange range = mesh.line.main_chain(bay);
  double length = 0.0;
  for (std::size_t bar = range.first; bar < range.first + range.count; ++bar) {
    if (mesh.main_piece[mesh.piece_of_bar[bar]].kind == Piece::Kind::webbing) length += mesh.line.length[bar];
  }
  return length;
}

double main_length(const Line& line) {
  double length = 0.0;
  for (std::size_t k = 0; k < line.bays(); ++k) {
    const ChainRange range = line.main_chain(k);
    for (std::size_t bar = range.first; bar < range.first + range.count; ++bar) length += line.length[bar];
  }
  return length;
}

struct Crept {
  Mesh mesh;
  Equilibrium line;
  double tension() const { return norm(line.near_force.front()); }
};

// The weight of the main grows with its length: by some thousandths, which no tension shows.
std::optional<Crept> crept(const StandingRig& standing, double creep) {
  Crept out{standing.mesh, {}};
  for (std::size_t k = 0; k < out.mesh.line.bays(); ++k) {
    const double webbing = webbing_of(out.mesh, k);
    if (webbing > 0.0) lengthen(out.mesh, 2 * k, -1, creep * webbing);
  }
  out.line = EquilibriumSolver(out.mesh.line).solve_from(standing.standing);
  if (!out.line.certified()) return std::nullopt;
  return out;
}

// The backup stays as it hangs.
std::optional<double> to_pull_in(const Crept& at, double tension) {
  Mesh mesh = at.mesh;
  const std::optional<Equilibrium> found = find_lengths({tension, LoopLength{{1.0}}, false}, mesh);
  if (!found || !found->certified()) return std::nullopt;
  return main_length(at.mesh.line) - main_length(mesh.line);
}

// Follows the creep of one standing line.
class Settling {
 public:
  Settling(const StandingRig& standing, double per_decade)
      : standing_(standing),
        per_decade_(per_decade),
        first_(norm(standing.standing.near_force.front())),
        tension_(first_) {}

  // False where a line was not proven.
  bool advance_to(double decades) {
    const int steps = std::max(1, static_cast<int>(std::ceil((decades - decades_) / kDecadeStep)));
    const double by = (decades - decades_) / steps;
    for (int i = 0; i < steps; ++i) {
      const std::optional<Crept> guess = crept(standing_, creep_ + by * rate(tension_));
      if (!guess) return false;
      creep_ += 0.5 * by * (rate(tension_) + rate(guess->tension()));
      at_ = crept(standing_, creep_);
      if (!at_) return false;
      tension_ = at_->tension();
    }
    decades_ = decades;
    return true;
  }

  std::optional<Settled> told(const Rig& rig, double time) const {
    const std::optional<double> pull_in = to_pull_in(*at_, first_);
    if (!pull_in) return std::nullopt;
    const Shape shape = EquilibriumSolver(at_->mesh.line).shape(at_->line);
    return Settled{time, creep_, tension_, sag_at_middle(rig, shape), *pull_in};
  }

 private:
  double rate(double tension) const { return per_decade_ * tension / first_; }

  const StandingRig& standing_;
  double per_decade_, first_, tension_;
  double creep_ = 0.0, decades_ = 0.0;
  std::optional<Crept> at_;
};

}  // namespace

void check_creep(double per_decade) {
  if (per_decade > 0.0 && per_decade <= kMostCreep) return;
  throw InputError("creep", fmt::format("{:g} %", 100.0 * per_decade),
                   fmt::format("above 0 %, at most {:g} %", 100.0 * kMostCreep),
                   "say the stretch added per factor of ten in time");
}

std::optional<std::vector<Settled>> settle_by_creep(const Rig& rig, const StandingRig& standing, double per_decade,
                                                    const std::vector<double>& times) {
  check_creep(per_decade);
  Settling settling(standing, per_decade);
  std::vector<Settled> out;
  for (const double time : times) {
    if (!settling.advance_to(std::log10(time / kCreepStarts))) return std::nullopt;
    const std::optional<Settled> settled = settling.told(rig, time);
    if (!settled) return std::nullopt;
    out.push_back(*settled);
  }
  return out;
}

}  // namespace spanloom
