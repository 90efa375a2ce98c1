// Peaks of an averaged spectrum: which are real, where, and how sure.
#pragma once

#include <cstddef>
#include <vector>

#include "gauge/averaged_spectrum.h"

namespace spanloom {

struct FoundPeak {
  double frequency = 0.0;                ///< [Hz]
  double sd = 0.0;                       ///< [Hz]
  double power = 0.0;                    ///< [u2]
};

struct PeakOptions {
  double false_alarm = 0.01;             ///< of any peak in white noise [-]
  std::size_t most = 12;
};

/// Peaks above noise, strongest first. Not a peak: what a far stronger one has beside it through the window of the record
/// (gaps make it rough), and what does not stand out by half of itself from the valley towards a stronger one.
///
/// Standard deviation, of the frequency f at which the mean power P of the pieces k has its maximum:
///   noise    white noise carried through dP/df = 0 to first order; for one even sinusoid without taper this is
///            sqrt(6 / N) s / (pi T A) of Montgomery & O'Donoghue (1999), the Cramer-Rao bound (Rife & Boorstyn 1974);
///   scatter  how far the pieces pull f apart: sqrt(n / (n - 1) sum (dP_k/df)^2) / |P''|, widened by Student's t for as
///            many pieces as carry the peak; gusts and blows at their own times, and swings that change with their size;
///   width    the greater of both is taken together with 0.5 of what the peak is wider than that of a steady swing and 0.2
///            of a steady swing's width (half widths at half power, the latter 0.72 / length of a piece), over the root of
///            the number of looks. Where the peak lives in fewer than two looks, nothing tells a wide peak from several
///            blows: half of its half width is taken.
/// So one steady swing, one blow and records of few pieces are covered more often than 95 %; repeated blows and gusts in a
/// minute about so often.
/// @param values  as averaged_spectrum() had them
std::vector<FoundPeak> find_peaks(const AveragedSpectrum& spectrum, const Pieces& pieces, const std::vector<double>& values,
                                  const PeakOptions& options = {});

}  // namespace spanloom
