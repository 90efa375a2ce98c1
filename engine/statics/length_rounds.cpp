#include "statics/length_rounds.h"

#include <algorithm>
#include <cmath>

#include "line/hang.h"
#include "statics/loop_geometry.h"

namespace spanloom {

double of_bay(const std::vector<double>& values, std::size_t bay) {
  return values.size() == 1 ? values.front() : values[bay];
}

namespace {

constexpr int kMostRounds = 80;
constexpr double kTensionTolerance = 1e-10;  // relative
constexpr double kSlackTolerance = 1e-12;    // of the loop's length
constexpr double kDropTolerance = 1e-8;      // [m]
constexpr double kRoughRest = 1e-3;          // of the greatest force: while lengths still move
constexpr double kExactHang = 1e-12;         // of the force

int last_webbing_piece(const Mesh& mesh) {
  const int last = int(mesh.main_piece.size()) - 1;
  return mesh.main_piece[last].kind == Piece::Kind::webbing ? last : last - 1;
}

// Length of the bars of a chain that may change: those of one piece, or all webbing.
double changeable(const Mesh& mesh, std::size_t chain, int piece) {
  const auto& pieces = chain % 2 == 0 ? mesh.main_piece : mesh.backup_piece;
  const ChainRange range = mesh.line.chains[chain];
  double length = 0.0;
  for (std::size_t bar = range.first; bar < range.first + range.count; ++bar) {
    const int own = mesh.piece_of_bar[bar];
    if (piece >= 0 ? own == piece : pieces[own].kind == Piece::Kind::webbing) length += mesh.line.length[bar];
  }
  return length;
}

class Rounds {
 public:
  Rounds(const AskedLengths& asked, Mesh& mesh)
      : asked_(asked), mesh_(mesh), solver_(mesh.line), state_(solver_.start()), loops_(mesh.line.bays()) {}

  std::optional<Equilibrium> run() {
    const bool held = std::holds_alternative<LoopLength>(asked_.amount);
    if (!(held ? with_held_loops() : with_pulling_loops())) return std::nullopt;
    Equilibrium proven = solver_.solve_from(state_);
    proven.certificate.iterations += iterations_;
    return proven;
  }

 private:
  struct Loop {
    double last_length = 0.0, last_square = 0.0;
    bool started = false;
  };

  bool with_held_loops() {
    bool exact = false;
    for (int round = 0; round < kMostRounds; ++round) {
      if (!solver_.settle(state_, iterations_, exact ? EquilibriumSolver::kLastStepAt : kRoughRest)) {
        state_ = solver_.solve_by_descent();
        if (!state_.certified()) return false;
      }
      const bool done = correct_main();
      if (done && exact) return true;
      exact = done;
      solver_.set_lengths_and_loads(mesh_.line);
    }
    return false;
  }

  bool with_pulling_loops() {
    for (int round = 0; round < kMostRounds; ++round, ++iterations_) {
      if (!hang_loops()) return false;
      const std::optional<double> moved = rest_main();
      if (!moved) return false;
      const bool main_done = correct_main(), loops_done = correct_loops();
      if (main_done && loops_done && *moved <= kDropTolerance) return true;
      solver_.set_lengths_and_loads(mesh_.line);
    }
    return false;
  }

  // Every loop between its tapes as they are.
  bool hang_loops() {
    for (std::size_t c = 1; c < mesh_.line.chains.size(); c += 2) {
      const Vec3 reach = solver_.chain_reach(c, state_.tapes);
      const Hung hung = hang_chain(solver_.chains(), c, reach, state_.near_force[c], kExactHang);
      if (!is_finite(hung.force)) return false;
      state_.near_force[c] = hung.force;
    }
    return true;
  }

  // The main as one chain under all weights and the pulls of the loops. How far a tape moved [m].
  std::optional<double> rest_main() {
    const ChainSet& chains = solver_.chains();
    const Line& line = mesh_.line;
    const std::size_t n = line.bays();
    const auto beyond = [&](std::size_t k, const Vec3& force) {  // from the last bar of bay k to the next
      Vec3 next = force - chains.inner_load(2 * k) - line.tape_load[k + 1];
      next += state_.near_force[2 * k + 1] - chains.inner_load(2 * k + 1);
      if (k + 1 < n) next -= state_.near_force[2 * k + 3];
      return next;
    };
    const auto whole_main = [&](const Vec3& near) { return evaluate_main(chains, near, beyond); };
    const Vec3 reach = line.ends.main_far - line.ends.main_near;
    const Hung hung = hang(whole_main, reach, state_.near_force[0], kExactHang);
    if (!is_finite(hung.force)) return std::nullopt;
    main_compliance_ = hung.at.compliance;
    double moved = 0.0;
    Vec3 force = hung.force, place = line.ends.main_near;
    for (std::size_t k = 0; k < n; ++k) {
      state_.near_force[2 * k] = force;
      place += chains.evaluate(2 * k, force).reach;
      if (k + 1 < n) {
        moved = std::max(moved, norm(place - state_.tapes[k + 1]));
        state_.tapes[k + 1] = place;
      }
      force = beyond(k, force);
    }
    return moved;
  }

  // The whole main as one spring between its anchors: how its pull falls when it gets longer.
  bool correct_main() {
    if (!asked_.tension) return true;
    const Vec3 pull = state_.near_force.front();
    const double miss = norm(pull) - *asked_.tension;
    if (std::abs(miss) <= kTensionTolerance * *asked_.tension) return true;
    if (std::holds_alternative<LoopLength>(asked_.amount)) {
      main_compliance_ = {};
      for (std::size_t k = 0; k < mesh_.line.bays(); ++k) {
        main_compliance_ += solver_.chains().evaluate(2 * k, state_.near_force[2 * k]).compliance;
      }
    }
    const Vec3 along = (1.0 / norm(pull)) * pull;
    const double slope = dot(along, inverse(main_compliance_) * along);  // [N/m]
    const std::size_t last = 2 * (mesh_.line.bays() - 1);
    const double by = bounded(last, last_webbing_piece(mesh_), miss / slope);
    lengthen(mesh_, last, last_webbing_piece(mesh_), by);
    if (asked_.last_loop_follows) lengthen(mesh_, last + 1, -1, bounded(last + 1, -1, by));
    return false;
  }

  // Never more than half away or twice on in one round: what is left stays positive.
  double bounded(std::size_t chain, int piece, double by) const {
    const double now = changeable(mesh_, chain, piece);
    return std::clamp(by, -0.5 * now, 2.0 * solver_.chains().natural_length(chain));
  }

  bool correct_loops() {
    const auto* slack = std::get_if<SlackShare>(&asked_.amount);
    bool done = true;
    for (std::size_t k = 0; k < mesh_.line.bays(); ++k) {
      const double length = solver_.chains().natural_length(2 * k + 1);
      double by = 0.0;
      if (slack) {
        const double main = solver_.chains().stretched_length(2 * k, state_.near_force[2 * k]);
        by = main * (1.0 + of_bay(slack->of_bay, k)) - length;
        if (std::abs(by) <= kSlackTolerance * length) continue;
      } else {
        const double wanted = of_bay(std::get<LoopDrop>(asked_.amount).of_bay, k);
        const double drop = drop_of(k);
        if (std::abs(drop - wanted) <= kDropTolerance) continue;
        by = drop_correction(loops_[k], length, drop, wanted);
      }
      lengthen(mesh_, 2 * k + 1, -1, bounded(2 * k + 1, -1, by));
      done = false;
    }
    return done;
  }

  double drop_of(std::size_t k) const {
    const Line& line = mesh_.line;
    const Vec3 &near = state_.tapes[k], &far = state_.tapes[k + 1];
    const Vec3& loop_near = k == 0 ? line.ends.backup_near : near;
    const Vec3& loop_far = k + 1 == line.bays() ? line.ends.backup_far : far;
    return loop_drop(solver_.chains().nodes(2 * k, state_.near_force[2 * k], near, far),
                     solver_.chains().nodes(2 * k + 1, state_.near_force[2 * k + 1], loop_near, loop_far));
  }

  // Secant on the squared drop, which grows in proportion to the extra length; 8 d^2 / 3 l to start.
  static double drop_correction(Loop& loop, double length, double drop, double wanted) {
    const double square = drop * std::abs(drop), target = wanted * wanted;
    double slope = 3.0 * length / 8.0;  // d(drop^2)/d(length)
    const double moved = length - loop.last_length, gained = square - loop.last_square;
    if (loop.started && std::abs(moved) > 1e-9 && gained / moved > 0.05 * slope) slope = gained / moved;
    loop = {length, square, true};
    return (target - square) / slope;
  }

  AskedLengths asked_;
  Mesh& mesh_;
  EquilibriumSolver solver_;
  Equilibrium state_;
  std::vector<Loop> loops_;
  Sym3 main_compliance_;
  int iterations_ = 0;
};

}  // namespace

std::optional<Equilibrium> find_lengths(const AskedLengths& asked, Mesh& mesh) { return Rounds(asked, mesh).run(); }

}  // namespace spanloom
