#include "base/quantity_text.h"

#include <gtest/gtest.h>

namespace spanloom {
namespace {

constexpr auto kMetric = UnitSystem::metric;
constexpr auto kUs = UnitSystem::us;

TEST(QuantityText, WritesNumberUnitAndSensibleDigits) {
  EXPECT_EQ(quantity_text(62.0, Measure::length, kMetric), "62.00 m");
  EXPECT_EQ(quantity_text(0.1234, Measure::small_length, kMetric), "123 mm");
  EXPECT_EQ(quantity_text(4500.0, Measure::force, kMetric), "4.50 kN");
  EXPECT_EQ(quantity_text(0.061, Measure::line_mass, kMetric), "61.0 g/m");
  EXPECT_EQ(quantity_text(0.012, Measure::share, kMetric), "1.2 %");
  EXPECT_EQ(quantity_text(2.5, Measure::ratio, kMetric), "2.50");
}

// Worked by hand from NIST SP 811 (2008), Appendix B.8: 1 ft = 0.3048 m, 1 in = 25.4 mm,
// 1 lbf = 4.448222 N, 1 lb = 0.4535924 kg, 1 mi/h = 0.44704 m/s. Tolerance: the printed digits.
TEST(QuantityText, ConvertsToUsUnitsAsWorkedByHand) {
  EXPECT_EQ(quantity_text(62.0, Measure::length, kUs), "203.41 ft");       // 62 / 0.3048 = 203.412
  EXPECT_EQ(quantity_text(0.12, Measure::small_length, kUs), "4.7 in");    // 120 / 25.4 = 4.724
  EXPECT_EQ(quantity_text(4500.0, Measure::force, kUs), "1012 lbf");       // 4500 / 4.448222 = 1011.64
  EXPECT_EQ(quantity_text(78.0, Measure::mass, kUs), "172.0 lb");          // 78 / 0.4535924 = 171.961
  EXPECT_EQ(quantity_text(10.0, Measure::speed, kUs), "22.4 mph");         // 10 / 0.44704 = 22.369
  EXPECT_EQ(quantity_text(0.061, Measure::line_mass, kUs), "4.1 lb/100 ft");  // 0.061 x 30.48 / 0.4535924
}

TEST(QuantityText, LeavesSecondsSharesAndArmSpansAloneInUsUnits) {
  for (const Measure measure : {Measure::duration, Measure::share, Measure::ratio, Measure::arm_spans}) {
    EXPECT_EQ(quantity_text(1.37, measure, kUs), quantity_text(1.37, measure, kMetric));
  }
}

TEST(QuantityText, NeverWritesMinusZero) {
  EXPECT_EQ(quantity_text(-0.0001, Measure::length, kMetric), "0.00 m");
  EXPECT_EQ(quantity_text(-0.0, Measure::force, kUs), "0 lbf");
  EXPECT_EQ(quantity_text(-0.006, Measure::length, kMetric), "-0.01 m");
}

TEST(QuantityText, WritesThreeFiguresOfARatio) {
  EXPECT_EQ(quantity_text(5.224, Measure::ratio, kMetric), "5.22");
  EXPECT_EQ(quantity_text(9.996, Measure::ratio, kMetric), "10.0");
  EXPECT_EQ(quantity_text(748.98, Measure::ratio, kMetric), "749");
}

TEST(QuantityText, PutsASignOnMargins) {
  EXPECT_EQ(signed_text(0.042, Measure::small_length, kMetric), "+42 mm");
  EXPECT_EQ(signed_text(-0.005, Measure::small_length, kMetric), "-5 mm");
}

TEST(QuantityText, SaysWordsWhereThereIsNoNumber) {
  EXPECT_EQ(quantity_or(std::nullopt, Measure::length, kMetric, "not known"), "not known");
  EXPECT_EQ(quantity_or(1.0, Measure::length, kMetric, "not known"), "1.00 m");
}

TEST(QuantityText, PrintsSmallValuesOfChecksInSmallUnits) {
  EXPECT_EQ(measure_of("m", 0.042, 0.0), Measure::small_length);
  EXPECT_EQ(measure_of("m", 0.042, 2.0), Measure::length);
  EXPECT_EQ(measure_of("N", 250.0, 300.0), Measure::small_force);
  EXPECT_EQ(measure_of("N", 250.0, 3000.0), Measure::force);
  EXPECT_EQ(measure_of("-", 5.0, 3.0), Measure::ratio);
}

}  // namespace
}  // namespace spanloom
