#include "webbing/fibres.h"

#include <cmath>
#include <utility>

#include "base/input_error.h"
#include "webbing/pull_test_fit.h"

namespace spanloom {
namespace {

constexpr double kPerTex = 1e6;  // N/tex in N m/kg: 1 tex is 1 g/km
constexpr int kPoints = 10;
constexpr const char* kMorrow = "Bigon, The Morrow Guide to Knots";
constexpr const char* kMemory = "3 to 4 %, from memory";

}  // namespace

const std::vector<Fibre>& fibres() {
  // Wet nylon loses 10 to 15 %: the same tables; the worse of the two.
  static const std::vector<Fibre> kFibres = {
      {"nylon", "nylon (polyamide)", 4.0 * kPerTex, 0.84 * kPerTex, 0.19, kMorrow, 0.85},
      {"polyester", "polyester", 10.0 * kPerTex, 0.84 * kPerTex, 0.14, kMorrow, {}},
      {"hmpe", "HMPE (UHMWPE)", 124.0 * kPerTex, 2.65 * kPerTex, 0.035, kMemory, {}},
  };
  return kFibres;
}

const Fibre& fibre_named(std::string_view name) {
  std::string names;
  for (const Fibre& fibre : fibres()) {
    if (fibre.name == name) return fibre;
    names += (names.empty() ? "" : ", ") + std::string(fibre.name);
  }
  throw InputError("fibre", '"' + std::string(name) + '"', "one of " + names);
}

YarnWebbing yarn_webbing(const Fibre& fibre, double mass_per_length) {
  if (!(mass_per_length > 0.0) || !std::isfinite(mass_per_length)) {
    throw InputError("mass", std::to_string(mass_per_length) + " kg/m", "a mass per length above 0", "weigh a known length");
  }
  const double strength = fibre.strength * mass_per_length;
  const double first_slope = fibre.modulus * fibre.break_stretch / fibre.strength;  // of tension / strength over x
  std::vector<CurvePoint> points;
  for (int i = 1; i <= kPoints; ++i) {
    const double x = static_cast<double>(i) / kPoints;
    points.push_back({strength * x * (first_slope + (1.0 - first_slope) * x), fibre.break_stretch * x});
  }
  return {strength, StretchCurve::from_points(in_five_figures(std::move(points)))};
}

}  // namespace spanloom
