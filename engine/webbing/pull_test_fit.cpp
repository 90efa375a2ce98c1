#include "webbing/pull_test_fit.h"

#include <algorithm>
#include <cmath>

#include "base/input_error.h"

namespace spanloom {
namespace {

// Neighbouring readings that have been given one tension.
struct Block {
  double tension;
  double weight;
  std::size_t count;
};

/// Fits the tensions of a growing set of points.
class Fitter {
 public:
  explicit Fitter(std::span<const FitReading> readings) : readings_(readings), isotonic_(isotonic_tensions(readings)) {
    if (readings_.size() < kFewestReadings || !(isotonic_.back() > 0.0) || !rises()) {
      throw InputError("", "a loading whose tension does not rise with the stretch", "tension that rises with the stretch",
                       "look whether the columns are swapped or the marks have slipped");
    }
    greatest_ = isotonic_.back();
  }

  RisingFit fit() {
    start();
    double miss = per_freedom(relax());
    while (points_.size() < kMostCurvePoints && rms_from(isotonic_) > kNearEnough * greatest_) {
      const std::vector<CurvePoint> before = points_;
      if (!add_point()) break;
      const double nearer = per_freedom(relax());
      if (nearer > (1.0 - kWorthAPoint) * miss) {
        points_ = before;
        break;
      }
      miss = nearer;
    }
    return {points_, rms_from(isotonic_)};
  }

 private:
  static constexpr double kNearEnough = 0.0005;  // rms from the isotonic regression, of the greatest tension
  static constexpr double kWorthAPoint = 0.01;   // what a point must take off the residual per degree of freedom
  static constexpr double kLeastRise = 1e-3;     // between two points, of the greatest tension
  static constexpr std::size_t kFirstPoints = 3;
  static constexpr std::size_t kFewestReadings = 4;

  std::vector<double> measured() const {
    std::vector<double> tensions;
    for (const FitReading& reading : readings_) tensions.push_back(reading.tension);
    return tensions;
  }

  void start() {
    const std::size_t n = readings_.size();
    for (std::size_t k = 1; k <= kFirstPoints; ++k) insert(readings_[k * n / kFirstPoints - 1].stretch);
  }

  // Nothing that rises lies near readings of which rising leaves half of the spread.
  bool rises() const {
    double sum = 0.0, weight = 0.0, square = 0.0, unexplained = 0.0;
    for (const FitReading& r : readings_) sum += r.weight * r.tension, weight += r.weight;
    for (std::size_t i = 0; i < readings_.size(); ++i) {
      const FitReading& r = readings_[i];
      square += r.weight * (r.tension - sum / weight) * (r.tension - sum / weight);
      unexplained += r.weight * (r.tension - isotonic_[i]) * (r.tension - isotonic_[i]);
    }
    return unexplained < 0.25 * square;
  }

  // The isotonic regression where the readings are, straight lines between; from the origin to the first.
  double isotonic_at(double stretch) const {
    double from_e = 0.0, from_t = 0.0;
    for (std::size_t i = 0; i < readings_.size(); ++i) {
      const double e = readings_[i].stretch;
      if (stretch <= e) return e > from_e ? std::lerp(from_t, isotonic_[i], (stretch - from_e) / (e - from_e)) : isotonic_[i];
      from_e = e;
      from_t = isotonic_[i];
    }
    return isotonic_.back();
  }

  /// Adds a point on the isotonic regression, kept rising. @return false if there is no room between its neighbours
  bool insert(double stretch) {
    const auto next = std::upper_bound(points_.begin(), points_.end(), stretch,
                                       [](double e, const CurvePoint& p) { return e < p.stretch; });
    const CurvePoint below = next == points_.begin() ? CurvePoint{0.0, 0.0} : *(next - 1);
    const double low = below.tension + kLeastRise * greatest_;
    const double high = next == points_.end() ? INFINITY : next->tension - kLeastRise * greatest_;
    if (!(low <= high) || !(stretch > below.stretch)) return false;
    points_.insert(next, {std::clamp(isotonic_at(stretch), low, high), stretch});
    return true;
  }

  // In the middle of the span whose readings add most to the square of the distance from the isotonic regression.
  bool add_point() {
    const StretchCurve curve = StretchCurve::from_points(points_);
    double worst = 0.0, at = 0.0;
    std::size_t i = 0;
    for (const CurvePoint& point : points_) {
      const std::size_t from = i;
      double sum = 0.0;
      for (; i < readings_.size() && readings_[i].stretch <= point.stretch; ++i) {
        const double miss = curve.tension(readings_[i].stretch) - isotonic_[i];
        sum += readings_[i].weight * miss * miss;
      }
      if (i - from < 2 || sum <= worst) continue;
      worst = sum;
      at = readings_[(from + i - 1) / 2].stretch;
    }
    return worst > 0.0 && insert(at);
  }

  // A curve of as many points as readings always fits: the square root of squares / (readings - points).
  double per_freedom(double rms) const {
    double readings = 0.0;
    for (const FitReading& reading : readings_) readings += reading.weight;
    const double left = readings - static_cast<double>(points_.size());
    return left > 0.0 ? rms * std::sqrt(readings / left) : INFINITY;
  }

  double rms_from(const std::vector<double>& tensions) const {
    const StretchCurve curve = StretchCurve::from_points(points_);
    double sum = 0.0, weight = 0.0;
    for (std::size_t i = 0; i < readings_.size(); ++i) {
      const double miss = curve.tension(readings_[i].stretch) - tensions[i];
      sum += readings_[i].weight * miss * miss;
      weight += readings_[i].weight;
    }
    return std::sqrt(sum / weight);
  }

  /// Moves one tension after the other to the bottom of the parabola of its squares, round after round.
  /// @return the rms of the readings [N]
  double relax() {
    constexpr int kRounds = 60;
    constexpr double kSettled = 1e-5;
    const std::vector<double> tensions = measured();
    double miss = rms_from(tensions);
    for (int round = 0; round < kRounds; ++round) {
      const double before = miss;
      for (std::size_t k = 0; k < points_.size(); ++k) miss = move(k, miss, tensions);
      if (before - miss <= kSettled * before) break;
    }
    return miss;
  }

  double move(std::size_t k, double miss, const std::vector<double>& tensions) {
    const double gap = kLeastRise * greatest_, step = 0.2 * gap;
    const double here = points_[k].tension;
    const double low = (k == 0 ? 0.0 : points_[k - 1].tension) + gap;
    const double high = k + 1 == points_.size() ? INFINITY : points_[k + 1].tension - gap;
    const auto square_at = [&](double tension) {
      points_[k].tension = tension;
      const double rms = rms_from(tensions);
      return rms * rms;
    };
    const double centre = miss * miss, up = square_at(here + step), down = square_at(here - step);
    const double curvature = up - 2.0 * centre + down;
    const double wanted = curvature > 0.0 ? here - 0.5 * step * (up - down) / curvature : here;
    const double to = low <= high ? std::clamp(wanted, low, high) : here;
    const double moved = square_at(to);
    if (moved < centre) return std::sqrt(moved);
    points_[k].tension = here;
    return miss;
  }

  std::span<const FitReading> readings_;
  std::vector<double> isotonic_;
  std::vector<CurvePoint> points_;
  double greatest_ = 0.0;  // tension [N]
};

}  // namespace

std::vector<double> isotonic_tensions(std::span<const FitReading> readings) {
  std::vector<Block> blocks;
  for (const FitReading& reading : readings) {
    blocks.push_back({reading.tension, reading.weight, 1});
    while (blocks.size() > 1 && blocks[blocks.size() - 2].tension >= blocks.back().tension) {
      const Block last = blocks.back();
      blocks.pop_back();
      Block& into = blocks.back();
      into.tension = (into.weight * into.tension + last.weight * last.tension) / (into.weight + last.weight);
      into.weight += last.weight;
      into.count += last.count;
    }
  }
  std::vector<double> tensions;
  for (const Block& block : blocks) tensions.insert(tensions.end(), block.count, block.tension);
  return tensions;
}

std::vector<FitReading> binned(std::vector<FitReading> readings, std::size_t bins) {
  std::sort(readings.begin(), readings.end(),
            [](const FitReading& a, const FitReading& b) { return a.stretch < b.stretch; });
  if (readings.empty()) return readings;
  const double from = readings.front().stretch, width = (readings.back().stretch - from) / static_cast<double>(bins);
  std::vector<FitReading> means;
  double last = -1.0;  // step of the mean that is being made
  for (const FitReading& reading : readings) {
    const double step = width > 0.0 ? std::min(std::floor((reading.stretch - from) / width), double(bins - 1)) : 0.0;
    if (step != last) {
      means.push_back(reading);
      last = step;
      continue;
    }
    FitReading& mean = means.back();
    const double share = reading.weight / (mean.weight + reading.weight);
    mean.stretch = std::lerp(mean.stretch, reading.stretch, share);
    mean.tension = std::lerp(mean.tension, reading.tension, share);
    mean.weight += reading.weight;
  }
  return means;
}

std::vector<CurvePoint> in_five_figures(std::vector<CurvePoint> points) {
  if (points.empty()) return points;
  // Dividing by a whole number gives the very double that the decimal is read as.
  const auto rounded = [](double value, double greatest) {
    const double parts = std::pow(10.0, 4.0 - std::floor(std::log10(greatest)));
    return parts >= 1.0 ? std::round(value * parts) / parts : std::round(value);
  };
  const CurvePoint last = points.back();
  for (CurvePoint& p : points) p = {rounded(p.tension, last.tension), rounded(p.stretch, last.stretch)};
  return points;
}

RisingFit fit_rising_curve(std::span<const FitReading> readings) { return Fitter(readings).fit(); }

}  // namespace spanloom
