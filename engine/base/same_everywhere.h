// Functions that give the same double on every machine.
//
// Libraries of mathematics differ in the last bit, WebAssembly's from the native one too, and a line whose loops snap tight
// makes a tenth of it within a second. These are made of sums, products and one exact scaling, which are the same
// everywhere, so that the page and the command shake one and the same line.
#pragma once

namespace spanloom {

/// sin(2 pi turns). @param turns  in [0, 1] [-]
/// Absolute error below 4e-16. Taylor series about the nearest quarter turn (Abramowitz & Stegun 1964, 4.3.65 and 4.3.66).
double sine_of_turns(double turns);

/// exp(-x). @param x  in [0, 700] [-]
/// Relative error below 4e-16. Taylor series (Abramowitz & Stegun 1964, 4.2.1) after taking out powers of two.
double exp_of_minus(double x);

}  // namespace spanloom
