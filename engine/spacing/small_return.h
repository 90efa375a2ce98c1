// Return of a shake in small motion: the measure of motion/shake.h without loss, air and snapping loops, from the
// sideways spectrum of a line, thousands of times a second.
//
// Notation as in motion/shake.h: t0 end of the shake, t_r round trip, W window. With s = sigma + i w_k and
// w_k = (k + 1/2) dw the displacement is u(t) = exp(sigma t) (dw / pi) Re sum_k H(s) F(s) exp(i w_k t), H from
// LateralSpectrum and F(s) = w (1 - exp(-s t0)) / (s^2 + w^2) of one sine cycle. What wraps around the period 2 pi / dw comes
// back smaller by exp(-sigma 2 pi / dw), and with its sign turned.
#pragma once

#include <complex>
#include <span>
#include <vector>

#include "motion/lateral_spectrum.h"

namespace spanloom {

struct SmallReturnOptions {
  std::vector<double> frequencies = {0.5, 0.8, 1.25, 2.0, 3.15, 4.0};  ///< of shakes [Hz]
  std::vector<double> places = {0.15, 0.5};                           ///< shares of the gap
  std::size_t watched = 14;               ///< places of the main that stand for all of it, at the most
  std::size_t early = 8, late = 12;       ///< instants in the two windows
  /// LateralFrequencies::loop_drag [1/s]. With 0.5 it goes best with full-size shakes below 1 Hz (docs/spacing.md).
  double loop_drag = 0.5;
  double highest = 9.0;                   ///< where the spectrum ends [Hz]: a cycle of 4 Hz has little beyond
};

/// Returns of one line: frequency by frequency within place by place.
struct SmallReturns {
  std::vector<double> each;
  double mean = 0.0, worst = 0.0;         ///< [-]
};

/// Keeps its working memory. One a thread.
class SmallReturn {
 public:
  /// @param round_trip  t_r, the same for all lines that are compared [s], > 0
  /// @throws InputError "round_trip" or "frequencies" where one is not above 0
  explicit SmallReturn(double round_trip, const SmallReturnOptions& options = {});

  /// @param line   standing, at these heights and places
  /// @param along  of its main nodes on the gap axis [m], rising
  /// @throws InputError as LateralSpectrum::take()
  const SmallReturns& judge(const LateralLine& line, std::span<const double> along);

 private:
  struct Instants { std::size_t first, early, late; };   // rows of synthesis_ of one frequency

  void choose_nodes(std::span<const double> along);
  double mean_square(std::size_t first, std::size_t count) const;

  SmallReturnOptions options_;
  LateralSpectrum spectrum_;
  std::size_t bins_ = 0;
  std::vector<Instants> instants_;
  std::vector<double> cosine_, sine_;     // instants by bins: of the real and the imaginary part of H
  std::vector<std::size_t> driven_, watched_;
  std::vector<double> share_;             // length of main that a watched node stands for
  std::vector<double> re_, im_;           // of H, watched nodes by bins, of the place worked on
  SmallReturns returns_;
};

}  // namespace spanloom
