// Single chains of equal bars whose state of rest is known in closed form, for motion.
#pragma once

#include <cmath>
#include <vector>

#include "base/constants.h"
#include "support/at_rest.h"

namespace spanloom {

/// Natural length of a bar that stands at a length under a tension.
inline double natural_length(double length, double tension, double axial_stiffness) {
  return length / (1.0 + tension / axial_stiffness);
}

/// What a taut string is made of.
struct StringSpec {
  double tension = 0.0;          ///< along the span [N]
  double mass_per_length = 0.0;  ///< of span [kg/m]
  double span = 0.0;             ///< [m]
  double axial_stiffness = 0.0;  ///< [N]
  std::size_t bars = 0;
};

/// Both ends held at one height. Beads on a string hang on a parabola, exactly; the bars are so long that they do.
inline AtRest taut_string(const StringSpec& of) {
  const double spacing = of.span / double(of.bars), bead = of.mass_per_length * spacing;
  AtRest rest = beaded_string(of.axial_stiffness, spacing, std::vector<double>(of.bars - 1, bead));
  rest.line.mass.front() = rest.line.mass.back() = 0.5 * bead;
  for (std::size_t i = 0; i <= of.bars; ++i) {
    rest.places[i].z = -0.5 * kGravity * bead * spacing / of.tension * double(i) * double(of.bars - i);
  }
  for (std::size_t i = 0; i < of.bars; ++i) {
    const double length = norm(rest.places[i + 1] - rest.places[i]);
    rest.line.length[i] = natural_length(length, of.tension * length / spacing, of.axial_stiffness);
  }
  return rest;
}

/// A chain of hardly stretching links, half of a link's mass at either end, hanging between level ends.
struct FoldedChain {
  double distance = 0.0;         ///< of its ends [m]
  double length = 1.0;           ///< [m]
  double mass = 1.0;             ///< [kg]
  double axial_stiffness = 0.0;  ///< [N]
  std::size_t links = 0;         ///< even
};

/// Directions of its links at rest: the horizontal pull is the same in all, the upright one changes by a link's weight.
inline std::vector<Vec3> link_directions(const FoldedChain& of) {
  const auto directions = [&](double pull) {  // horizontal pull over a link's weight
    std::vector<Vec3> along;
    for (std::size_t i = 0; i < of.links; ++i) {
      const double up = double(i) + 0.5 - 0.5 * double(of.links), whole = std::hypot(pull, up);
      along.push_back({pull / whole, 0.0, up / whole});
    }
    return along;
  };
  double low = 0.0, high = 1e3 * double(of.links);
  for (int halving = 0; halving < 200; ++halving) {
    const double pull = 0.5 * (low + high);
    Vec3 reach;
    for (const Vec3& along : directions(pull)) reach += along;
    (reach.x * of.length / double(of.links) < of.distance ? low : high) = pull;
  }
  return directions(0.5 * (low + high));
}

/// Tensions of rigid links held at the near end only, at rest and just let go: no link changes its length, so the
/// accelerations of its two ends are equal along it.
inline std::vector<double> tensions_let_go(const std::vector<Vec3>& along, const std::vector<double>& mass) {
  const std::size_t n = along.size();
  std::vector<double> tension(n), factor(n);
  const auto per_mass = [&](std::size_t node) { return node == 0 ? 0.0 : 1.0 / mass[node]; };
  for (std::size_t i = 0; i < n; ++i) {
    const double before = i > 0 ? -per_mass(i) * dot(along[i], along[i - 1]) : 0.0;
    const double after = i + 1 < n ? -per_mass(i + 1) * dot(along[i], along[i + 1]) : 0.0;
    const double pivot = per_mass(i) + per_mass(i + 1) - (i > 0 ? before * factor[i - 1] : 0.0);
    factor[i] = after / pivot;
    tension[i] = ((i == 0 ? -kGravity * along[0].z : 0.0) - (i > 0 ? before * tension[i - 1] : 0.0)) / pivot;
  }
  for (std::size_t i = n - 1; i-- > 0;) tension[i] -= factor[i] * tension[i + 1];
  return tension;
}

/// The chain as it is let go at its far end. Links are stretched as if rigid ones had just been let go: springs that
/// still carried what held the end would ring ever after.
inline AtRest folded_chain(const FoldedChain& of) {
  const double link = of.length / double(of.links), bead = of.mass / double(of.links);
  AtRest chain = beaded_string(of.axial_stiffness, link, std::vector<double>(of.links - 1, bead));
  chain.line.length.assign(of.links, link);
  chain.line.mass.front() = chain.line.mass.back() = 0.5 * bead;
  chain.line.held.back() = 0;
  const std::vector<Vec3> along = link_directions(of);
  const std::vector<double> tension = tensions_let_go(along, chain.line.mass);
  for (std::size_t i = 0; i < of.links; ++i) {
    chain.places[i + 1] = chain.places[i] + link * (1.0 + tension[i] / of.axial_stiffness) * along[i];
  }
  return chain;
}

}  // namespace spanloom
