// Notation. lambda = w^2 [1/s2]; all vectors are mass-normalised, x M x = 1. `error` of a vector is the norm of
// K x - lambda M x with every entry over the root of its mass: an eigenvalue lies within it (Weinstein's bound).
#include "motion/small_motion.h"

#include <algorithm>
#include <cmath>
#include <numbers>
#include <random>
#include <string>
#include <utility>

#include <Eigen/Core>
#include <Eigen/Eigenvalues>

#include "base/input_error.h"
#include "motion/band_factor.h"

namespace spanloom {
namespace {

constexpr double kRounding = std::numeric_limits<double>::epsilon();
constexpr double kNarrow = 1e-10;       // of lambda: intervals are not halved below this
constexpr double kClose = 1e-3;         // of lambda: shapes of modes this close are made straight together
constexpr double kApart = 1e6;          // errors: and so are those less apart than this
constexpr double kExact = 1e-12;        // of lambda: error at which a mode is done
constexpr double kRoundings = 16.0;     // error at which a mode is done, in roundings of the forces that balance
constexpr double kCertain = 1e-9;       // of lambda: error that is let pass besides
constexpr int kRefinements = 8;
constexpr int kCloseSolves = 4;

struct Found {
  std::vector<double> x;
  double lambda = 0.0, error = 0.0;
  double forces = 0.0;                  // |K| |x| in the norm of `error`: what its rounding is measured by

  double rounding() const { return kRoundings * kRounding * forces; }
  bool exact() const { return error <= std::max(kExact * lambda, rounding()); }
  bool certain() const { return error <= std::max(kCertain * lambda, rounding()); }
};

// An interval of lambda too narrow to halve, with the modes in it.
struct Narrow { double low, high; std::size_t count; };

class ModeSearch {
 public:
  explicit ModeSearch(const MotionPencil& pencil) : p_(pencil), factor_(pencil.unknowns, pencil.half) {
    double stiffness = 0.0, mass = 0.0, least = std::numeric_limits<double>::infinity();
    for (std::size_t i = 0; i < p_.unknowns; ++i) {
      stiffness += p_.row(i)[p_.half];
      mass += p_.mass[i];
      if (p_.mass[i] > 0.0) least = std::min(least, p_.mass[i]), ++heavy_;
    }
    mean_ = mass > 0.0 ? stiffness / mass : 0.0;
    weight_ = p_.mass;
    for (double& m : weight_) m = m > 0.0 ? m : least;
  }

  std::size_t below(double lambda) {
    return factor_.factor([&](std::size_t r, double* row) {
      const std::size_t width = 2 * p_.half + 1;
      std::copy(p_.row(r), p_.row(r) + width, row);
      row[p_.half] -= lambda * p_.mass[r];
    });
  }

  // All modes below lambda_most, or the slowest `most`. @return whether none is missing and each is good
  bool find(double lambda_most, std::size_t most) {
    if (heavy_ == 0) return true;
    double high = std::min(lambda_most, std::max(kFirstGuess * mean_, kSlowest));
    std::size_t count = below(high);
    while (high < lambda_most && count < std::min(most, heavy_)) {
      high = std::min(lambda_most, 4.0 * high);
      count = below(high);
    }
    most_ = std::min(most, count);
    // Bars pull, so no lambda is below 0 but by rounding.
    slice(-std::max(kClose * high, 64.0 * floor()), high, 0, count);
    take_narrow();
    straighten();
    const bool all = found.size() >= most_;
    if (all) found.resize(most_);
    return all && std::all_of(found.begin(), found.end(), [](const Found& f) { return f.certain(); });
  }

  std::vector<Found> found;

 private:
  static constexpr double kFirstGuess = 1e-6;  // of stiffness over mass
  static constexpr double kSlowest = 1e-12;    // [1/s2], where all is slack

  // What rounding alone moves lambda by.
  double floor() const { return kRoundings * kRounding * std::max(mean_, kSlowest); }

  // Modes number `before` to `until` lie between low and high.
  void slice(double low, double high, std::size_t before, std::size_t until) {
    if (before == until || before >= most_) return;
    if (until - before == 1 && refine(low, high)) return;
    if (high - low <= std::max(kNarrow * high, floor())) {
      narrow_.push_back({low, high, until - before});
      return;
    }
    const double middle = 0.5 * (low + high);
    const std::size_t at = std::clamp(below(middle), before, until);
    slice(low, middle, before, at);
    slice(middle, high, at, until);
  }

  // Rayleigh quotient iteration on the one mode between low and high. @return false if it strays or does not settle
  bool refine(double low, double high) {
    Found f{random_vector()};
    double shift = 0.5 * (low + high);
    for (int i = 0; i < kRefinements; ++i) {
      below(shift);
      solve(f.x);
      if (i == 0) solve(f.x);  // the random start needs one more
      if (!measure(f)) return false;
      const bool inside = f.lambda - f.error > low && f.lambda + f.error < high;
      if (inside && f.exact()) {
        found.push_back(std::move(f));
        return true;
      }
      if (f.lambda > low && f.lambda < high) shift = f.lambda;
      else if (i > 1) return false;
    }
    return false;
  }

  // Modes that halving could not part: as many vectors of their common space, by inverse iteration.
  void take_narrow() {
    std::vector<Found> group;
    for (std::size_t k = 0; k < narrow_.size(); ++k) {
      const Narrow& n = narrow_[k];
      // Neighbours across a cut belong together: their spaces are mixed.
      const bool joins = k > 0 && n.low - narrow_[k - 1].high <= 10.0 * (n.high - n.low);
      if (!joins) keep(group);
      below(0.5 * (n.low + n.high));
      for (std::size_t i = 0; i < n.count; ++i) {
        Found f{random_vector()};
        for (int step = 0; step < kCloseSolves; ++step) {
          solve(f.x);
          normalise(f.x);
          make_orthogonal(f.x, group);
        }
        group.push_back(std::move(f));
      }
    }
    keep(group);
  }

  void keep(std::vector<Found>& group) {
    for (Found& f : group) {
      if (measure(f)) found.push_back(std::move(f));
    }
    group.clear();
  }

  // Turns the vectors of modes that lie close so that each belongs to one mode (Rayleigh and Ritz).
  void straighten() {
    std::sort(found.begin(), found.end(), [](const Found& a, const Found& b) { return a.lambda < b.lambda; });
    for (std::size_t first = 0, end; first < found.size(); first = end) {
      for (end = first + 1; end < found.size(); ++end) {
        const double gap = found[end].lambda - found[end - 1].lambda;
        if (gap > std::max(kClose * found[end].lambda, kApart * (found[end - 1].error + found[end].error))) break;
      }
      if (end - first > 1) straighten(first, end);
    }
  }

  void straighten(std::size_t first, std::size_t end) {
    const Eigen::Index n = Eigen::Index(p_.unknowns), m = Eigen::Index(end - first);
    Eigen::MatrixXd x(n, m), kx(n, m);
    std::vector<Found> group;
    for (Eigen::Index j = 0; j < m; ++j) {
      Found f = found[first + std::size_t(j)];
      make_orthogonal(f.x, group);
      x.col(j) = Eigen::Map<const Eigen::VectorXd>(f.x.data(), n);
      multiply(f.x);
      kx.col(j) = Eigen::Map<const Eigen::VectorXd>(kx_.data(), n);
      group.push_back(std::move(f));
    }
    Eigen::MatrixXd small = x.transpose() * kx;
    small = 0.5 * (small + small.transpose()).eval();
    const Eigen::SelfAdjointEigenSolver<Eigen::MatrixXd> solver(small);
    x = x * solver.eigenvectors();
    for (Eigen::Index j = 0; j < m; ++j) {
      Found& f = found[first + std::size_t(j)];
      Eigen::Map<Eigen::VectorXd>(f.x.data(), n) = x.col(j);
      measure(f);
    }
  }

  // x <- (K - shift M)^-1 M x
  void solve(std::vector<double>& x) const {
    for (std::size_t i = 0; i < x.size(); ++i) x[i] *= p_.mass[i];
    factor_.solve(x.data());
  }

  double product(const std::vector<double>& a, const std::vector<double>& b) const {
    double sum = 0.0;
    for (std::size_t i = 0; i < a.size(); ++i) sum += a[i] * p_.mass[i] * b[i];
    return sum;
  }

  void normalise(std::vector<double>& x) const {
    double greatest = 0.0;  // first, as a nearly singular solve may overflow its squares
    for (double v : x) greatest = std::max(greatest, std::abs(v));
    if (!(greatest > 0.0)) return;
    for (double& v : x) v /= greatest;
    const double scale = 1.0 / std::sqrt(product(x, x));
    for (double& v : x) v *= scale;
  }

  // Twice, as once leaves rounding where little is left.
  void make_orthogonal(std::vector<double>& x, const std::vector<Found>& to) const {
    for (int pass = 0; pass < 2; ++pass) {
      for (const Found& f : to) {
        const double share = product(f.x, x);
        for (std::size_t i = 0; i < x.size(); ++i) x[i] -= share * f.x[i];
      }
      normalise(x);
    }
  }

  // kx_ = K x and sizes_ = |K| |x|
  void multiply(const std::vector<double>& x) {
    const std::size_t n = p_.unknowns, h = p_.half;
    kx_.assign(n, 0.0);
    sizes_.assign(n, 0.0);
    for (std::size_t r = 0; r < n; ++r) {
      for (std::size_t c = r > h ? r - h : 0; c < std::min(n, r + h + 1); ++c) {
        const double term = p_.row(r)[c + h - r] * x[c];
        kx_[r] += term;
        sizes_[r] += std::abs(term);
      }
    }
  }

  // @return false where the vector is no longer one
  bool measure(Found& f) {
    normalise(f.x);
    multiply(f.x);
    f.lambda = 0.0;
    for (std::size_t i = 0; i < f.x.size(); ++i) f.lambda += f.x[i] * kx_[i];
    double error = 0.0, forces = 0.0;
    for (std::size_t i = 0; i < f.x.size(); ++i) {
      const double miss = kx_[i] - f.lambda * p_.mass[i] * f.x[i];
      error += miss * miss / weight_[i];
      forces += sizes_[i] * sizes_[i] / weight_[i];
    }
    f.error = std::sqrt(error);
    f.forces = std::sqrt(forces);
    return std::isfinite(f.error) && std::isfinite(f.lambda);
  }

  // Made by hand: a library's distribution may differ from another's.
  std::vector<double> random_vector() {
    std::vector<double> x(p_.unknowns);
    for (double& v : x) v = double(random_() >> 11) * 0x1p-52 - 1.0;
    return x;
  }

  const MotionPencil& p_;
  BandFactor<double> factor_;
  std::vector<double> weight_;          // mass of each unknown, where it has none the least there is
  std::size_t heavy_ = 0, most_ = 0;    // unknowns with mass; modes asked for
  double mean_ = 0.0;                   // all stiffness over all mass
  std::vector<Narrow> narrow_;
  std::vector<double> kx_, sizes_;
  std::mt19937_64 random_{1};
};

Mode mode_of(const Found& f, const MotionPencil& pencil) {
  Mode mode;
  mode.frequency = std::sqrt(std::max(f.lambda, 0.0)) / (2.0 * std::numbers::pi);
  mode.residual = f.lambda > f.rounding() ? f.error / f.lambda : f.error / std::max(f.forces, f.error + 1e-300);
  for (const std::ptrdiff_t slot : pencil.slot) {
    double u[3] = {};
    for (std::size_t a = 0; slot >= 0 && a < pencil.axes.size(); ++a) u[pencil.axes[a]] = f.x[std::size_t(slot) + a];
    mode.shape.push_back({u[0], u[1], u[2]});
  }
  return mode;
}

double squared(double frequency) {
  const double w = 2.0 * std::numbers::pi * frequency;
  return w * w;
}

}  // namespace

Modes natural_modes(const MotionLine& line, const std::vector<Vec3>& places, Swing swing, const ModeRange& range) {
  const bool endless = std::isinf(range.below_Hz) && range.most == std::numeric_limits<std::size_t>::max();
  if (!(range.below_Hz > 0.0) || range.most == 0 || endless) {
    throw InputError("modes", std::to_string(range.below_Hz) + " Hz", "a frequency above 0 Hz, or how many modes",
                     "say how far to look");
  }
  const MotionPencil pencil = motion_pencil(line, places, swing);
  ModeSearch search(pencil);
  Modes modes;
  modes.certified = search.find(squared(range.below_Hz), range.most);
  for (const Found& f : search.found) modes.modes.push_back(mode_of(f, pencil));
  return modes;
}

std::size_t count_modes_below(const MotionLine& line, const std::vector<Vec3>& places, Swing swing, double frequency) {
  if (!std::isfinite(frequency) || frequency < 0.0) {
    throw InputError("modes", std::to_string(frequency) + " Hz", "a finite frequency of 0 Hz or more");
  }
  const MotionPencil pencil = motion_pencil(line, places, swing);
  return ModeSearch(pencil).below(squared(frequency));
}

}  // namespace spanloom
