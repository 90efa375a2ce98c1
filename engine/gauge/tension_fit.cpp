#include "gauge/tension_fit.h"

#include <algorithm>
#include <cmath>
#include <limits>

#include <Eigen/Dense>

namespace spanloom {
namespace {

using Matrix = Eigen::MatrixXd;
using Vector = Eigen::VectorXd;

/// A table between its tensions.
class Between {
 public:
  Between(const ForetoldTable& table, double x) : table_(table) {
    const std::vector<double>& at = table.log_tension;
    const double step = at[1] - at[0];
    const double place = std::clamp((x - at[0]) / step, 1.0, double(at.size()) - 2.0 - 1e-9);
    first_ = std::size_t(place) - 1;
    const double t = place - std::floor(place);
    weight_ = {0.5 * t * (-1.0 + t * (2.0 - t)), 1.0 + 0.5 * t * t * (-5.0 + 3.0 * t), 0.5 * t * (1.0 + t * (4.0 - 3.0 * t)),
               0.5 * t * t * (t - 1.0)};
    rise_ = {0.5 * (-1.0 + t * (4.0 - 3.0 * t)) / step, 0.5 * t * (-10.0 + 9.0 * t) / step,
             0.5 * (1.0 + t * (8.0 - 9.0 * t)) / step, 0.5 * t * (3.0 * t - 2.0) / step};
  }

  /// Empty where one of the four values around is not there.
  std::optional<double> value(std::size_t row) const { return sum(row, weight_); }
  std::optional<double> rise(std::size_t row) const { return sum(row, rise_); }
  double slope(std::size_t row, std::size_t unsure) const {
    if (table_.slope.empty()) return 0.0;
    double total = 0.0;
    for (std::size_t k = 0; k < 4; ++k) total += weight_[k] * table_.slope[row][first_ + k][unsure];
    return total;
  }

 private:
  std::optional<double> sum(std::size_t row, const std::array<double, 4>& weights) const {
    double total = 0.0;
    for (std::size_t k = 0; k < 4; ++k) {
      const std::optional<double>& value = table_.value[row][first_ + k];
      if (!value) return std::nullopt;
      total += weights[k] * *value;
    }
    return total;
  }

  const ForetoldTable& table_;
  std::size_t first_ = 0;
  std::array<double, 4> weight_{}, rise_{};
};

struct Linear {
  Matrix jacobian;             // rows used, then priors; columns ln T, unsure
  Vector left;                 // what is left, weighted
  std::vector<std::size_t> row;  // of each of the first
};

Linear linear_at(const ForetoldTable& table, const std::vector<TensionRow>& rows, const std::vector<char>& used, double x,
                 const Unsure& off) {
  const Between at(table, x);
  Linear out;
  for (std::size_t i = 0; i < rows.size(); ++i) {
    if (used[i] && at.value(i)) out.row.push_back(i);
  }
  const auto n = Eigen::Index(out.row.size());
  out.jacobian = Matrix::Zero(n + Eigen::Index(kUnsure), 1 + Eigen::Index(kUnsure));
  out.left = Vector::Zero(n + Eigen::Index(kUnsure));
  for (Eigen::Index r = 0; r < n; ++r) {
    const std::size_t i = out.row[std::size_t(r)];
    double foretold = *at.value(i);
    out.jacobian(r, 0) = *at.rise(i) / rows[i].sd;
    for (std::size_t u = 0; u < kUnsure; ++u) {
      foretold += at.slope(i, u) * off[u];
      out.jacobian(r, 1 + Eigen::Index(u)) = at.slope(i, u) / rows[i].sd;
    }
    out.left(r) = (rows[i].read - foretold) / rows[i].sd;
  }
  for (std::size_t u = 0; u < kUnsure; ++u) {
    out.jacobian(n + Eigen::Index(u), 1 + Eigen::Index(u)) = 1.0;
    out.left(n + Eigen::Index(u)) = -off[u];
  }
  return out;
}

// At one tension, the rest is linear: its best, and what is left then.
struct Profile { double misfit = std::numeric_limits<double>::infinity(); Unsure off{}; };

Profile profile_at(const ForetoldTable& table, const std::vector<TensionRow>& rows, const std::vector<char>& used, double x) {
  const Linear line = linear_at(table, rows, used, x, {});
  if (line.row.empty()) return {};
  const Matrix unsure = line.jacobian.rightCols(Eigen::Index(kUnsure));
  const Vector off = (unsure.transpose() * unsure).ldlt().solve(unsure.transpose() * line.left);
  Profile out;
  out.misfit = (line.left - unsure * off).squaredNorm();
  // A row that foretells nothing here does not make the tension better.
  const auto wanted = std::size_t(std::count(used.begin(), used.end(), char(1)));
  out.misfit += 9.0 * double(wanted - line.row.size());
  for (std::size_t u = 0; u < kUnsure; ++u) out.off[u] = off(Eigen::Index(u));
  return out;
}

double golden_minimum(double low, double high, const auto& misfit) {
  constexpr double kGolden = 0.6180339887498949;
  double a = high - kGolden * (high - low), b = low + kGolden * (high - low), fa = misfit(a), fb = misfit(b);
  for (int i = 0; i < 60 && high - low > 1e-9; ++i) {
    if (fa < fb) {
      high = b, b = a, fb = fa, a = high - kGolden * (high - low), fa = misfit(a);
    } else {
      low = a, a = b, fa = fb, b = low + kGolden * (high - low), fb = misfit(b);
    }
  }
  return 0.5 * (low + high);
}

using Guesses = std::vector<std::optional<double>>;

// One tension of a table. @param guess  of each row, where a peak was at the tension before
void fill(const LineHanger& hanger, const Rig& rig, const std::vector<TensionRow>& rows, const Unsure& sds, Slopes slopes,
          std::size_t k, const Guesses& guess, const std::vector<char>& asked, ForetoldTable& table) {
  const double tension = std::exp(table.log_tension[k]);
  const auto read = [&](const Unsure& off, const Guesses& near) {
    Guesses all(rows.size());
    const std::optional<HungLine> hung = hanger.hang(state_at(rig, tension, sds, off));
    for (std::size_t i = 0; hung && i < rows.size(); ++i) {
      if (!asked.empty() && !asked[i]) continue;
      all[i] = slopes == Slopes::wanted ? foretold(*hung, rows[i], near[i]) : guessed(*hung, rows[i]);
    }
    return all;
  };
  const Guesses here = read({}, guess);
  for (std::size_t i = 0; i < rows.size(); ++i) table.value[i][k] = here[i];
  if (slopes == Slopes::left_out) return;
  constexpr std::size_t kOfTheLine = 3;  // mass, stretch and gap; the last is of how it is read
  for (std::size_t i = 0; i < rows.size(); ++i) {
    if (rows[i].method == GaugeMethod::spectrum) table.slope[i][k][kOfTheLine] = sds[kOfTheLine] * here[i].value_or(0.0);
  }
  for (std::size_t u = 0; u < kOfTheLine; ++u) {
    if (sds[u] == 0.0) continue;
    Unsure off{};
    off[u] = 0.5;
    const Guesses moved = read(off, here);
    for (std::size_t i = 0; i < rows.size(); ++i) {
      if (here[i] && moved[i]) table.slope[i][k][u] = (*moved[i] - *here[i]) / off[u];
    }
  }
}

}  // namespace

Unsure prior_sds(const GaugePrior& prior) {
  return {prior.mass_sd.value, prior.stretch_sd.value, prior.gap_sd.value, kPeaksShift};
}

HungState state_at(const Rig& rig, double tension, const Unsure& sds, const Unsure& off) {
  return {tension, 1.0 + sds[0] * off[0], 1.0 + sds[1] * off[1], rig.site.gap + sds[2] * off[2]};
}

ForetoldTable foretell(const LineHanger& hanger, const Rig& rig, const std::vector<TensionRow>& rows, const Unsure& sds,
                       double from, double to, std::size_t count, Slopes slopes, const std::vector<char>& asked) {
  ForetoldTable table;
  table.value.assign(rows.size(), std::vector<std::optional<double>>(count));
  if (slopes == Slopes::wanted) table.slope.assign(rows.size(), std::vector<Unsure>(count, Unsure{}));
  for (std::size_t k = 0; k < count; ++k) {
    table.log_tension.push_back(std::log(from) + (std::log(to) - std::log(from)) * double(k) / double(count - 1));
  }
  // Peaks are followed from the middle out, each from where it was at the tension before: the nearest one elsewhere may be
  // another. Without slopes the whole range is looked over, and the nearest is the one.
  const std::size_t middle = count / 2;
  for (std::size_t n = 0; n < count; ++n) {
    const std::size_t k = n <= count - 1 - middle ? middle + n : count - 1 - n;
    const std::size_t before = k > middle ? k - 1 : k + 1;
    Guesses guess(rows.size());
    for (std::size_t i = 0; slopes == Slopes::wanted && n > 0 && i < rows.size(); ++i) guess[i] = table.value[i][before];
    fill(hanger, rig, rows, sds, slopes, k, guess, asked, table);
  }
  return table;
}

std::optional<TensionFit> fit_tension(const ForetoldTable& table, const std::vector<TensionRow>& rows,
                                      const std::vector<char>& used) {
  constexpr int kPerStep = 4;        // looks between two tensions of the table
  constexpr double kNearlyAsWell = 4.0;
  const double low = table.log_tension[1], high = table.log_tension[table.log_tension.size() - 2];
  const int looks = kPerStep * (int(table.log_tension.size()) - 3);
  const auto x_of = [&](int look) { return low + (high - low) * look / looks; };
  const auto misfit = [&](double x) { return profile_at(table, rows, used, x).misfit; };
  std::vector<double> seen;
  for (int i = 0; i <= looks; ++i) seen.push_back(misfit(x_of(i)));
  const int best = int(std::min_element(seen.begin(), seen.end()) - seen.begin());
  if (!std::isfinite(seen[std::size_t(best)])) return std::nullopt;

  TensionFit fit;
  fit.at_the_edge = best == 0 || best == looks;
  const double x = golden_minimum(x_of(std::max(best - 1, 0)), x_of(std::min(best + 1, looks)), misfit);
  const Profile at = profile_at(table, rows, used, x);
  const Linear line = linear_at(table, rows, used, x, at.off);
  if (line.row.empty() || !(line.jacobian.col(0).squaredNorm() > 0.0)) return std::nullopt;
  const Matrix covariance = (line.jacobian.transpose() * line.jacobian).inverse();
  fit.tension = std::exp(x);
  fit.log_sd = std::sqrt(covariance(0, 0));
  fit.sd = fit.tension * fit.log_sd;
  fit.off = at.off;
  fit.misfit = at.misfit;
  if (!std::isfinite(fit.sd)) return std::nullopt;
  fit.fitted.assign(rows.size(), std::nullopt);
  fit.off_others.assign(rows.size(), 0.0);
  const Between between(table, x);
  for (std::size_t i = 0; i < rows.size(); ++i) {
    fit.fitted[i] = between.value(i);
    for (std::size_t u = 0; fit.fitted[i] && u < kUnsure; ++u) *fit.fitted[i] += between.slope(i, u) * fit.off[u];
  }
  for (std::size_t r = 0; r < line.row.size(); ++r) {
    const auto row = line.jacobian.row(Eigen::Index(r));
    const double lever = (row * covariance * row.transpose())(0, 0);
    const double left = line.left(Eigen::Index(r));
    fit.off_others[line.row[r]] = left / std::sqrt(std::max(1.0 - lever, 1e-12));
  }
  // Alone, nothing else foretells it: off is then what the fit itself misses it by.
  if (line.row.size() == 1) fit.off_others[line.row[0]] = line.left(0);

  for (int i = 1; i < looks; ++i) {
    const double here = seen[std::size_t(i)];
    const bool dip = here < seen[std::size_t(i) - 1] && here <= seen[std::size_t(i) + 1];
    if (!dip || std::abs(x_of(i) - x) < std::max(3.0 * fit.log_sd, 0.05) || here > fit.misfit + kNearlyAsWell) continue;
    if (!fit.other) fit.other = std::exp(x_of(i));
  }
  return fit;
}

}  // namespace spanloom
