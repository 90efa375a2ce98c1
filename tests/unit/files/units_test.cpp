#include "files/units.h"

#include <gtest/gtest.h>

#include <clocale>
#include <limits>
#include <numbers>

namespace spanloom {
namespace {

double si(std::string_view text, const Wanted& wanted) {
  const auto parsed = parse_quantity(text, wanted);
  if (const double* value = std::get_if<double>(&parsed)) return *value;
  ADD_FAILURE() << text << ": " << std::get<QuantityFault>(parsed).expected;
  return 0.0;
}

std::string fault(std::string_view text, const Wanted& wanted) {
  const auto parsed = parse_quantity(text, wanted);
  if (std::holds_alternative<double>(parsed)) return "no fault";
  const auto& found = std::get<QuantityFault>(parsed);
  return found.expected + " | " + found.cure;
}

TEST(Quantity, ReadsMetricUnits) {
  EXPECT_DOUBLE_EQ(si("62 m", kLength), 62.0);
  EXPECT_DOUBLE_EQ(si("120 mm", kLength), 0.12);
  EXPECT_DOUBLE_EQ(si("3.5 cm", kLength), 0.035);
  EXPECT_DOUBLE_EQ(si("1.2 km", kLength), 1200.0);
  EXPECT_DOUBLE_EQ(si("4.5 kN", kForce), 4500.0);
  EXPECT_DOUBLE_EQ(si("450 daN", kForce), 4500.0);
  EXPECT_DOUBLE_EQ(si("61 g/m", kMassPerLength), 0.061);
  EXPECT_DOUBLE_EQ(si("8 %", kShare), 0.08);
  EXPECT_DOUBLE_EQ(si("350 g", kMass), 0.35);
  EXPECT_DOUBLE_EQ(si("36 km/h", kSpeed), 10.0);
  EXPECT_DOUBLE_EQ(si("7000 cm2", kArea), 0.7);
  EXPECT_DOUBLE_EQ(si("0.7 m²", kArea), 0.7);
  EXPECT_DOUBLE_EQ(si("180 deg", kAngle), std::numbers::pi);
  EXPECT_DOUBLE_EQ(si("-5 deg", kAngle), -std::numbers::pi / 36.0);
}

// NIST SP 811 (2008), Appendix B.8, factors as printed (quoted from memory). Tolerance: half a unit of
// the last printed digit; 0 where the factor is printed as exact.
TEST(Quantity, ReadsUsUnitsByThePublishedFactors) {
  EXPECT_DOUBLE_EQ(si("1 ft", kLength), 0.3048);
  EXPECT_DOUBLE_EQ(si("1 in", kLength), 0.0254);
  EXPECT_DOUBLE_EQ(si("1 mph", kSpeed), 0.44704);
  EXPECT_DOUBLE_EQ(si("1 kgf", kForce), 9.80665);
  EXPECT_DOUBLE_EQ(si("1 ft2", kArea), 0.09290304);
  EXPECT_NEAR(si("1 lb", kMass), 0.4535924, 0.5e-7);
  EXPECT_NEAR(si("1 oz", kMass), 0.02834952, 0.5e-8);
  EXPECT_NEAR(si("1 lbf", kForce), 4.448222, 0.5e-6);
  EXPECT_NEAR(si("1 kn", kSpeed), 0.5144444, 0.5e-7);
  EXPECT_NEAR(si("1 lb/ft", kMassPerLength), 1.488164, 0.5e-6);
}

TEST(Quantity, MassesPerLengthInOuncesAndPoundsAgree) {
  EXPECT_DOUBLE_EQ(si("16 oz/ft", kMassPerLength), si("1 lb/ft", kMassPerLength));
  EXPECT_DOUBLE_EQ(si("3 oz/yd", kMassPerLength), si("1 oz/ft", kMassPerLength));
  EXPECT_DOUBLE_EQ(si("100 lb/100 ft", kMassPerLength), si("1 lb/ft", kMassPerLength));
}

TEST(Quantity, ReadsFeetAndInchesTogether) {
  EXPECT_DOUBLE_EQ(si("5 ft 9 in", kLength), 5 * 0.3048 + 9 * 0.0254);
  EXPECT_DOUBLE_EQ(si("5ft9in", kLength), 5 * 0.3048 + 9 * 0.0254);
  EXPECT_DOUBLE_EQ(si("-1 ft 6 in", kLength), -1.5 * 0.3048);
  for (const char* text : {"5 ft 9", "5 ft -9 in", "5 ft 9 in 3 in", "5 in 9 ft"}) {
    EXPECT_TRUE(fault(text, kLength).starts_with("a length in m, cm, mm, km, ft or in")) << text;
  }
}

TEST(Quantity, TakesSpacesOrNone) {
  EXPECT_DOUBLE_EQ(si("  62m ", kLength), 62.0);
  EXPECT_DOUBLE_EQ(si("62 \t m", kLength), 62.0);
  EXPECT_DOUBLE_EQ(si("-1.5e1 m", kLength), -15.0);
  EXPECT_DOUBLE_EQ(si("+2 m", kLength), 2.0);
}

TEST(Quantity, AsksForTheUnitWithTheNumberThatWasRead) {
  EXPECT_EQ(fault("4.5", kForce), "a force with its unit, such as \"4.5 kN\" | add the unit");
  EXPECT_EQ(fault("25", kSmallLength), "a length with its unit, such as \"25 mm\" | add the unit");
}

TEST(Quantity, NamesTheUnitsThatFit) {
  EXPECT_EQ(fault("4.5 kg", kForce), "a force in kN, N, daN, kgf or lbf | \"kg\" is a unit of mass");
  EXPECT_EQ(fault("4.5 KN", kForce), "a force in kN, N, daN, kgf or lbf | did you mean \"kN\"?");
  EXPECT_EQ(fault("20 m", kAngle), "an angle in deg | \"m\" is a unit of length");
}

TEST(Quantity, RefusesWhatIsNoPlainDecimalNumber) {
  const std::string expected = "a force with its unit, such as \"4.5 kN\" | ";
  EXPECT_EQ(fault("4,5 kN", kForce), expected + "write decimals with a point, and no thousands mark");
  EXPECT_EQ(fault("\u22124.5 kN", kForce), expected + "use the plain minus sign -");
  for (const char* text : {"", "kN", "inf kN", "nan kN", "-inf kN", "- 4 kN", "--4 kN", ". kN", "e5 kN"}) {
    EXPECT_EQ(fault(text, kForce), expected + "write the number first, then its unit") << text;
  }
  EXPECT_NE(fault("0x10 kN", kForce), "no fault");
  EXPECT_NE(fault("1.2.3 kN", kForce), "no fault");
}

TEST(Quantity, RefusesWhatDoesNotFitADouble) {
  const std::string expected = "a length with its unit, such as \"62 m\" | the number is out of range";
  EXPECT_EQ(fault("1e999 m", kLength), expected);
  EXPECT_EQ(fault("1e-999 m", kLength), expected);
  EXPECT_EQ(fault("1e308 km", kLength), expected);  // finite as written, not in metres
}

TEST(Quantity, IsReadTheSameInEveryLocale) {
  const char* before = std::setlocale(LC_ALL, nullptr);
  const std::string kept = before ? before : "C";
  for (const char* name : {"de_DE.UTF-8", "fr_FR.UTF-8", "C.UTF-8"}) {
    std::setlocale(LC_ALL, name);  // where it is not installed nothing changes
    EXPECT_DOUBLE_EQ(si("4.5 kN", kForce), 4500.0) << name;
  }
  std::setlocale(LC_ALL, kept.c_str());
}

TEST(Number, IsDecimalOnly) {
  EXPECT_EQ(parse_number("12.5"), 12.5);
  EXPECT_EQ(parse_number(" -0.5e-3 "), -0.5e-3);
  EXPECT_EQ(parse_number(".5"), 0.5);
  EXPECT_EQ(parse_number("5."), 5.0);
  for (const char* text : {"", "+", ".", "1e", "1e+", "0x1", "inf", "nan", "1 2", "1,5", "1'000", "1e400"}) {
    EXPECT_EQ(parse_number(text), std::nullopt) << text;
  }
}

}  // namespace
}  // namespace spanloom
