#include "base/same_everywhere.h"

#include <cassert>
#include <cmath>
#include <numbers>

namespace spanloom {
namespace {

constexpr int kTerms = 10;   // the next of each series is below 1e-18 of the whole

/// 1 - s/(k (k+1)) (1 - s/((k+2) (k+3)) ...): x times it with k = 2 is sin x, itself with k = 1 is cos x, s = x^2.
double alternating(double squared, int k) {
  double sum = 1.0;
  for (int term = kTerms - 1; term >= 0; --term) {
    const double a = k + 2 * term;
    sum = 1.0 - squared / (a * (a + 1.0)) * sum;
  }
  return sum;
}

}  // namespace

double sine_of_turns(double turns) {
  assert(turns >= 0.0 && turns <= 1.0);
  const double quarters = std::floor(4.0 * turns + 0.5);
  const double x = 2.0 * std::numbers::pi * (turns - 0.25 * quarters);  // the difference is exact
  const double sine = x * alternating(x * x, 2), cosine = alternating(x * x, 1);
  switch (int(quarters) % 4) {
    case 0: return sine;
    case 1: return cosine;
    case 2: return -sine;
    default: return -cosine;
  }
}

double exp_of_minus(double x) {
  assert(x >= 0.0 && x <= 700.0);
  // ln 2 in two parts, the first short enough that its multiples are exact.
  constexpr double kHigh = 0x1.62e42feep-1, kLow = 0x1.a39ef35793c76p-33;
  const double halvings = std::floor(x / std::numbers::ln2 + 0.5);
  const double rest = (x - halvings * kHigh) - halvings * kLow;
  double sum = 1.0;
  for (int k = 16; k >= 1; --k) sum = 1.0 - rest / k * sum;
  return std::ldexp(sum, -int(halvings));
}

}  // namespace spanloom
