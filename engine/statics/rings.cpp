#include "statics/rings.h"

#include <algorithm>
#include <cmath>
#include <utility>
#include <vector>

#include <Eigen/Cholesky>
#include <Eigen/Core>

#include "line/hang.h"
#include "statics/ring_chain.h"

namespace spanloom {
namespace {

using Vec4 = Eigen::Vector4d;  // place of a tape and slide of its ring
using Mat4 = Eigen::Matrix4d;

constexpr int kMostSteps = 300;
constexpr double kForceTolerance = 1e-10;  // of the greatest force
constexpr double kRoundedForce = 1e-7;     // of the greatest force, where rounding ends the descent
constexpr int kStepsAtRounding = 4;
constexpr double kExactHang = 1e-13;
constexpr double kLargestShift = 1e6;      // of the largest entry
constexpr double kShortestLoop = 0.02;     // of its locked length

Eigen::Vector3d vec(const Vec3& v) { return {v.x, v.y, v.z}; }
Eigen::Matrix3d mat(const Sym3& m) {
  Eigen::Matrix3d out;
  out << m.xx, m.xy, m.xz, m.xy, m.yy, m.yz, m.xz, m.yz, m.zz;
  return out;
}

// A state on the way down: tapes and slides, every chain hung exactly.
struct State {
  Mesh mesh;                   // with this state's loop lengths
  std::vector<Vec3> tapes;
  std::vector<double> slid;    // s_k: webbing that ran through ring k towards the near anchor [m]
  std::vector<Vec3> near_force;
  double energy = 0.0;
  std::vector<Vec4> gradient;  // per tape; only 1..n-1 are free
  std::vector<Mat4> diagonal, next;  // Hessian blocks (k, k) and (k, k + 1)
  double miss = 0.0, ring_miss = 0.0, greatest = 0.0;
};

class RingDescent {
 public:
  RingDescent(const Mesh& mesh, const Line& locked) : base_(mesh) { base_.line = locked; }

  State begin(const Equilibrium& at) const {
    State state;
    state.tapes = at.tapes;
    state.slid.assign(at.tapes.size(), 0.0);
    state.near_force = at.near_force;
    return state;
  }

  // Hangs every chain and takes energy, gradient and Hessian. False when a loop is drawn out to nothing.
  bool evaluate(State& state) const {
    const std::size_t n = base_.line.bays();
    state.mesh = base_;
    for (std::size_t k = 0; k < n; ++k) {
      const double by = state.slid[k + 1] - state.slid[k];
      const double length = loop_length(k);
      if (length + by < kShortestLoop * length) return false;
      lengthen(state.mesh, 2 * k + 1, -1, by);
    }
    const Line& line = state.mesh.line;
    const ChainSet chains(line);
    state.energy = state.miss = state.ring_miss = state.greatest = 0.0;
    state.gradient.assign(n + 1, Vec4::Zero());
    state.diagonal.assign(n + 1, Mat4::Zero());
    state.next.assign(n + 1, Mat4::Zero());
    for (std::size_t k = 0; k <= n; ++k) {
      state.gradient[k].head<3>() -= vec(line.tape_load[k]);
      if (k > 0 && k < n) state.energy -= dot(line.tape_load[k], state.tapes[k]);
    }
    // Ends of the backup may lie off the main's anchors: their weight counts where it hangs.
    state.energy -= dot(line.end_loads.backup_near, line.ends.backup_near) +
                    dot(line.end_loads.backup_far, line.ends.backup_far);
    for (std::size_t c = 0; c < 2 * n; ++c) {
      if (!add_chain(state, chains, c)) return false;
    }
    for (std::size_t k = 1; k < n; ++k) {
      state.miss = std::max(state.miss, state.gradient[k].head<3>().norm());
      state.ring_miss = std::max(state.ring_miss, std::abs(state.gradient[k][3]));
    }
    return std::isfinite(state.energy) && std::isfinite(state.miss + state.ring_miss);
  }

  // Newton direction with a shift just large enough that every pivot is positive. Empty where no shift
  // helps: the blocks are not finite.
  std::vector<Vec4> direction(const State& state) const {
    double scale = 0.0;
    for (const Mat4& block : state.diagonal) scale = std::max(scale, block.diagonal().cwiseAbs().maxCoeff());
    std::vector<Vec4> move;
    if (try_solve(state, 0.0, move)) return move;
    for (double share = 1e-9; share < kLargestShift; share *= 10.0) {
      if (try_solve(state, share * scale, move)) return move;
    }
    return {};
  }

  // Whether no pivot needed help: a minimum, not a saddle.
  bool pivots_positive(const State& state) const {
    std::vector<Vec4> move;
    return try_solve(state, 0.0, move);
  }

  bool run(State& state) const {
    if (!evaluate(state)) return false;
    int at_rounding = 0;
    for (int step = 0; step < kMostSteps && at_rounding < kStepsAtRounding; ++step) {
      if (std::max(state.miss, state.ring_miss) <= kForceTolerance * state.greatest) return true;
      const std::vector<Vec4> move = direction(state);
      double slope = 0.0;  // stays 0 without a direction
      for (std::size_t k = 0; k < move.size(); ++k) slope += state.gradient[k].dot(move[k]);
      if (!(slope < 0.0)) break;
      // Energy is known to the rounding of force times length: steps that promise less lead nowhere.
      const double noise = 1e-16 * state.greatest * norm(state.tapes.back() - state.tapes.front());
      at_rounding = -slope < noise ? at_rounding + 1 : 0;
      if (!take_step(state, move, slope)) break;
    }
    return std::max(state.miss, state.ring_miss) <= kRoundedForce * state.greatest;
  }

 private:
  // Takes a place on the way that is lower, or as low and closer to balance. False where there is none.
  bool take_step(State& state, const std::vector<Vec4>& move, double slope) const {
    for (double t = 1.0; t > 1e-12; t *= 0.5) {
      State next = stepped(state, move, t);
      if (!evaluate(next)) continue;
      const bool lower = next.energy <= state.energy + 1e-4 * t * slope;
      const bool closer = next.energy <= state.energy + 1e-13 * std::abs(state.energy) &&
                          next.miss + next.ring_miss < 0.7 * (state.miss + state.ring_miss);
      if (!lower && !closer) continue;
      state = std::move(next);
      return true;
    }
    return false;
  }

  double loop_length(std::size_t bay) const {
    const ChainRange range = base_.line.loop_chain(bay);
    double length = 0.0;
    for (std::size_t i = 0; i < range.count; ++i) length += base_.line.length[range.first + i];
    return length;
  }

  static State stepped(const State& from, const std::vector<Vec4>& move, double t) {
    State next;
    next.tapes = from.tapes;
    next.slid = from.slid;
    next.near_force = from.near_force;
    for (std::size_t k = 1; k + 1 < move.size(); ++k) {
      next.tapes[k] += Vec3{t * move[k][0], t * move[k][1], t * move[k][2]};
      next.slid[k] += t * move[k][3];
    }
    return next;
  }

  bool add_chain(State& state, const ChainSet& chains, std::size_t c) const {
    const Line& line = state.mesh.line;
    const std::size_t k = c / 2;
    const bool is_loop = c % 2 == 1;
    const Vec3 near = is_loop && k == 0 ? line.ends.backup_near : state.tapes[k];
    const Vec3 far = is_loop && k + 1 == line.bays() ? line.ends.backup_far : state.tapes[k + 1];
    Hung hung = hang_chain(chains, c, far - near, state.near_force[c], kExactHang);
    if (!is_finite(hung.force)) return false;
    const Vec3 f = state.near_force[c] = hung.force;
    state.energy += dot(f, far - near) - chains.coenergy(c, f) - dot(chains.inner_load(c), far);
    state.greatest = std::max({state.greatest, norm(f), norm(f - chains.inner_load(c))});
    state.gradient[k].head<3>() -= vec(f);
    state.gradient[k + 1].head<3>() += vec(f - chains.inner_load(c));
    const Sym3 stiffness = inverse(hung.at.compliance);
    const Eigen::Matrix3d spring = mat(stiffness);
    state.diagonal[k].topLeftCorner<3, 3>() += spring;
    state.diagonal[k + 1].topLeftCorner<3, 3>() += spring;
    state.next[k].topLeftCorner<3, 3>() -= spring;
    if (is_loop) add_length_terms(state, c, f, near, far, stiffness, chains.trace_squared(c));
    return true;
  }

  // E_LR = -K r_L with R = far - near, L = locked + s_{k+1} - s_k; weights move with L as well.
  static void add_length_terms(State& state, std::size_t c, const Vec3& f, const Vec3& near, const Vec3& far,
                               const Sym3& stiffness, double trace_squared) {
    const std::size_t k = c / 2;
    const LengthDerivatives by = length_derivatives(state.mesh, state.mesh.line, c, f, near, far, trace_squared);
    const Vec3 pull = stiffness * by.reach_rate;
    const double curvature = by.curvature + dot(by.reach_rate, pull);
    const Eigen::Vector3d near_cross = vec(pull - by.near_load_rate), far_cross = vec(-pull - by.far_load_rate);
    state.gradient[k][3] -= by.slope;
    state.gradient[k + 1][3] += by.slope;
    state.diagonal[k](3, 3) += curvature;
    state.diagonal[k + 1](3, 3) += curvature;
    state.next[k](3, 3) -= curvature;
    add_symmetric(state.diagonal[k], -near_cross);
    add_symmetric(state.diagonal[k + 1], far_cross);
    state.next[k].block<3, 1>(0, 3) += near_cross;                 // place k with slide k + 1
    state.next[k].block<1, 3>(3, 0) -= far_cross.transpose();      // slide k with place k + 1
  }
  static void add_symmetric(Mat4& block, const Eigen::Vector3d& cross) {
    block.block<3, 1>(0, 3) += cross;
    block.block<1, 3>(3, 0) += cross.transpose();
  }

  bool try_solve(const State& state, double shift, std::vector<Vec4>& move) const {
    const std::size_t n = base_.line.bays();
    move.assign(n + 1, Vec4::Zero());
    std::vector<Eigen::LLT<Mat4>> pivot(n + 1);
    for (std::size_t k = 1; k < n; ++k) {
      Mat4 block = state.diagonal[k] + shift * Mat4::Identity();
      Vec4 right = -state.gradient[k];
      if (k > 1) {
        block -= state.next[k - 1].transpose() * pivot[k - 1].solve(state.next[k - 1]);
        right -= state.next[k - 1].transpose() * pivot[k - 1].solve(move[k - 1]);
      }
      pivot[k].compute(block);
      if (pivot[k].info() != Eigen::Success) return false;
      move[k] = right;
    }
    for (std::size_t k = n; k-- > 1;) {
      if (k + 1 < n) move[k] -= state.next[k] * move[k + 1];
      move[k] = pivot[k].solve(move[k]);
    }
    return true;
  }

  Mesh base_;
};

SlidRings finish(const State& state, bool converged) {
  SlidRings out;
  out.line = state.mesh.line;
  out.ring_unbalanced = state.ring_miss;
  for (double s : state.slid) out.slid_max = std::max(out.slid_max, std::abs(s));
  Equilibrium start;
  start.tapes = state.tapes;
  start.near_force = state.near_force;
  start.far_force = state.near_force;
  EquilibriumSolver solver(out.line);
  out.rest = solver.solve_from(start);
  if (!converged) out.rest.status = SolveStatus::not_certified;
  return out;
}

}  // namespace

SlidRings slide_rings(const Mesh& mesh, const Line& locked, const Equilibrium& at) {
  const RingDescent descent(mesh, locked);
  State state = descent.begin(at);
  const bool converged = descent.run(state) && descent.pivots_positive(state);
  return finish(state, converged);
}

SlidRings slide_rings_from_three_starts(const Mesh& mesh, const Line& locked, const Equilibrium& at) {
  SlidRings first = slide_rings(mesh, locked, at);
  const RingDescent descent(mesh, locked);
  for (const double push : {0.01, -0.01}) {
    State state = descent.begin(at);
    for (std::size_t k = 1; k + 1 < state.slid.size(); ++k) {
      state.slid[k] = push * (k % 2 == 0 ? 1.0 : -1.0) * (mesh.tape_s[k + 1] - mesh.tape_s[k]);
    }
    if (!descent.run(state)) {
      first.starts_agree = false;
      continue;
    }
    for (std::size_t k = 0; k < state.tapes.size(); ++k) {
      if (norm(state.tapes[k] - first.rest.tapes[k]) > 1e-6) first.starts_agree = false;
    }
  }
  return first;
}

}  // namespace spanloom
