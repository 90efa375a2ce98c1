// Sideways response of a whole line at many frequencies at once, fast enough to search layouts with.
//
// Across their direction bars are springs T / l, so main and loops are chains of springs and masses. Of each, all
// nodes between two tapes are eliminated into the tapes, then the row of tapes is; several frequencies are worked on
// side by side. Nothing is taken for small: the answer is that of small motion about the standing line, exact.
//
// Frequencies are s = sigma + i w with sigma > 0. Not a damping: a history u(t) that starts at 0 has at s the
// Fourier transform of u(t) exp(-sigma t), so sums over s give u itself once multiplied by exp(sigma t) (exponential
// window; what wraps around a period P comes back smaller by exp(-sigma P)). And as K / s + s M then has a positive
// definite Hermitian part, eliminating in any order without interchanges is safe (George, Ikramov & Kucherov 2002,
// SIAM J. Matrix Anal. Appl. 23, 941-951, from memory: entries grow less than threefold).
#pragma once

#include <complex>
#include <cstddef>
#include <span>
#include <vector>

#include "base/lane.h"
#include "base/vec3.h"
#include "motion/motion_line.h"

namespace spanloom {

/// A line as its sideways motion sees it.
struct LateralLine {
  std::size_t main_nodes = 0;
  std::vector<double> spring;  ///< of each bar, T / l [N/m]; 0 for the bar that is none
  std::vector<double> mass;    ///< of each node, the backup's of a tie with the main's [kg]
  std::vector<char> held;      ///< 1: does not move
  std::vector<Tie> ties;       ///< rising
};

/// @throws InputError "places" where they do not fit the line or it does not hang in a plane y = const
LateralLine lateral_line(const MotionLine& line, const std::vector<Vec3>& places);

/// Rates at which a spectrum is taken.
struct LateralFrequencies {
  double sigma = 0.0;          ///< > 0 [rad/s]
  std::vector<double> omega;   ///< [rad/s]
  /// Drag on the loops: speed that the backup's nodes between tapes lose a second, as a share of their speed [1/s].
  /// It stands in for what snapping loops lose in large swings.
  double loop_drag = 0.0;
};

/// Complex numbers worked on side by side.
struct LaneComplex {
  static constexpr std::size_t kLanesEach = 2;      // measured: 1 waits for its divisions, 4 runs out of registers
  static constexpr std::size_t kWide = kLanesEach * kLanes;
  Lane re[kLanesEach], im[kLanesEach];

  std::complex<double> entry(std::size_t i) const {
    return {re[i / kLanes][i % kLanes], im[i / kLanes][i % kLanes]};
  }
};

/// Keeps its working memory: once it has seen a layout as large, taking another over allocates nothing.
class LateralSpectrum {
 public:
  /// @throws InputError "spectrum" where sigma is not above 0 or a frequency is not finite
  explicit LateralSpectrum(const LateralFrequencies& frequencies);

  /// Takes over a layout. @throws InputError "line" where its arrays do not fit each other, or a free node without
  /// mass has no taut bar on a side
  void take(const LateralLine& line);

  /// Solves for a unit force [N] at each of `driven`, one after the other.
  /// @param driven  nodes of the main
  /// @param asked   nodes of the main whose displacements are wanted besides; may be none
  /// @throws InputError "spectrum" where one is no node of the main
  void solve(std::span<const std::size_t> driven, std::span<const std::size_t> asked = {});

  std::size_t frequencies() const { return count_; }
  /// Displacement of the driven node itself under a unit force, at each frequency [m/N].
  std::complex<double> receptance(std::size_t drive, std::size_t frequency) const {
    return at(receptance_, drive, frequency);
  }
  /// Displacement of an asked node under a unit force at a driven one [m/N].
  std::complex<double> displacement(std::size_t drive, std::size_t ask, std::size_t frequency) const {
    return at(displacement_, drive * asked_ + ask, frequency);
  }

 private:
  // Frequencies worked on side by side.
  struct Run { std::size_t first, last; };          // nodes first <= i < last between two tapes
  struct Ends { LaneComplex near, cross, far; };    // what a bay adds to the tapes at its ends

  template <bool kKeep> void condense(const Run& run, const LaneComplex& s2, Ends& ends);
  void condense_all(std::size_t group);
  void push(std::size_t node);
  void move_bay(std::size_t bay);
  LaneComplex moved(std::size_t node);
  std::size_t tape_after(std::size_t node) const;
  bool is_tape(std::size_t node) const;
  std::complex<double> at(const std::vector<LaneComplex>& from, std::size_t row, std::size_t frequency) const {
    return from[row * s2_.size() + frequency / LaneComplex::kWide].entry(frequency % LaneComplex::kWide);
  }

  std::size_t count_ = 0;
  std::vector<LaneComplex> s2_, loop_s2_;           // s^2, in groups; of loops s^2 + drag s
  LateralLine line_;
  std::vector<double> before_;                      // spring before each node, and one after the last
  std::vector<Run> main_, loop_;                    // one a bay; ends that are not tapes lie in the outer bays
  std::size_t asked_ = 0;
  // For the group worked on now. Over nodes of the main:
  std::vector<LaneComplex> inverse_, carry_;        // of the pivot; its hold on the tape before it
  std::vector<LaneComplex> pushed_, moved_;         // force carried along the driven bay; displacement
  // Over bays and tapes, tape t between bays t and t + 1:
  std::vector<Ends> ends_;
  std::vector<LaneComplex> tape_inverse_, tape_;    // of the pivot; force on a tape, then its displacement
  std::vector<char> bay_kept_, bay_moved_;          // inverse_ and carry_ are wanted, moved_ holds for the bay
  // Over driven (and asked) nodes and groups:
  std::vector<LaneComplex> receptance_, displacement_;
};

}  // namespace spanloom
