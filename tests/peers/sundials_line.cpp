#include "peers/sundials_line.h"

#include <arkode/arkode_erkstep.h>
#include <nvector/nvector_serial.h>
#include <sundials/sundials_context.h>

#include <algorithm>
#include <chrono>
#include <cmath>
#include <memory>
#include <string>

#include "base/constants.h"

namespace spanloom::peers {
namespace {

// Steps between two samples before SUNDIALS is held to be stuck.
constexpr long kMostSteps = 10'000'000;
constexpr int kMostFails = 100;

void check(int flag, const char* what) {
  if (flag < 0) throw SundialsError(std::string("SUNDIALS ") + what + " returned " + std::to_string(flag));
}

Vec3 at(const double* values, std::size_t node) {
  return {values[3 * node], values[3 * node + 1], values[3 * node + 2]};
}

struct Problem { const SundialsLine& line; const std::vector<Vec3>& reach; const PeerPush& push; };

int rates_of(realtype time, N_Vector state, N_Vector rate, void* data) {
  const Problem& problem = *static_cast<const Problem*>(data);
  const Vec3 push = problem.push.force ? problem.push.force(time) : Vec3{};
  problem.line.rates(problem.reach, {problem.push.node, push}, N_VGetArrayPointer(state), N_VGetArrayPointer(rate));
  return 0;
}

// The two vector operations that cost most.
int combine(int count, realtype* factors, N_Vector* vectors, N_Vector sum) {
  const sunindextype length = N_VGetLength(sum);
  double* to = N_VGetArrayPointer(sum);
  // The sum may be one of the vectors; SUNDIALS then gives it as the first.
  const double* first = N_VGetArrayPointer(vectors[0]);
  for (sunindextype i = 0; i < length; ++i) to[i] = factors[0] * first[i];
  for (int v = 1; v < count; ++v) {
    const double factor = factors[v];
    const double* from = N_VGetArrayPointer(vectors[v]);
    for (sunindextype i = 0; i < length; ++i) to[i] += factor * from[i];
  }
  return 0;
}

realtype weighted_rms(N_Vector vector, N_Vector weights) {
  const sunindextype length = N_VGetLength(vector);
  const double *v = N_VGetArrayPointer(vector), *w = N_VGetArrayPointer(weights);
  double sum = 0.0;
  for (sunindextype i = 0; i < length; ++i) sum += v[i] * w[i] * v[i] * w[i];
  return std::sqrt(sum / double(length));
}

// What SUNDIALS allocates, freed in the right order.
struct Integrator {
  SUNContext context = nullptr;
  N_Vector state = nullptr;
  void* arkode = nullptr;

  Integrator(const Problem& problem, const SundialsOptions& options) {
    check(SUNContext_Create(nullptr, &context), "SUNContext_Create");
    state = N_VNew_Serial(sunindextype(6 * problem.line.nodes()), context);
    if (options.vectors == SundialsVectors::compiled_here) {
      state->ops->nvlinearcombination = combine;
      state->ops->nvwrmsnorm = weighted_rms;
    } else {
      check(N_VEnableFusedOps_Serial(state, SUNTRUE), "N_VEnableFusedOps_Serial");
    }
    N_VConst(0.0, state);
    arkode = ERKStepCreate(rates_of, 0.0, state, context);
    if (!arkode) throw SundialsError("SUNDIALS ERKStepCreate gave nothing");
    check(ERKStepSStolerances(arkode, options.relative, options.absolute), "tolerances");
    check(ERKStepSetOrder(arkode, options.order), "ERKStepSetOrder");
    check(ERKStepSetMaxNumSteps(arkode, kMostSteps), "ERKStepSetMaxNumSteps");
    // A bar that snaps tight bends its force in a corner; high orders then fail a step many times in a row.
    check(ERKStepSetMaxErrTestFails(arkode, kMostFails), "ERKStepSetMaxErrTestFails");
    check(ERKStepSetUserData(arkode, const_cast<Problem*>(&problem)), "ERKStepSetUserData");
  }
  ~Integrator() {
    ERKStepFree(&arkode);
    N_VDestroy(state);
    SUNContext_Free(&context);
  }
  Integrator(const Integrator&) = delete;
  Integrator& operator=(const Integrator&) = delete;
};

}  // namespace

SundialsLine::SundialsLine(const Line& line) : line_(line) {
  const auto add_node = [&](double mass, const Vec3& load) {
    mass_.push_back(mass);
    load_.push_back(load);
    return mass_.size() - 1;
  };
  const std::size_t bays = line_.bays();
  std::vector<std::size_t> tape{add_node(0.0, {})};
  for (std::size_t k = 1; k < bays; ++k) {
    tape.push_back(add_node(-line_.tape_load[k].z / kGravity, line_.tape_load[k]));
  }
  tape.push_back(add_node(0.0, {}));
  const std::size_t backup_near = add_node(0.0, {}), backup_far = add_node(0.0, {});
  for (std::size_t k = 0; k < bays; ++k) {
    main_.push_back(add_chain(line_.main_chain(k), tape[k], tape[k + 1]));
    loop_.push_back(add_chain(line_.loop_chain(k), k == 0 ? backup_near : tape[k],
                              k + 1 == bays ? backup_far : tape[k + 1]));
  }
}

std::vector<std::size_t> SundialsLine::add_chain(const ChainRange& chain, std::size_t near, std::size_t far) {
  if (chain.count == 0) return {};
  std::vector<std::size_t> nodes{near};
  for (std::size_t i = 0; i < chain.count; ++i) {
    const std::size_t bar = chain.first + i;
    if (i + 1 < chain.count) {
      mass_.push_back(-line_.load[bar].z / kGravity);
      load_.push_back(line_.load[bar]);
      nodes.push_back(mass_.size() - 1);
    } else {
      nodes.push_back(far);
    }
    const int law = line_.law[bar];
    bars_.push_back({nodes[i], nodes[i + 1], line_.length[bar], line_.laws[std::size_t(law)].constant_stiffness(), law});
  }
  return nodes;
}

std::vector<Vec3> SundialsLine::places(const Shape& shape) const {
  std::vector<Vec3> places(nodes());
  for (std::size_t k = 0; k < main_.size(); ++k) {
    for (std::size_t i = 0; i < main_[k].size(); ++i) places[main_[k][i]] = shape.main[k][i];
    for (std::size_t i = 0; i < loop_[k].size(); ++i) places[loop_[k][i]] = shape.loop[k][i];
  }
  return places;
}

void SundialsLine::rates(const std::vector<Vec3>& reach_at_start, const Push& push, const double* state,
                         double* rate) const {
  const std::size_t n = nodes();
  const double* velocity = state + 3 * n;
  double* acceleration = rate + 3 * n;
  std::copy(velocity, velocity + 3 * n, rate);
  for (std::size_t i = 0; i < n; ++i) {
    acceleration[3 * i] = load_[i].x;
    acceleration[3 * i + 1] = load_[i].y;
    acceleration[3 * i + 2] = load_[i].z;
  }
  for (std::size_t b = 0; b < bars_.size(); ++b) {
    const Bar& bar = bars_[b];
    const Vec3 reach = reach_at_start[b] + (at(state, bar.far) - at(state, bar.near));
    const double drawn = norm(reach), stretch = drawn / bar.length - 1.0;
    if (stretch <= 0.0) continue;  // slack
    const double tension = bar.stiffness > 0.0 ? bar.stiffness * stretch : law(bar).tension(stretch);
    const Vec3 pull = (tension / drawn) * reach;
    double *near = acceleration + 3 * bar.near, *far = acceleration + 3 * bar.far;
    near[0] += pull.x;
    near[1] += pull.y;
    near[2] += pull.z;
    far[0] -= pull.x;
    far[1] -= pull.y;
    far[2] -= pull.z;
  }
  acceleration[3 * push.node] += push.force.x;
  acceleration[3 * push.node + 1] += push.force.y;
  acceleration[3 * push.node + 2] += push.force.z;
  for (std::size_t i = 0; i < n; ++i) {
    const double per_mass = mass_[i] > 0.0 ? 1.0 / mass_[i] : 0.0;
    for (std::size_t axis = 0; axis < 3; ++axis) acceleration[3 * i + axis] *= per_mass;
  }
}

PeerEnergy SundialsLine::energy(const std::vector<Vec3>& from, const double* state) const {
  PeerEnergy energy;
  for (std::size_t i = 0; i < nodes(); ++i) {
    const Vec3 velocity = at(state + 3 * nodes(), i);
    energy.kinetic += 0.5 * mass_[i] * dot(velocity, velocity);
    if (mass_[i] > 0.0) energy.height -= dot(load_[i], from[i] + at(state, i));
  }
  for (const Bar& bar : bars_) {
    const Vec3 reach = (from[bar.far] + at(state, bar.far)) - (from[bar.near] + at(state, bar.near));
    const double stretch = std::max(0.0, norm(reach) / bar.length - 1.0);
    const double per_length = bar.stiffness > 0.0 ? 0.5 * bar.stiffness * stretch * stretch : law(bar).energy(stretch);
    energy.stretch += bar.length * per_length;
  }
  return energy;
}

SundialsRun SundialsLine::release(const std::vector<Vec3>& from, const std::vector<double>& times,
                                  const std::vector<std::size_t>& watched, const SundialsOptions& options) const {
  std::vector<Vec3> reach;
  for (const Bar& bar : bars_) reach.push_back(from[bar.far] - from[bar.near]);
  const Problem problem{*this, reach, options.push};
  const Integrator integrator(problem, options);
  SundialsRun run;
  for (double time : times) {
    const auto begin = std::chrono::steady_clock::now();
    double reached = 0.0;
    // Steps end at the samples: between steps SUNDIALS would interpolate, less exactly than it steps.
    check(ERKStepSetStopTime(integrator.arkode, time), "ERKStepSetStopTime");
    check(ERKStepEvolve(integrator.arkode, time, integrator.state, &reached, ARK_NORMAL), "ERKStepEvolve");
    run.seconds += std::chrono::duration<double>(std::chrono::steady_clock::now() - begin).count();
    const double* state = N_VGetArrayPointer(integrator.state);
    run.places.emplace_back();
    for (std::size_t node : watched) run.places.back().push_back(from[node] + at(state, node));
    run.energy.push_back(energy(from, state));
  }
  check(ERKStepGetNumSteps(integrator.arkode, &run.steps), "ERKStepGetNumSteps");
  check(ERKStepGetNumRhsEvals(integrator.arkode, &run.force_passes), "ERKStepGetNumRhsEvals");
  return run;
}

}  // namespace spanloom::peers
