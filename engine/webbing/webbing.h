// A webbing: what it weighs, how it stretches, what it holds.
#pragma once

#include <optional>
#include <string>

#include "base/stated.h"
#include "webbing/stretch_curve.h"

namespace spanloom {

struct Webbing {
  std::string name;
  double mass_per_length = 0.0;             ///< of the unloaded webbing [kg/m], > 0
  Stated<double> width;                     ///< across the flat face [m], > 0 (our default 25 mm)
  Stated<double> thickness;                 ///< across the edge [m], > 0 (our default 2.5 mm)
  double strength = 0.0;                    ///< breaking strength, new and straight [N], > 0
  StretchCurve curve = StretchCurve::linear(1.0);
  std::optional<double> loss;               ///< energy lost in one load cycle, share [-], in [0, 0.5]
  Stated<double> wet_keeps;                 ///< share of strength left when wet [-], in (0, 1]
  bool generic = false;                     ///< handbook values of the fibre, not of this webbing: no verdict that
                                            ///< rests on them is ok
};

}  // namespace spanloom
