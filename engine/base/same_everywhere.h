// Functions that give the same double natively and in WebAssembly.
//
// Libraries of mathematics differ in the last bit, and a line whose loops snap tight makes a tenth of it within a second.
// These are made of sums, products and one exact scaling, which IEEE 754 fixes, so that page and command shake one and the
// same line. (The statics still call hypot, pow and cbrt; they came out the same in every plan that was compared.)
#pragma once

namespace spanloom {

/// sin(2 pi turns). @param turns  in [0, 1] [-]
/// Absolute error below 4e-16. Taylor series about the nearest quarter turn (Abramowitz & Stegun 1964, 4.3.65 and 4.3.66).
double sine_of_turns(double turns);

/// exp(-x). @param x  in [0, 700] [-]
/// Relative error below 4e-16. Taylor series (Abramowitz & Stegun 1964, 4.2.1) after taking out powers of two.
double exp_of_minus(double x);

}  // namespace spanloom
