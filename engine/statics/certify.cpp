#include "statics/certify.h"

#include <algorithm>
#include <cmath>
#include <limits>

namespace spanloom {
namespace {

struct Tally {
  Certificate certificate;
  double stiffest_floor = 0.0;  // rounding of a node's place times the stiffness of its bars

  void add_residual(const Vec3& unbalanced) {
    certificate.residual = std::max(certificate.residual, norm(unbalanced));
    if (!is_finite(unbalanced)) certificate.residual = INFINITY;
  }
};

struct ChainEnds { Vec3 near, far; };  // forces from positions

ChainEnds walk(const Line& line, const ChainRange& range, const std::vector<Vec3>& node, Vec3 balanced,
               Tally& tally) {
  ChainEnds ends{};
  Vec3 before;
  constexpr double eps = std::numeric_limits<double>::epsilon();
  for (std::size_t i = 0; i < range.count; ++i) {
    const StretchCurve& law = line.laws[line.law[range.first + i]];
    const double natural = line.length[range.first + i];
    const Vec3 along = node[i + 1] - node[i];
    const double length = norm(along);
    const double stretch = (length - natural) / natural;
    const double tension = law.tension(stretch);
    const Vec3 force = (length > 0.0 ? tension / length : 0.0) * along;
    const double size = std::max({std::abs(node[i].x), std::abs(node[i + 1].x), std::abs(node[i].z), 1e-3});
    tally.stiffest_floor = std::max(
        tally.stiffest_floor, 4.0 * eps * (size * law.stiffness(std::max(stretch, eps)) / natural + tension));
    tally.certificate.greatest_force = std::max(tally.certificate.greatest_force, tension);
    if (i == 0) ends.near = force;
    else tally.add_residual(force - before + line.load[range.first + i - 1]);
    before = force;

    const double claimed = norm(balanced);
    const double up = natural * law.energy(stretch);
    const double down = natural * (claimed + law.coenergy(claimed)), across = dot(balanced, along);
    tally.certificate.energy_gap += up + down - across;
    tally.certificate.energy_scale += up + down + std::abs(across);
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
  tally.certificate.residual_floor = tally.stiffest_floor;
  return tally.certificate;
}

bool holds(const Certificate& c) {
  const double allowed = std::max(1e-9 * c.greatest_force, 4.0 * c.residual_floor);
  // The gap of a state with such a residual is quadratic in it but where a bar is slack: there it is the
  // trace of force that the chain keeps (chain.cpp) times the length of the bar.
  return c.residual <= allowed && std::abs(c.energy_gap) <= 1e-11 * c.energy_scale;
}

}  // namespace spanloom
