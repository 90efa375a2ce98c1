#include "statics/certify.h"

#include <algorithm>
#include <cmath>
#include <limits>

#include "base/lane.h"

namespace spanloom {
namespace {

constexpr double kEps = std::numeric_limits<double>::epsilon();
constexpr double kNoLength = 1e-300;  // keeps 0 / 0 out, lost beside any length [m]

struct Tally {
  Certificate certificate;
  Lane gap{}, scale{}, floor{}, greatest{};
  double residual_squared = 0.0;
  double sum_of_squares = 0.0;  // not finite as soon as one residual is not, which a maximum would miss

  void add_residual(const Vec3& unbalanced) {
    const double squared = dot(unbalanced, unbalanced);
    residual_squared = std::max(residual_squared, squared);
    sum_of_squares += squared;
  }
};

// Some bars of a chain side by side: where they lie, and the forces claimed for them. Bars that are not
// there lie nowhere and carry nothing.
struct Bars {
  double x[kLanes] = {}, y[kLanes] = {}, z[kLanes] = {};      // far node minus near node [m]
  double fx[kLanes] = {}, fy[kLanes] = {}, fz[kLanes] = {};   // claimed [N]
  double natural[kLanes] = {1.0, 1.0, 1.0, 1.0}, size[kLanes] = {};
};

// What the forward law and its inverse say: of a stretch, and of a claimed tension.
struct LawAt { Lane tension, stiffness, energy, coenergy; };

LawAt straight_law(double ea, const Lane& stretch, const Lane& claimed) {
  const Lane pulled = larger(stretch, Lane{}), none{};
  return {ea * pulled, none + ea, 0.5 * ea * pulled * pulled, claimed * claimed * (0.5 / ea)};
}

LawAt laws_at(const Line& line, std::size_t first, std::size_t count, const Lane& stretch, const Lane& claimed) {
  const StretchCurve& one = line.laws[line.law[first]];
  bool alike = one.constant_stiffness() > 0.0;
  for (std::size_t k = 1; k < count; ++k) alike = alike && line.law[first + k] == line.law[first];
  if (alike) return straight_law(one.constant_stiffness(), stretch, claimed);
  LawAt at{};
  for (std::size_t k = 0; k < count; ++k) {
    const StretchCurve& law = line.laws[line.law[first + k]];
    at.tension[k] = law.tension(stretch[k]);
    at.stiffness[k] = law.stiffness(std::max(stretch[k], kEps));
    at.energy[k] = law.energy(stretch[k]);
    at.coenergy[k] = law.coenergy(claimed[k]);
  }
  return at;
}

struct ChainEnds { Vec3 near, far; };  // forces from positions

ChainEnds walk(const Line& line, const ChainRange& range, const std::vector<Vec3>& node, Vec3 balanced,
               Tally& tally) {
  ChainEnds ends{};
  Vec3 before;
  for (std::size_t i = 0; i < range.count; i += kLanes) {
    const std::size_t here = std::min(kLanes, range.count - i), first = range.first + i;
    Bars bars;
    for (std::size_t k = 0; k < here; ++k) {
      const Vec3 &from = node[i + k], &to = node[i + k + 1];
      bars.x[k] = to.x - from.x, bars.y[k] = to.y - from.y, bars.z[k] = to.z - from.z;
      bars.fx[k] = balanced.x, bars.fy[k] = balanced.y, bars.fz[k] = balanced.z;
      bars.natural[k] = line.length[first + k];
      bars.size[k] = std::max({std::abs(from.x), std::abs(to.x), std::abs(from.z), 1e-3});
      balanced -= line.load[first + k];
    }
    const Lane x = load_lane(bars.x), y = load_lane(bars.y), z = load_lane(bars.z);
    const Lane fx = load_lane(bars.fx), fy = load_lane(bars.fy), fz = load_lane(bars.fz);
    const Lane natural = load_lane(bars.natural), over = 1.0 / natural;
    const Lane length = square_root(x * x + y * y + z * z), claimed = square_root(fx * fx + fy * fy + fz * fz);
    const LawAt law = laws_at(line, first, here, (length - natural) * over, claimed);
    const Lane across = fx * x + fy * y + fz * z, sum = natural * (law.energy + claimed + law.coenergy);
    tally.gap += sum - across;
    tally.scale += sum + larger(across, -across);
    // Rounding of a node's place times the stiffness of its bars.
    tally.floor = larger(tally.floor, load_lane(bars.size) * law.stiffness * over + law.tension);
    tally.greatest = larger(tally.greatest, law.tension);
    double pull[kLanes];  // tension / length; a bar of no length is slack
    store_lane(law.tension / (length + kNoLength), pull);
    for (std::size_t k = 0; k < here; ++k) {
      const Vec3 force = pull[k] * Vec3{bars.x[k], bars.y[k], bars.z[k]};
      if (i + k == 0) ends.near = force;
      else tally.add_residual(force - before + line.load[first + k - 1]);
      before = force;
    }
  }
  ends.far = before;
  return ends;
}

double largest(const Lane& a) { return std::max(std::max(a[0], a[1]), std::max(a[2], a[3])); }

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
  Certificate& c = tally.certificate;
  c.residual = std::isfinite(tally.sum_of_squares) ? std::sqrt(tally.residual_squared) : INFINITY;
  c.residual_floor = 4.0 * kEps * largest(tally.floor);
  c.greatest_force = largest(tally.greatest);
  c.energy_gap = sum(tally.gap);
  c.energy_scale = sum(tally.scale);
  return c;
}

bool holds(const Certificate& c) {
  const double allowed = std::max(1e-9 * c.greatest_force, 16.0 * c.residual_floor);
  // The gap of a state with such a residual is quadratic in it but where a bar is slack: there it is the
  // trace of force that the chain keeps (chain.cpp) times the length of the bar.
  return c.residual <= allowed && std::abs(c.energy_gap) <= 1e-11 * c.energy_scale;
}

}  // namespace spanloom
