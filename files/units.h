// Quantities as people write them, "4.5 kN", to SI. The one place where units are read.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <variant>

namespace spanloom {

/// What a value measures; each has its own units and its own SI unit inside.
enum class Quantity {
  length,           ///< [m]
  force,            ///< [N]
  mass,             ///< [kg]
  mass_per_length,  ///< [kg/m]
  share,            ///< [-], written in percent
  speed,            ///< [m/s]
  area,             ///< [m2]
  duration,         ///< [s]
  angle,            ///< [rad]
  frequency,        ///< [Hz]
  acceleration,     ///< [m/s2]
};

/// A quantity that a key holds, with a value that would be usual there: the size of a webbing is shown
/// in millimetres, that of a gap in metres. Any unit of the quantity is read.
struct Wanted {
  Quantity quantity;
  std::string_view example;  ///< number, space, unit
};

inline constexpr Wanted kLength{Quantity::length, "62 m"};
inline constexpr Wanted kSmallLength{Quantity::length, "25 mm"};
inline constexpr Wanted kForce{Quantity::force, "4.5 kN"};
inline constexpr Wanted kSmallForce{Quantity::force, "400 N"};
inline constexpr Wanted kMass{Quantity::mass, "78 kg"};
inline constexpr Wanted kSmallMass{Quantity::mass, "350 g"};
inline constexpr Wanted kMassPerLength{Quantity::mass_per_length, "61 g/m"};
inline constexpr Wanted kShare{Quantity::share, "8 %"};
inline constexpr Wanted kSpeed{Quantity::speed, "8 m/s"};
inline constexpr Wanted kArea{Quantity::area, "0.7 m2"};
inline constexpr Wanted kDuration{Quantity::duration, "6 s"};
inline constexpr Wanted kAngle{Quantity::angle, "20 deg"};
inline constexpr Wanted kFrequency{Quantity::frequency, "1.2 Hz"};

/// Why a text is not the quantity asked for.
struct QuantityFault {
  std::string expected;  ///< "a force with its unit, such as "4.5 kN""
  std::string cure;      ///< may be ""
};

/// A decimal number and nothing else: digits, at most one point, an optional exponent, a sign.
/// The same in every locale; no infinity, nan, hexadecimal or thousands mark. Empty if it is none or
/// does not fit a double.
std::optional<double> parse_number(std::string_view text);

/// A number with its unit, with or without a space between; feet and inches together
/// ("5 ft 9 in") for lengths. @return the value in SI, finite, or what is wrong
std::variant<double, QuantityFault> parse_quantity(std::string_view text, const Wanted& wanted);

/// SI value of one unit, as used in the header of a CSV column; empty if the unit does not fit.
std::optional<double> unit_factor(std::string_view unit, Quantity quantity);

/// What to write: "a force with its unit, such as "4.5 kN"".
/// @param number  the number to put into the example; the usual one if it is none
std::string expectation(const Wanted& wanted, std::string_view number = "");

/// "N, kN, daN, kgf or lbf"
std::string units_of(Quantity quantity);

}  // namespace spanloom
