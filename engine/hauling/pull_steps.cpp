#include "hauling/pull_steps.h"

#include <cmath>

#include <fmt/format.h>

#include "base/input_error.h"
#include "base/units.h"
#include "statics/clearance.h"

namespace spanloom {
namespace {

// The least of 1, 2, 2.5, 5 times a power of ten that is not below a value.
double round_up(double value) {
  const double power = std::pow(10.0, std::floor(std::log10(value)));
  for (const double times : {1.0, 2.0, 2.5, 5.0}) {
    if (times * power >= value * (1.0 - 1e-9)) return times * power;
  }
  return 10.0 * power;
}

PullStep describe(const Rig& rig, const Line& line, const Equilibrium& at) {
  const Shape shape = EquilibriumSolver(line).shape(at);
  PullStep step;
  step.tension_near = norm(at.near_force.front());
  step.tension_far = norm(at.far_force[2 * line.bays() - 2]);
  step.sag = sag_at_middle(rig, shape);
  if (const auto least = line_clearance(rig, shape)) step.ground_clearance = least->distance;
  return step;
}

}  // namespace

double sag_at_middle(const Rig& rig, const Shape& shape) {
  const double middle = 0.5 * rig.site.gap, chord = 0.5 * rig.site.rise;
  Vec3 before = shape.main.front().front();
  for (const std::vector<Vec3>& bay : shape.main) {
    for (const Vec3& node : bay) {
      if (node.x >= middle) {
        const double share = node.x > before.x ? (middle - before.x) / (node.x - before.x) : 1.0;
        return chord - (before.z + share * (node.z - before.z));
      }
      before = node;
    }
  }
  return chord - before.z;
}

std::vector<double> pulling_tensions(double from, double to, std::optional<double> step, UnitSystem units) {
  constexpr double kWantedSteps = 10.0, kTooClose = 0.15;  // the latter of a step, to either end
  if (step && !(*step > 0.0)) throw InputError("step", fmt::format("{:g} N", *step), "a force above 0 N");
  if (step && (to - from) / *step > kMostSteps) {
    throw InputError("step", fmt::format("{:g} N", *step), fmt::format("one that makes {} steps at most", kMostSteps));
  }
  const double unit = units == UnitSystem::us ? units::kPoundForce : 1.0;
  const double by = step ? *step : unit * round_up((to - from) / kWantedSteps / unit);
  std::vector<double> out{from};
  for (double i = std::ceil((from + kTooClose * by) / by); i * by <= to - kTooClose * by; ++i) out.push_back(i * by);
  out.push_back(to);
  return out;
}

std::optional<std::vector<PullStep>> pull_steps(const Rig& rig, const StandingRig& standing,
                                                const std::vector<double>& tensions) {
  const StretchCurve& curve = rig.webbings[rig.main.run.segments.back().webbing].curve;
  std::vector<PullStep> steps;
  double loosest = 0.0;  // natural length still to be pulled at the first step
  for (std::size_t i = 0; i < tensions.size(); ++i) {
    PullStep step;
    if (i + 1 == tensions.size()) {
      step = describe(rig, standing.mesh.line, standing.standing);
      step.pulled = loosest;
    } else {
      const std::optional<Slackened> at = slacken(standing, tensions[i]);
      if (!at) return std::nullopt;
      step = describe(rig, at->mesh.line, at->line);
      if (i == 0) loosest = at->length;
      step.pulled = loosest - at->length;
    }
    if (i > 0) {
      const PullStep& last = steps.back();
      const double stretch =
          0.5 * (curve.stretch_at(last.tension_near).stretch + curve.stretch_at(step.tension_near).stretch);
      step.travel = last.travel + (1.0 + stretch) * (step.pulled - last.pulled);
    }
    steps.push_back(step);
  }
  return steps;
}

}  // namespace spanloom
