#include "base/same_everywhere.h"

#include <gtest/gtest.h>

#include <cmath>
#include <cstdint>
#include <cstring>
#include <numbers>

namespace spanloom {
namespace {

// Reference: the C library's long double functions, 64 bits of mantissa on x86-64.
TEST(SineOfTurns, IsTheLibrarysWithinItsStatedError) {
  for (int i = 0; i <= 200000; ++i) {
    const double turns = double(i) / 200000.0;
    const double expected = double(std::sin(2.0L * std::numbers::pi_v<long double> * (long double)turns));
    ASSERT_NEAR(sine_of_turns(turns), expected, 4e-16) << turns;
  }
}

TEST(SineOfTurns, IsExactAtQuarters) {
  EXPECT_EQ(sine_of_turns(0.0), 0.0);
  EXPECT_EQ(sine_of_turns(0.25), 1.0);
  EXPECT_EQ(sine_of_turns(0.5), 0.0);
  EXPECT_EQ(sine_of_turns(0.75), -1.0);
  EXPECT_EQ(sine_of_turns(1.0), 0.0);
}

// sin 1 to 23 decimals: Abramowitz & Stegun (1964), table 4.6, as remembered.
TEST(SineOfTurns, MatchesTheTableAtOneRadian) {
  EXPECT_NEAR(sine_of_turns(0.5 / std::numbers::pi), 0.84147098480789650665250, 4e-16);
}

TEST(ExpOfMinus, IsTheLibrarysWithinItsStatedError) {
  for (int i = 0; i <= 200000; ++i) {
    const double x = i < 100000 ? double(i) * 1e-5 : double(i - 100000) * 0.007;
    const double expected = double(std::exp(-(long double)x));
    ASSERT_NEAR(exp_of_minus(x) / expected, 1.0, 4e-16) << x;
  }
}

// e^-1 and e^-10: Abramowitz & Stegun (1964), tables 4.4, as remembered.
TEST(ExpOfMinus, MatchesTheTable) {
  EXPECT_EQ(exp_of_minus(0.0), 1.0);
  EXPECT_NEAR(exp_of_minus(1.0), 0.36787944117144232160, 1e-16);
  EXPECT_NEAR(exp_of_minus(10.0), 4.5399929762484851536e-05, 2e-20);
}

std::uint64_t bits(double value) {
  std::uint64_t out;
  std::memcpy(&out, &value, sizeof out);
  return out;
}

// The bits themselves: what a build for another machine must give too. The page's tests hold WebAssembly against these
// through whole shakes.
TEST(SameEverywhere, SumOfManyBitsIsThatOfEveryBuild) {
  std::uint64_t all = 0;
  for (int i = 0; i <= 1000; ++i) all = all * 31 + bits(sine_of_turns(i / 1000.0)) + bits(exp_of_minus(i / 100.0));
  EXPECT_EQ(all, 0xcda66474a4dcdfe1u);
}

}  // namespace
}  // namespace spanloom
