// What is known of a webbing so far: a [webbing.NAME] table that may still lack values.
#pragma once

#include <optional>
#include <string>

#include "webbing/stretch_curve.h"

namespace spanloom {

/// As Webbing, with what nobody has said left empty.
struct KnownWebbing {
  std::string name;
  std::optional<double> mass_per_length;  ///< [kg/m]
  std::optional<double> width;            ///< [m]
  std::optional<double> thickness;        ///< [m]
  std::optional<double> strength;         ///< [N]
  std::optional<double> wet_keeps;        ///< [-]
  std::optional<double> loss;             ///< [-]
  StretchCurve curve = StretchCurve::linear(1.0);
  bool generic = false;                   ///< handbook values of the fibre
};

}  // namespace spanloom
