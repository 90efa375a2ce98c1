#include "statics/certify.h"

#include <algorithm>
#include <cmath>
#include <limits>

namespace spanloom {
namespace {

constexpr double kEps = std::numeric_limits<double>::epsilon();

struct Tally {
  Certificate certificate;
  double residual_squared = 0.0;
  double sum_of_squares = 0.0;  // not finite as soon as one residual is not, which a maximum would miss

  void add_residual(const Vec3& unbalanced) {
    const double squared = dot(unbalanced, unbalanced);
    residual_squared = std::max(residual_squared, squared);
    sum_of_squares += squared;
  }
};

// What the forward law says of a bar. Straight laws are worked out in place: they are the most part.
struct BarState { double tension, stiffness, energy; };

BarState at_stretch(const StretchCurve& law, double stretch) {
  if (const double ea = law.constant_stiffness(); ea > 0.0) {
    const double pulled = std::max(stretch, 0.0);
    return {ea * pulled, ea, 0.5 * ea * pulled * pulled};
  }
  return {law.tension(stretch), law.stiffness(std::max(stretch, kEps)), law.energy(stretch)};
}

double coenergy(const StretchCurve& law, double tension) {
  const double ea = law.constant_stiffness();
  return ea > 0.0 ? 0.5 * tension * tension / ea : law.coenergy(tension);
}

struct ChainEnds { Vec3 near, far; };  // forces from positions

ChainEnds walk(const Line& line, const ChainRange& range, const std::vector<Vec3>& node, Vec3 balanced,
               Tally& tally) {
  Certificate& c = tally.certificate;
  ChainEnds ends{};
  Vec3 before;
  for (std::size_t i = 0; i < range.count; ++i) {
    const StretchCurve& law = line.laws[line.law[range.first + i]];
    const double natural = line.length[range.first + i];
    const Vec3 along = node[i + 1] - node[i];
    const double length = norm(along);
    const BarState bar = at_stretch(law, (length - natural) / natural);
    const Vec3 force = (length > 0.0 ? bar.tension / length : 0.0) * along;
    // Rounding of a node's place times the stiffness of its bars.
    const double size = std::max({std::abs(node[i].x), std::abs(node[i + 1].x), std::abs(node[i].z), 1e-3});
    c.residual_floor = std::max(c.residual_floor, 4.0 * kEps * (size * bar.stiffness / natural + bar.tension));
    c.greatest_force = std::max(c.greatest_force, bar.tension);
    if (i == 0) ends.near = force;
    else tally.add_residual(force - before + line.load[range.first + i - 1]);
    before = force;

    const double claimed = norm(balanced), across = dot(balanced, along);
    const double sum = natural * (bar.energy + claimed + coenergy(law, claimed));
    c.energy_gap += sum - across;
    c.energy_scale += sum + std::abs(across);
    balanced -= line.load[range.first + i];
  }
  ends.far = before;
  return ends;
}

}  // namespace

Certificate certify(const Line& line, const Shape& shape, std::span<const Vec3> near_force) {
  Tally tally;
  std::vector<Vec3> unbalanced = line.tape_load;
  for (std::size_t c = 0; c < line.chains.size(); ++c) {
    if (line.chains[c].count == 0) continue;
    const auto& node = (c % 2 == 0 ? shape.main : shape.loop)[c / 2];
    const ChainEnds ends = walk(line, line.chains[c], node, near_force[c], tally);
    unbalanced[c / 2] += ends.near;
    unbalanced[c / 2 + 1] -= ends.far;
  }
  for (std::size_t k = 1; k < line.bays(); ++k) tally.add_residual(unbalanced[k]);
  tally.certificate.residual = std::isfinite(tally.sum_of_squares) ? std::sqrt(tally.residual_squared) : INFINITY;
  return tally.certificate;
}

bool holds(const Certificate& c) {
  const double allowed = std::max(1e-9 * c.greatest_force, 4.0 * c.residual_floor);
  // The gap of a state with such a residual is quadratic in it but where a bar is slack: there it is the
  // trace of force that the chain keeps (chain.cpp) times the length of the bar.
  return c.residual <= allowed && std::abs(c.energy_gap) <= 1e-11 * c.energy_scale;
}

}  // namespace spanloom
