// Numbers with their units as people read them: the one place where results become words.
#pragma once

#include <optional>
#include <string>
#include <string_view>

namespace spanloom {

/// What a crew measures and lifts with. US lengths are decimal feet to 0.01 ft (about 1/8 inch), so
/// that running lengths add up without carrying inches; small ones are decimal inches.
enum class UnitSystem { metric, us };

/// What a number means, which decides its unit and its digits.
enum class Measure {
  length,        ///< webbing, gap, places, sag, clearance: 0.01 m or 0.01 ft
  small_length,  ///< drops, margins, extra backup: 1 mm or 0.1 in
  fine_length,   ///< webbing across: 0.1 mm or 0.01 in
  force,         ///< 0.01 kN or 1 lbf
  small_force,   ///< of hanging webbing: 1 N or 0.1 lbf
  mass,          ///< 0.1 kg or 0.1 lb
  small_mass,    ///< one piece of hardware: 1 g or 0.01 lb
  line_mass,     ///< of webbing per length: 0.1 g/m or 0.1 lb/100 ft
  duration,      ///< 0.01 s
  speed,         ///< 0.1 m/s or 0.1 mph
  area,          ///< 0.01 m2 or 0.1 ft2
  share,         ///< 0.1 %
  ratio,         ///< three figures, no unit
  arm_spans      ///< 0.01 arm spans
};

/// The number alone, as it stands in a column whose head names the unit.
/// @param si  the quantity in SI (shares and ratios plain), finite
std::string number_text(double si, Measure measure, UnitSystem units);

/// The unit alone: "m", "kN", "arm spans", "" for a ratio.
std::string unit_text(Measure measure, UnitSystem units);

/// Number and unit: "4.50 kN".
std::string quantity_text(double si, Measure measure, UnitSystem units);

/// Number and unit, or words where there is no number.
std::string quantity_or(const std::optional<double>& si, Measure measure, UnitSystem units,
                        std::string_view otherwise);

/// Number with a sign always, for margins: "+42 mm", "-5 mm".
std::string signed_text(double si, Measure measure, UnitSystem units);

/// How a check whose value is in `unit` ("m", "N", "-") is best printed; lengths under half a
/// metre and forces under a kilonewton, limit and value both, read better in small units.
Measure measure_of(std::string_view unit, double value, double limit);

}  // namespace spanloom
