#include "spacing/small_return.h"

#include <algorithm>
#include <cmath>
#include <numbers>

#include "base/input_error.h"

namespace spanloom {
namespace {

constexpr double kPi = std::numbers::pi;
constexpr double kPeriods = 1.25;      // of the spectrum over the last instant
constexpr double kWrap = 4.0;          // what wraps around is smaller by exp(-kWrap)

double end_of(double frequency, double round_trip) {
  return 1.0 / frequency + 2.0 * round_trip + std::max(round_trip, 1.0 / frequency);
}

double period_of(double round_trip, const SmallReturnOptions& options) {
  if (!(round_trip > 0.0) || !std::isfinite(round_trip)) throw InputError("round_trip", std::to_string(round_trip), "a time above 0 s");
  double last = 0.0;
  for (const double frequency : options.frequencies) {
    if (!(frequency > 0.0) || !std::isfinite(frequency)) throw InputError("frequencies", std::to_string(frequency), "frequencies above 0 Hz");
    last = std::max(last, end_of(frequency, round_trip));
  }
  if (!(last > 0.0)) throw InputError("frequencies", "none", "at least one frequency");
  return kPeriods * last;
}

LateralFrequencies spectrum_of(double round_trip, const SmallReturnOptions& options) {
  const double period = period_of(round_trip, options);
  LateralFrequencies frequencies{kWrap / period, {}, options.loop_drag};
  const auto count = std::size_t(std::ceil(options.highest * period));
  for (std::size_t k = 0; k < count; ++k) frequencies.omega.push_back(2.0 * kPi * (double(k) + 0.5) / period);
  return frequencies;
}

}  // namespace

SmallReturn::SmallReturn(double round_trip, const SmallReturnOptions& options)
    : options_(options), spectrum_(spectrum_of(round_trip, options)) {
  const LateralFrequencies frequencies = spectrum_of(round_trip, options);
  bins_ = frequencies.omega.size();
  for (const double f : options.frequencies) {
    const double omega = 2.0 * kPi * f, t0 = 1.0 / f, window = std::max(round_trip, t0);
    instants_.push_back({cosine_.size() / bins_, options.early, options.late});
    const auto add = [&](double t) {
      for (const double w : frequencies.omega) {
        const std::complex<double> s{frequencies.sigma, w};
        const std::complex<double> force = omega * (1.0 - std::exp(-s * t0)) / (s * s + omega * omega);
        const std::complex<double> of_h = force * std::exp(s * t);
        cosine_.push_back(of_h.real());
        sine_.push_back(-of_h.imag());
      }
    };
    for (std::size_t i = 0; i < options.early; ++i) add(t0 * (double(i) + 0.5) / double(options.early));
    for (std::size_t i = 0; i < options.late; ++i) add(t0 + 2.0 * round_trip + window * (double(i) + 0.5) / double(options.late));
  }
}

void SmallReturn::choose_nodes(std::span<const double> along) {
  const auto nearest = [&](double x) {
    const auto above = std::lower_bound(along.begin() + 1, along.end() - 2, x);
    const bool lower = above != along.begin() + 1 && x - *(above - 1) < *above - x;
    return std::size_t(above - along.begin()) - (lower ? 1 : 0);
  };
  const double from = along.front(), gap = along.back() - from;
  driven_.clear();
  for (const double place : options_.places) driven_.push_back(nearest(from + place * gap));
  watched_.clear();
  for (std::size_t i = 0; i < options_.watched; ++i) {
    const std::size_t node = nearest(from + gap * (double(i) + 0.5) / double(options_.watched));
    if (watched_.empty() || watched_.back() != node) watched_.push_back(node);
  }
  share_.assign(watched_.size(), 0.0);
  for (std::size_t i = 0; i < watched_.size(); ++i) {
    const double low = i == 0 ? along.front() : 0.5 * (along[watched_[i - 1]] + along[watched_[i]]);
    const double high = i + 1 == watched_.size() ? along.back() : 0.5 * (along[watched_[i]] + along[watched_[i + 1]]);
    share_[i] = high - low;
  }
}

double SmallReturn::mean_square(std::size_t first, std::size_t count) const {
  double sum = 0.0;
  for (std::size_t row = first; row < first + count; ++row) {
    const double *const c = &cosine_[row * bins_], *const s = &sine_[row * bins_];
    for (std::size_t x = 0; x < watched_.size(); ++x) {
      const double *const re = &re_[x * bins_], *const im = &im_[x * bins_];
      Lane moved{};
      std::size_t k = 0;
      for (; k + kLanes <= bins_; k += kLanes) moved += load_lane(c + k) * load_lane(re + k) + load_lane(s + k) * load_lane(im + k);
      double u = spanloom::sum(moved);
      for (; k < bins_; ++k) u += c[k] * re[k] + s[k] * im[k];
      sum += share_[x] * u * u;
    }
  }
  return sum / double(count);
}

const SmallReturns& SmallReturn::judge(const LateralLine& line, std::span<const double> along) {
  choose_nodes(along);
  spectrum_.take(line);
  spectrum_.solve(driven_, watched_);
  returns_.each.clear();
  returns_.mean = returns_.worst = 0.0;
  re_.resize(watched_.size() * bins_);
  im_.resize(watched_.size() * bins_);
  for (std::size_t place = 0; place < driven_.size(); ++place) {
    for (std::size_t x = 0; x < watched_.size(); ++x) {
      for (std::size_t k = 0; k < bins_; ++k) {
        const std::complex<double> h = spectrum_.displacement(place, x, k);
        re_[x * bins_ + k] = h.real(), im_[x * bins_ + k] = h.imag();
      }
    }
    for (const Instants& at : instants_) {
      const double sent = mean_square(at.first, at.early), late = mean_square(at.first + at.early, at.late);
      returns_.each.push_back(sent > 0.0 ? std::sqrt(late / sent) : 0.0);
    }
  }
  for (const double r : returns_.each) {
    returns_.mean += r / double(returns_.each.size());
    returns_.worst = std::max(returns_.worst, r);
  }
  return returns_;
}

}  // namespace spanloom
