#include "base/quantity_text.h"

#include <algorithm>
#include <cassert>
#include <cmath>

#include <fmt/format.h>

#include "base/units.h"

namespace spanloom {
namespace {

struct Style {
  const char* unit;
  double si_of_one;  // how much SI one of this unit is
  int digits;        // behind the point
};

constexpr double kHundredFeet = 100.0 * units::kFoot;

Style metric_style(Measure measure) {
  switch (measure) {
    case Measure::length: return {"m", 1.0, 2};
    case Measure::small_length: return {"mm", 1e-3, 0};
    case Measure::fine_length: return {"mm", 1e-3, 1};
    case Measure::force: return {"kN", 1e3, 2};
    case Measure::small_force: return {"N", 1.0, 0};
    case Measure::mass: return {"kg", 1.0, 1};
    case Measure::small_mass: return {"g", 1e-3, 0};
    case Measure::line_mass: return {"g/m", 1e-3, 1};
    case Measure::duration: return {"s", 1.0, 2};
    case Measure::speed: return {"m/s", 1.0, 1};
    case Measure::area: return {"m2", 1.0, 2};
    case Measure::share: return {"%", 1e-2, 1};
    case Measure::ratio: return {"", 1.0, 2};
    case Measure::arm_spans: return {"arm spans", 1.0, 2};
  }
  return {"", 1.0, 3};
}

Style style_of(Measure measure, UnitSystem system) {
  if (system == UnitSystem::us) {
    switch (measure) {
      case Measure::length: return {"ft", units::kFoot, 2};
      case Measure::small_length: return {"in", units::kInch, 1};
      case Measure::fine_length: return {"in", units::kInch, 2};
      case Measure::force: return {"lbf", units::kPoundForce, 0};
      case Measure::small_force: return {"lbf", units::kPoundForce, 1};
      case Measure::mass: return {"lb", units::kPound, 1};
      case Measure::small_mass: return {"lb", units::kPound, 2};
      case Measure::line_mass: return {"lb/100 ft", units::kPound / kHundredFeet, 1};
      case Measure::speed: return {"mph", units::kMilePerHour, 1};
      case Measure::area: return {"ft2", units::kFoot * units::kFoot, 1};
      default: break;
    }
  }
  return metric_style(measure);
}

// A ratio of 749 has no hundredths worth reading.
int digits_of(double value, Measure measure, const Style& style) {
  if (measure != Measure::ratio) return style.digits;
  return std::abs(value) < 9.995 ? 2 : std::abs(value) < 99.95 ? 1 : 0;
}

// "-0.00" would read like a small negative number.
std::string without_negative_zero(std::string text) {
  if (text.front() == '-' && text.find_first_of("123456789") == std::string::npos) text.erase(0, 1);
  return text;
}

}  // namespace

std::string number_text(double si, Measure measure, UnitSystem system) {
  assert(std::isfinite(si));
  const Style style = style_of(measure, system);
  const double value = si / style.si_of_one;
  return without_negative_zero(fmt::format("{:.{}f}", value, digits_of(value, measure, style)));
}

std::string unit_text(Measure measure, UnitSystem system) { return style_of(measure, system).unit; }

std::string quantity_text(double si, Measure measure, UnitSystem system) {
  const std::string unit = unit_text(measure, system);
  const std::string number = number_text(si, measure, system);
  return unit.empty() ? number : number + " " + unit;
}

std::string quantity_or(const std::optional<double>& si, Measure measure, UnitSystem system,
                        std::string_view otherwise) {
  return si ? quantity_text(*si, measure, system) : std::string(otherwise);
}

std::string signed_text(double si, Measure measure, UnitSystem system) {
  const std::string text = quantity_text(si, measure, system);
  return text.front() == '-' ? text : "+" + text;
}

Measure measure_of(std::string_view unit, double value, double limit) {
  const double greater = std::max(std::abs(value), std::abs(limit));
  if (unit == "m") return greater < 0.5 ? Measure::small_length : Measure::length;
  if (unit == "N") return greater < 1000.0 ? Measure::small_force : Measure::force;
  if (unit == "kg") return Measure::mass;
  if (unit == "s") return Measure::duration;
  if (unit == "m/s") return Measure::speed;
  return Measure::ratio;
}

}  // namespace spanloom
