// Generic fibres out of handbooks, for a first look at a rig whose webbing nobody has pulled yet.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "webbing/stretch_curve.h"

namespace spanloom {

/// Yarn values. Modulus and strength: Tension Technology International, "Synthetic fibre yarn properties", table 1.
/// Stretch at break: Bigon, The Morrow Guide to Knots, tables; that of HMPE, 3 to 4 %, from memory.
struct Fibre {
  const char* name;          ///< "nylon", "polyester", "hmpe"
  const char* title;         ///< for people
  double modulus;            ///< first slope of tension over stretch, per mass per length [N m/kg]
  double strength;           ///< per mass per length [N m/kg]
  double break_stretch;      ///< [-]
  const char* break_source;  ///< where the last comes from
  std::optional<double> wet_keeps;  ///< share of strength left when wet [-], where the table says it
};

const std::vector<Fibre>& fibres();

/// @throws InputError "fibre" for a name that none has
const Fibre& fibre_named(std::string_view name);

/// What webbing of a fibre would do at best.
struct YarnWebbing {
  double strength;     ///< [N]
  StretchCurve curve;  ///< through ten points, the break last
};

/// Webbing of nothing but straight yarn, which is an upper bound: woven webbing is softer, because its yarns run in waves,
/// and weaker, at stitches and ends most of all. The curve is the parabola that starts with the modulus and ends at
/// strength and stretch of the break, the simplest that has both; it rises where modulus x break stretch is under twice
/// the strength. Loss is left out: none is in the sources.
/// @param mass_per_length  [kg/m], > 0
/// @throws InputError "mass"
YarnWebbing yarn_webbing(const Fibre& fibre, double mass_per_length);

}  // namespace spanloom
