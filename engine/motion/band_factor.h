// A symmetric band matrix taken apart by rows, with interchanges.
//
// Each row is cleared against the rows before it in turn; where the row's own entry is the greater one, the two
// change places first. The leading minors keep their signs apart from the interchanges, so a real matrix also
// tells how many of its eigenvalues lie below 0. Unlike an elimination without interchanges this stays
// exact to rounding where a part of the matrix is singular by itself, as a loop at its own frequency is.
// Source: Peters & Wilkinson (1969), Comput. J. 12, 398-404, for A - s B with band A and B.
#pragma once

#include <algorithm>
#include <cmath>
#include <complex>
#include <cstddef>
#include <limits>
#include <vector>

namespace spanloom {

/// @tparam Scalar  double or std::complex<double>
template <class Scalar>
class BandFactor {
 public:
  /// @param half  entries of a row on either side of its diagonal
  BandFactor(std::size_t rows, std::size_t half)
      : rows_(rows), half_(half), width_(2 * half + 1), upper_(rows * width_), times_(rows * half),
        swapped_(rows * half), row_(width_) {}

  /// Takes a matrix apart. @param fill  fill(r, row) writes columns r - half .. r + half of row r
  /// @return eigenvalues below 0, for a real matrix
  template <class Fill>
  std::size_t factor(Fill fill) {
    std::size_t below = 0;
    for (std::size_t r = 0; r < rows_; ++r) {
      fill(r, row_.data());
      const double scale = largest(row_.data());
      bool turned = false;  // sign of this leading minor against the one before
      for (std::size_t i = r > half_ ? r - half_ : 0; i < r; ++i) turned ^= clear(r, i);
      // A pivot of nothing stands for one too small to tell.
      if (row_[half_] == Scalar(0.0)) row_[half_] = Scalar(scale > 0.0 ? kRounding * scale : kRounding);
      Scalar* upper = &upper_[r * width_];
      std::copy(row_.begin() + std::ptrdiff_t(half_), row_.end(), upper);
      std::fill(upper + half_ + 1, upper + width_, Scalar(0.0));
      turned ^= negative(upper[0]);
      below += turned ? 1 : 0;
    }
    return below;
  }

  /// Solves in place with the matrix last taken apart.
  void solve(Scalar* x) const {
    for (std::size_t r = 0; r < rows_; ++r) {
      for (std::size_t i = r > half_ ? r - half_ : 0; i < r; ++i) {
        const std::size_t at = r * half_ + (i + half_ - r);
        if (swapped_[at]) std::swap(x[r], x[i]);
        x[r] -= times_[at] * x[i];
      }
    }
    for (std::size_t r = rows_; r-- > 0;) {
      const Scalar* upper = &upper_[r * width_];
      const std::size_t last = std::min(width_, rows_ - r);
      for (std::size_t j = 1; j < last; ++j) x[r] -= upper[j] * x[r + j];
      x[r] /= upper[0];
    }
  }

 private:
  static constexpr double kRounding = std::numeric_limits<double>::epsilon();

  static double size(double a) { return std::abs(a); }
  static double size(const std::complex<double>& a) { return std::abs(a.real()) + std::abs(a.imag()); }
  static bool negative(double a) { return a < 0.0; }
  static bool negative(const std::complex<double>&) { return false; }  // not asked for

  double largest(const Scalar* row) const {
    double most = 0.0;
    for (std::size_t j = 0; j < width_; ++j) most = std::max(most, size(row[j]));
    return most;
  }

  // Clears column i of row r. @return whether the sign of the minor turned by an interchange
  bool clear(std::size_t r, std::size_t i) {
    const std::size_t at = r * half_ + (i + half_ - r), skip = i + half_ - r, count = width_ - skip;
    Scalar* row = row_.data() + skip;
    Scalar* upper = &upper_[i * width_];
    swapped_[at] = size(row[0]) > size(upper[0]);
    bool turned = false;
    if (swapped_[at]) {
      turned = negative(row[0]) == negative(upper[0]);
      std::swap_ranges(row, row + count, upper);
    }
    const Scalar times = row[0] / upper[0];
    times_[at] = times;
    if (times != Scalar(0.0)) {
      for (std::size_t j = 1; j < count; ++j) row[j] -= times * upper[j];
    }
    return turned;
  }

  std::size_t rows_, half_, width_;
  std::vector<Scalar> upper_;   // width_ a row: from the diagonal on
  std::vector<Scalar> times_;   // half_ a row
  std::vector<char> swapped_;
  std::vector<Scalar> row_;
};

}  // namespace spanloom
