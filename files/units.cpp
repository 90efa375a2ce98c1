#include "files/units.h"

#include <array>
#include <cerrno>
#include <charconv>
#include <cmath>
#include <cstddef>
#include <cstdlib>
#include <numbers>
#include <span>
#include <string>
#include <system_error>
#include <vector>

#include "base/units.h"
#include "files/suggest.h"

namespace spanloom {
namespace {

struct Unit {
  std::string_view symbol;
  double factor;  // SI units in one of these
};

struct Kind {
  Quantity quantity;
  std::string_view name;  // with its article
  std::vector<Unit> units;
};

const std::array<Kind, 11>& kinds() {
  using namespace units;
  static const std::array<Kind, 11> table = {{
      {Quantity::length, "a length",
       {{"m", 1.0}, {"cm", 0.01}, {"mm", 0.001}, {"km", 1000.0}, {"ft", kFoot}, {"in", kInch}}},
      {Quantity::force, "a force",
       {{"kN", 1000.0}, {"N", 1.0}, {"daN", 10.0}, {"kgf", kGravity}, {"lbf", kPoundForce}}},
      {Quantity::mass, "a mass",
       {{"kg", 1.0}, {"g", 0.001}, {"lb", kPound}, {"oz", kPound / 16.0}}},
      {Quantity::mass_per_length, "a mass per length",
       {{"g/m", 0.001}, {"kg/m", 1.0}, {"lb/ft", kPound / kFoot}, {"oz/ft", kPound / 16.0 / kFoot},
        {"oz/yd", kPound / 16.0 / (3.0 * kFoot)}, {"lb/100 ft", kPound / (100.0 * kFoot)}}},
      {Quantity::share, "a share", {{"%", 0.01}}},
      {Quantity::speed, "a speed",
       {{"m/s", 1.0}, {"km/h", kKilometrePerHour}, {"mph", kMilePerHour}, {"kn", kKnot},
        {"ft/s", kFoot}}},
      {Quantity::area, "an area",
       {{"m2", 1.0}, {"m²", 1.0}, {"cm2", 1e-4}, {"cm²", 1e-4}, {"ft2", kFoot * kFoot},
        {"ft²", kFoot * kFoot}}},
      {Quantity::duration, "a time", {{"s", 1.0}, {"ms", 1e-3}, {"min", 60.0}, {"h", 3600.0}, {"d", 86400.0}}},
      {Quantity::angle, "an angle", {{"deg", std::numbers::pi / 180.0}}},
      {Quantity::frequency, "a frequency", {{"Hz", 1.0}}},
      {Quantity::acceleration, "an acceleration", {{"m/s2", 1.0}, {"m/s²", 1.0}, {"g", kGravity}}},
  }};
  return table;
}

const Kind& kind_of(Quantity quantity) {
  return kinds()[static_cast<std::size_t>(quantity)];
}

std::string_view trimmed(std::string_view text) {
  const auto first = text.find_first_not_of(" \t");
  if (first == std::string_view::npos) return {};
  return text.substr(first, text.find_last_not_of(" \t") - first + 1);
}

bool is_digit(char c) { return c >= '0' && c <= '9'; }

/// Length of the number that a text starts with; 0 if it starts with none.
std::size_t number_length(std::string_view text) {
  std::size_t at = !text.empty() && (text[0] == '-' || text[0] == '+') ? 1 : 0;
  std::size_t digits = 0;
  for (; at < text.size() && is_digit(text[at]); ++at) ++digits;
  if (at < text.size() && text[at] == '.') {
    for (++at; at < text.size() && is_digit(text[at]); ++at) ++digits;
  }
  if (digits == 0) return 0;
  if (at < text.size() && (text[at] == 'e' || text[at] == 'E')) {
    std::size_t exponent = at + 1;
    if (exponent < text.size() && (text[exponent] == '-' || text[exponent] == '+')) ++exponent;
    const std::size_t first_digit = exponent;
    while (exponent < text.size() && is_digit(text[exponent])) ++exponent;
    if (exponent > first_digit) at = exponent;
  }
  return at;
}

/// Reads all of a text as a decimal number, rounded to the nearest double; empty beyond the range of doubles.
std::optional<double> decimal(std::string_view text) {
#ifdef __cpp_lib_to_chars
  double value = 0.0;
  const auto [end, fault] = std::from_chars(text.data(), text.data() + text.size(), value);
  if (fault != std::errc{} || end != text.data() + text.size()) return std::nullopt;
  return value;
#else  // the library of the page's engine reads no doubles by from_chars; strtod rounds the same way
  const std::string ended(text);
  errno = 0;
  char* end = nullptr;
  const double value = std::strtod(ended.c_str(), &end);
  if (errno == ERANGE || end != ended.c_str() + ended.size()) return std::nullopt;
  return value;
#endif
}

/// A unit of feet with the inches that follow it, as in "5 ft 9 in".
struct UnitAndInches {
  std::string_view unit;
  double inches = 0.0;
};

UnitAndInches split_inches(std::string_view unit) {
  if (!unit.starts_with("ft")) return {unit};
  const std::string_view rest = trimmed(unit.substr(2));
  const std::size_t length = number_length(rest);
  const std::optional<double> inches = parse_number(rest.substr(0, length));
  if (!inches || !is_digit(rest[0]) || trimmed(rest.substr(length)) != "in") return {unit};
  return {"ft", *inches};
}

std::string suggestion_for_unit(std::string_view unit, Quantity quantity) {
  for (const Kind& kind : kinds()) {
    if (kind.quantity != quantity && unit_factor(unit, kind.quantity)) {
      return '"' + std::string(unit) + "\" is a unit of " +
             std::string(kind.name.substr(kind.name.find(' ') + 1));
    }
  }
  std::vector<std::string> symbols;
  for (const Unit& u : kind_of(quantity).units) symbols.emplace_back(u.symbol);
  const std::string nearest = nearest_word(unit, symbols);
  return nearest.empty() ? "" : "did you mean \"" + nearest + "\"?";
}

/// What is wrong with a text that does not start with a number or has more after it than a unit.
QuantityFault explain(std::string_view text, std::string_view rest, const Wanted& wanted) {
  if (!rest.empty() && rest[0] == ',') {
    return {expectation(wanted), "write decimals with a point, and no thousands mark"};
  }
  if (text.starts_with("\u2212")) return {expectation(wanted), "use the plain minus sign -"};
  return {expectation(wanted), "write the number first, then its unit"};
}

}  // namespace

std::optional<double> parse_number(std::string_view text) {
  text = trimmed(text);
  if (text.empty() || number_length(text) != text.size()) return std::nullopt;
  if (text[0] == '+') text.remove_prefix(1);  // from_chars knows no plus sign
  return decimal(text);
}

std::optional<double> unit_factor(std::string_view unit, Quantity quantity) {
  for (const Unit& u : kind_of(quantity).units) {
    if (u.symbol == unit) return u.factor;
  }
  return std::nullopt;
}

std::variant<double, QuantityFault> parse_quantity(std::string_view text, const Wanted& wanted) {
  text = trimmed(text);
  const std::size_t length = number_length(text);
  const std::string_view rest = trimmed(text.substr(length));
  if (length == 0 || (!rest.empty() && rest[0] == ',')) return explain(text, rest, wanted);
  // A bare share may be meant in parts of one: "0.9" is not shown as "0.9 %".
  const bool may_be_parts = wanted.quantity == Quantity::share;
  if (rest.empty()) return QuantityFault{expectation(wanted, may_be_parts ? "" : text), "add the unit"};

  const QuantityFault out_of_range{expectation(wanted), "the number is out of range"};
  const std::optional<double> number = parse_number(text.substr(0, length));
  if (!number) return out_of_range;
  const auto [unit, inches] = wanted.quantity == Quantity::length ? split_inches(rest) : UnitAndInches{rest};
  const std::optional<double> factor = unit_factor(unit, wanted.quantity);
  if (!factor) {
    return QuantityFault{std::string(kind_of(wanted.quantity).name) + " in " + units_of(wanted.quantity),
                         suggestion_for_unit(unit, wanted.quantity)};
  }
  const double value = *number * *factor + std::copysign(inches * units::kInch, text[0] == '-' ? -1.0 : 1.0);
  if (!std::isfinite(value)) return out_of_range;
  return value;
}

std::string expectation(const Wanted& wanted, std::string_view number) {
  const std::size_t space = wanted.example.find(' ');
  const std::string_view shown = parse_number(number) ? trimmed(number) : wanted.example.substr(0, space);
  return std::string(kind_of(wanted.quantity).name) + " with its unit, such as \"" + std::string(shown) +
         std::string(wanted.example.substr(space)) + '"';
}

std::string units_of(Quantity quantity) {
  const std::vector<Unit>& units = kind_of(quantity).units;
  std::string text;
  for (std::size_t i = 0; i < units.size(); ++i) {
    if (i > 0) text += i + 1 == units.size() ? " or " : ", ";
    text += units[i].symbol;
  }
  return text;
}

}  // namespace spanloom
