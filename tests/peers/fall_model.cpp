#include "peers/fall_model.h"

#include <arkode/arkode_erkstep.h>
#include <nvector/nvector_serial.h>
#include <sundials/sundials_context.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <stdexcept>
#include <string>

#include "base/constants.h"
#include "peers/sundials_line.h"

namespace spanloom::peers {
namespace {

constexpr double kRingReach = 0.025;  // [m]

void check(int flag, const char* what) {
  if (flag < 0) throw SundialsError(std::string("SUNDIALS ") + what + " returned " + std::to_string(flag));
}

// A place of the strand: a piece is the parabola that touches the two bars beside a node in their middles, and half a
// bar at either end.
struct OnStrand {
  std::array<std::size_t, 3> node{};
  std::array<double, 3> weight{};
};

class FallModel {
 public:
  explicit FallModel(const FallStart& start) : start_(start), line_(start.line), carrier_(line_.nodes()) {
    const FallerSpec& faller = start.faller;
    if (faller.body != BodyModel::one_mass || faller.foot || start.backup || !start.sliders.empty()) {
      throw std::invalid_argument("not one mass with its foot off and its ring around the main alone");
    }
    for (std::size_t i = 0; i < carrier_.size(); ++i) carrier_[i] = i;
    for (const Tie& tie : line_.ties) carrier_[tie.backup] = tie.main;
  }

  // Unknowns: displacements of nodes, hip, ring, then their velocities.
  std::size_t points() const { return line_.nodes() + 2; }
  Vec3 place(const double* state, std::size_t point) const {
    const std::size_t at = point < line_.nodes() ? carrier_[point] : point;
    return from(at) + Vec3{state[3 * at], state[3 * at + 1], state[3 * at + 2]};
  }
  Vec3 hip(const double* state) const { return place(state, line_.nodes()); }
  Vec3 ring(const double* state) const { return place(state, line_.nodes() + 1); }

  void rates(const double* state, double* rate) const {
    const std::size_t n = points();
    std::copy(state + 3 * n, state + 6 * n, rate);
    std::vector<Vec3> force(n);
    for (std::size_t i = 0; i < n; ++i) force[i].z = -mass(i) * kGravity;
    for (std::size_t bar = 0; bar + 1 < line_.nodes(); ++bar) {
      if (bar + 1 == line_.main_nodes || (!line_.cut.empty() && line_.cut[bar])) continue;
      const Vec3 reach = place(state, bar + 1) - place(state, bar);
      const Vec3 pull = tension(bar, norm(reach)) / norm(reach) * reach;
      force[carrier_[bar]] += pull;
      force[carrier_[bar + 1]] -= pull;
    }
    const Vec3 leash = hip(state) - ring(state);
    const Vec3 pull = leash_tension(norm(leash)) / std::max(norm(leash), 1e-9) * leash;
    force[n - 2] -= pull;
    force[n - 1] += pull;
    const OnStrand at = nearest(state);
    const Vec3 away = point_of(state, at) - ring(state);
    const double beyond = norm(away) - kRingReach;
    if (beyond > 0.0) {
      const Vec3 spring = start_.ring_stiffness * beyond / norm(away) * away;
      force[n - 1] += spring;
      for (std::size_t k = 0; k < 3; ++k) force[carrier_[at.node[k]]] -= at.weight[k] * spring;
    }
    for (std::size_t i = 0; i < n; ++i) {
      const double per_mass = moves(i) ? 1.0 / mass(i) : 0.0;
      double* const to = rate + 3 * n + 3 * i;
      to[0] = per_mass * force[i].x, to[1] = per_mass * force[i].y, to[2] = per_mass * force[i].z;
    }
  }

  double energy(const double* state) const {
    const std::size_t n = points();
    double sum = 0.0;
    for (std::size_t i = 0; i < n; ++i) {
      if (!moves(i)) continue;
      const double* v = state + 3 * n + 3 * i;
      sum += 0.5 * mass(i) * (v[0] * v[0] + v[1] * v[1] + v[2] * v[2]) + mass(i) * kGravity * place(state, i).z;
    }
    for (std::size_t bar = 0; bar + 1 < line_.nodes(); ++bar) {
      if (bar + 1 == line_.main_nodes || (!line_.cut.empty() && line_.cut[bar])) continue;
      const double length = norm(place(state, bar + 1) - place(state, bar));
      sum += line_.length[bar] * line_.laws[std::size_t(line_.law[bar])].energy(length / line_.length[bar] - 1.0);
    }
    const double leash = norm(hip(state) - ring(state));
    sum += start_.faller.leash_length * start_.faller.leash.energy(leash / start_.faller.leash_length - 1.0);
    const double beyond = std::max(0.0, norm(point_of(state, nearest(state)) - ring(state)) - kRingReach);
    return sum + 0.5 * start_.ring_stiffness * beyond * beyond;
  }

 private:
  Vec3 from(std::size_t point) const {
    if (point < line_.nodes()) return start_.places[point];
    return point == line_.nodes() ? start_.faller.hip : start_.faller.ring;
  }
  double mass(std::size_t point) const {
    if (point < line_.nodes()) return line_.held[point] ? 0.0 : line_.mass[point];
    return point == line_.nodes() ? start_.faller.mass : start_.faller.ring_mass;
  }
  bool moves(std::size_t point) const { return mass(point) > 0.0; }
  double tension(std::size_t bar, double length) const {
    const double stretch = length / line_.length[bar] - 1.0;
    return stretch > 0.0 ? line_.laws[std::size_t(line_.law[bar])].tension(stretch) : 0.0;
  }
  double leash_tension(double length) const {
    const double stretch = length / start_.faller.leash_length - 1.0;
    return stretch > 0.0 ? start_.faller.leash.tension(stretch) : 0.0;
  }

  Vec3 point_of(const double* state, const OnStrand& at) const {
    Vec3 sum;
    for (std::size_t k = 0; k < 3; ++k) sum += at.weight[k] * place(state, at.node[k]);
    return sum;
  }

  // Pieces are counted by their node; s runs from 0 to 1 over each.
  OnStrand on_piece(std::size_t node, double s) const {
    if (node == start_.main.first) return {{node, node + 1, node}, {1.0 - 0.5 * s, 0.5 * s, 0.0}};
    if (node == start_.main.last) return {{node - 1, node, node}, {0.5 * (1.0 - s), 0.5 + 0.5 * s, 0.0}};
    const double a = (1.0 - s) * (1.0 - s), b = 2.0 * s * (1.0 - s), c = s * s;  // Bernstein; middles at both ends
    return {{node - 1, node, node + 1}, {0.5 * a, 0.5 * a + b + 0.5 * c, 0.5 * c}};
  }

  // By trying many places, then by halving where the distance turns from falling to rising.
  OnStrand nearest(const double* state) const {
    constexpr int kTried = 8;
    const auto square = [&](std::size_t node, double s) {
      const Vec3 away = point_of(state, on_piece(node, s)) - ring(state);
      return dot(away, away);
    };
    std::size_t best = start_.main.first;
    double at = 0.0, least = square(best, 0.0);
    for (std::size_t node = start_.main.first; node <= start_.main.last; ++node) {
      for (int k = 0; k <= kTried; ++k) {
        const double tried = square(node, double(k) / kTried);
        if (tried < least) least = tried, best = node, at = double(k) / kTried;
      }
    }
    // The turn lies within a trial of `at`, maybe on the neighbouring piece.
    const auto rises = [&](double s) {  // over a run of pieces, s counted from that of `best`
      const double whole = std::floor(s);
      const auto node = std::size_t(std::ptrdiff_t(best) + std::ptrdiff_t(whole));
      const double t = s - whole;
      const OnStrand here = on_piece(node, t);
      const Vec3 away = point_of(state, here) - ring(state);
      const double step = 1e-3;  // a parabola: its central difference is its slope
      const Vec3 slope = point_of(state, on_piece(node, t + step)) - point_of(state, on_piece(node, t - step));
      return dot(away, slope) > 0.0;
    };
    double low = std::max(at - 1.0 / kTried, best == start_.main.first ? 0.0 : -1.0);
    double high = std::min(at + 1.0 / kTried, best == start_.main.last ? 1.0 - 1e-12 : 2.0);
    for (int halving = 0; halving < 52; ++halving) {
      const double middle = 0.5 * (low + high);
      (rises(middle) ? high : low) = middle;
    }
    const double s = 0.5 * (low + high), whole = std::floor(s);
    return on_piece(std::size_t(std::ptrdiff_t(best) + std::ptrdiff_t(whole)), s - whole);
  }

  const FallStart& start_;
  const MotionLine& line_;
  std::vector<std::size_t> carrier_;  // the node that moves each node
};

int rates_of(realtype, N_Vector state, N_Vector rate, void* data) {
  static_cast<const FallModel*>(data)->rates(N_VGetArrayPointer(state), N_VGetArrayPointer(rate));
  return 0;
}

}  // namespace

FallHistory fall_by_sundials(const FallStart& start, const std::vector<double>& times, const std::vector<std::size_t>& watched,
                             double relative_tolerance) {
  FallModel model(start);
  SUNContext context = nullptr;
  check(SUNContext_Create(nullptr, &context), "SUNContext_Create");
  N_Vector state = N_VNew_Serial(sunindextype(6 * model.points()), context);
  N_VConst(0.0, state);
  const std::size_t hip = model.points() - 2;
  double* const velocity = N_VGetArrayPointer(state) + 3 * model.points() + 3 * hip;
  velocity[0] = start.faller.velocity.x, velocity[1] = start.faller.velocity.y, velocity[2] = start.faller.velocity.z;
  void* arkode = ERKStepCreate(rates_of, 0.0, state, context);
  if (!arkode) throw SundialsError("SUNDIALS ERKStepCreate gave nothing");
  check(ERKStepSStolerances(arkode, relative_tolerance, 0.1 * relative_tolerance), "tolerances");
  check(ERKStepSetOrder(arkode, 4), "ERKStepSetOrder");
  check(ERKStepSetMaxNumSteps(arkode, 10'000'000), "ERKStepSetMaxNumSteps");
  check(ERKStepSetMaxErrTestFails(arkode, 100), "ERKStepSetMaxErrTestFails");
  check(ERKStepSetUserData(arkode, &model), "ERKStepSetUserData");
  FallHistory history;
  for (const double time : times) {
    double reached = 0.0;
    check(ERKStepSetStopTime(arkode, time), "ERKStepSetStopTime");
    check(ERKStepEvolve(arkode, time, state, &reached, ARK_NORMAL), "ERKStepEvolve");
    const double* now = N_VGetArrayPointer(state);
    history.body.push_back({model.hip(now), model.ring(now)});
    history.places.emplace_back();
    for (const std::size_t node : watched) history.places.back().push_back(model.place(now, node));
    history.energy.push_back(model.energy(now));
  }
  check(ERKStepGetNumRhsEvals(arkode, &history.force_passes), "ERKStepGetNumRhsEvals");
  ERKStepFree(&arkode);
  N_VDestroy(state);
  SUNContext_Free(&context);
  return history;
}

}  // namespace spanloom::peers
