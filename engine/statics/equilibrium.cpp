#include "statics/equilibrium.h"

#include <algorithm>
#include <cmath>
#include <utility>

#include "line/hang.h"
#include "statics/certify.h"
#include "statics/descent.h"

namespace spanloom {
namespace {

// Steps without progress after which the sure way is taken. Each step that counts takes a tenth off,
// so the loop ends.
constexpr int kPatience = 6;
constexpr double kLooseHang = 1e-3;

// The larger of two sizes; not finite where one is not, which std::max would hide.
double larger(double a, double b) { return b <= a ? a : std::isfinite(b) ? b : INFINITY; }

}  // namespace

EquilibriumSolver::EquilibriumSolver(const Line& line)
    : line_(line),
      chains_(line),
      stiffness_(line.chains.size()),
      pull_(line.chains.size()),
      spring_(line.bays()),
      unbalanced_(line.bays() + 1) {}

void EquilibriumSolver::set_loads(const Line& line) {
  line_.load = line.load;
  line_.tape_load = line.tape_load;
  line_.end_loads = line.end_loads;
  chains_.set_loads(line_);
}

void EquilibriumSolver::set_lengths_and_loads(const Line& line) {
  line_.length = line.length;
  chains_.set_lengths(line);
  set_loads(line);
}

Vec3 EquilibriumSolver::chain_reach(std::size_t chain, std::span<const Vec3> tapes) const {
  const std::size_t bay = chain / 2;
  Vec3 near = tapes[bay], far = tapes[bay + 1];
  if (chain % 2 == 1) {
    if (bay == 0) near = line_.ends.backup_near;
    if (bay + 1 == line_.bays()) far = line_.ends.backup_far;
  }
  return far - near;
}

Vec3 EquilibriumSolver::lumped_tape_load(std::size_t tape) const {
  Vec3 load = line_.tape_load[tape];
  if (tape > 0) load += 0.5 * chains_.inner_load(2 * tape - 1);
  if (tape < line_.bays()) load += 0.5 * chains_.inner_load(2 * tape + 1);
  return load;
}

Equilibrium EquilibriumSolver::start() const {
  const std::size_t n = line_.bays();
  Equilibrium state;
  state.tapes.assign(n + 1, line_.ends.main_near);
  state.near_force.assign(2 * n, {});
  state.far_force.assign(2 * n, {});

  double length = 0.0;
  Vec3 load;
  double slowest = 0.0;
  for (std::size_t k = 0; k < n; ++k) {
    length += chains_.natural_length(2 * k);
    load += chains_.inner_load(2 * k);
    if (k > 0) load += lumped_tape_load(k);
    slowest = std::max(slowest, chains_.mean_stretch(2 * k, 0.0).compliance);
  }
  const Vec3 reach = line_.ends.main_far - line_.ends.main_near;
  const auto beyond = [&](std::size_t k, const Vec3& f) {
    return f - chains_.inner_load(2 * k) - lumped_tape_load(k + 1);
  };
  const auto whole_main = [&](const Vec3& f) { return evaluate_main(chains_, f, beyond); };
  const Vec3 guess = guess_near_force(reach, length, load, 1.0 / slowest);
  Vec3 force = hang(whole_main, reach, guess, kLooseHang).force;
  for (std::size_t k = 0; k < n; ++k) {
    state.near_force[2 * k] = force;
    state.tapes[k + 1] = state.tapes[k] + chains_.evaluate(2 * k, force).reach;
    force = beyond(k, force);
  }
  // What the loose hang left open goes evenly over the tapes.
  const Vec3 open = line_.ends.main_far - state.tapes[n];
  for (std::size_t k = 1; k <= n; ++k) state.tapes[k] += (double(k) / double(n)) * open;
  state.tapes[n] = line_.ends.main_far;

  for (std::size_t c = 1; c < 2 * n; c += 2) {
    if (chains_.empty(c)) continue;
    const Vec3 loop_reach = chain_reach(c, state.tapes);
    const Vec3 loop_guess =
        guess_near_force(loop_reach, chains_.natural_length(c), chains_.inner_load(c),
                         1.0 / chains_.mean_stretch(c, 0.0).compliance);
    state.near_force[c] = hang_chain(chains_, c, loop_reach, loop_guess, kLooseHang).force;
  }
  return state;
}

EquilibriumSolver::Miss EquilibriumSolver::linearise(const Equilibrium& state) {
  Miss miss;
  std::copy(line_.tape_load.begin(), line_.tape_load.end(), unbalanced_.begin());
  std::fill(spring_.begin(), spring_.end(), Sym3{});
  for (std::size_t c = 0; c < chains_.size(); ++c) {
    if (chains_.empty(c)) continue;
    const std::size_t bay = c / 2;
    const Vec3& near = state.near_force[c];
    const Vec3 far = near - chains_.inner_load(c);
    const ChainAt at = chains_.evaluate(c, near);
    stiffness_[c] = inverse(at.compliance);
    pull_[c] = stiffness_[c] * (chain_reach(c, state.tapes) - at.reach);
    spring_[bay] += stiffness_[c];
    unbalanced_[bay] += near;
    unbalanced_[bay + 1] -= far;
    miss.force = larger(miss.force, norm(pull_[c]));
    miss.greatest = std::max({miss.greatest, norm(near), norm(far)});
  }
  for (std::size_t k = 1; k < line_.bays(); ++k) {
    miss.force = larger(miss.force, norm(unbalanced_[k]));
  }
  return miss;
}

void EquilibriumSolver::step(Equilibrium& state) {
  for (std::size_t c = 0; c < chains_.size(); ++c) {
    if (chains_.empty(c)) continue;
    unbalanced_[c / 2] += pull_[c];
    unbalanced_[c / 2 + 1] -= pull_[c];
  }
  const std::span<const Vec3> move = ladder_.solve(spring_, unbalanced_);
  for (std::size_t c = 0; c < chains_.size(); ++c) {
    if (chains_.empty(c)) continue;
    state.near_force[c] += pull_[c] + stiffness_[c] * (move[c / 2 + 1] - move[c / 2]);
  }
  for (std::size_t k = 0; k < move.size(); ++k) state.tapes[k] += move[k];
}

bool EquilibriumSolver::newton(Equilibrium& state, int& iterations, double last_step_at) {
  double best = INFINITY;
  int since_best = 0;
  while (since_best < kPatience) {
    const Miss miss = linearise(state);
    if (!std::isfinite(miss.force)) return false;
    step(state);
    ++iterations;
    if (miss.force <= last_step_at * miss.greatest) return true;
    since_best = miss.force < 0.9 * best ? 0 : since_best + 1;
    best = std::min(best, miss.force);
  }
  return false;
}

void EquilibriumSolver::finish(Equilibrium& state, int iterations) const {
  for (std::size_t c = 0; c < chains_.size(); ++c) {
    state.far_force[c] = state.near_force[c] - chains_.inner_load(c);
  }
  state.certificate = certify(line_, shape(state), state.near_force);
  state.certificate.iterations = iterations;
  state.status = holds(state.certificate) ? SolveStatus::certified : SolveStatus::not_certified;
}

Equilibrium EquilibriumSolver::solve_from(const Equilibrium& from) {
  Equilibrium state = from;
  int iterations = 0;
  if (!newton(state, iterations)) return solve_by_descent();
  return prove(std::move(state), iterations);
}

Equilibrium EquilibriumSolver::prove(Equilibrium state, int iterations) {
  finish(state, iterations);
  if (!state.certified() && newton(state, iterations)) finish(state, iterations);  // a step or two closer
  return state.certified() ? state : solve_by_descent();
}

Equilibrium EquilibriumSolver::solve() { return solve_from(start()); }

Equilibrium EquilibriumSolver::solve_by_descent() {
  Equilibrium state = start();
  int iterations = Descent(*this).run(state);
  newton(state, iterations);  // polishes: near the minimum the joint steps end at rounding
  finish(state, iterations);
  return state;
}

Shape EquilibriumSolver::shape(const Equilibrium& at) const {
  Shape shape;
  shape.main.resize(line_.bays());
  shape.loop.resize(line_.bays());
  for (std::size_t c = 0; c < chains_.size(); ++c) {
    if (chains_.empty(c)) continue;
    const std::size_t bay = c / 2;
    Vec3 near = at.tapes[bay], far = near + chain_reach(c, at.tapes);
    if (c % 2 == 1 && bay == 0) near = line_.ends.backup_near, far = near + chain_reach(c, at.tapes);
    (c % 2 == 0 ? shape.main : shape.loop)[bay] = chains_.nodes(c, at.near_force[c], near, far);
  }
  return shape;
}

}  // namespace spanloom
