#include "gauge/spectrum.h"

#include <algorithm>
#include <cmath>
#include <utility>

#include <fmt/format.h>

#include "base/input_error.h"
#include "gauge/averaged_spectrum.h"
#include "gauge/device_axes.h"
#include "gauge/spectrum_peaks.h"

namespace spanloom {
namespace {

constexpr double kBelowNyquist = 0.8;    // how near to half the sampling rate we look [-]
constexpr double kFinerThanPiece = 8.0;  // frequencies in 1 / length of a piece [-]
constexpr double kLowestTurns = 4.0;     // in a piece: below, trend and taper have their say [-]

void check(const std::vector<Acceleration>& record, const SpectrumOptions& options) {
  if (!(options.highest > 0.0)) throw InputError("spectrum.highest", fmt::format("{:g} Hz", options.highest), "above 0 Hz");
  if (options.device_up && !(is_finite(*options.device_up) && norm(*options.device_up) > 0.0)) {
    throw InputError("spectrum.device_up", "a direction of no length", "a direction in the axes of the device");
  }
  for (std::size_t i = 0; i < record.size(); ++i) {
    const Acceleration& row = record[i];
    const std::string key = fmt::format("record[{}]", i);
    if (!is_finite({row.x, row.y, row.z}) || !std::isfinite(row.time)) throw InputError(key, "no number", "finite numbers");
    if (i > 0 && !(row.time > record[i - 1].time)) {
      throw InputError(key + ".time", fmt::format("{:g} s", row.time), fmt::format("more than {:g} s, the row before", record[i - 1].time));
    }
  }
}

struct Times { std::vector<double> time; double duration, spacing, longest_gap; };

Times times_of(const std::vector<Acceleration>& record) {
  std::vector<double> time, apart;
  for (const Acceleration& row : record) time.push_back(row.time);
  for (std::size_t i = 1; i < time.size(); ++i) apart.push_back(time[i] - time[i - 1]);
  const double longest = *std::max_element(apart.begin(), apart.end());
  const auto middle = apart.begin() + std::ptrdiff_t(apart.size() / 2);
  std::nth_element(apart.begin(), middle, apart.end());
  const double duration = time.back() - time.front();
  return {std::move(time), duration, *middle, longest};
}

struct Found { WaySpectrum way; std::vector<FoundPeak> peaks; std::vector<double> above_noise; };

Found look(SwingWay way, const Pieces& pieces, const std::vector<double>& motion, const FrequencyGrid& grid, double spacing,
           const SpectrumOptions& options) {
  const AveragedSpectrum spectrum = averaged_spectrum(pieces, motion, grid);
  Found out{{way, {}, {}, {}}, find_peaks(spectrum, pieces, motion, {options.false_alarm, options.most_peaks}), {}};
  for (std::size_t i = 0; i < grid.count; ++i) {
    out.way.frequency.push_back(grid.at(i));
    out.way.density.push_back(2.0 * spacing * spectrum.power[i]);
    out.way.noise.push_back(2.0 * spacing * spectrum.noise[i]);
  }
  for (const FoundPeak& peak : out.peaks) {
    const auto i = std::min(std::size_t(std::lround((peak.frequency - grid.first) / grid.step)), grid.count - 1);
    out.above_noise.push_back(peak.power / spectrum.noise[i]);
  }
  return out;
}

// The device rolls with the main, so some of one way shows in the other: what is there far weaker at the same frequency
// is taken out.
std::size_t drop_shine_through(Found& weak, const Found& strong) {
  constexpr double kFarWeaker = 0.01;    // of the power: a roll of 0.1 rad [-]
  std::size_t kept = 0;
  for (std::size_t i = 0; i < weak.peaks.size(); ++i) {
    const FoundPeak& peak = weak.peaks[i];
    const bool shines = std::any_of(strong.peaks.begin(), strong.peaks.end(), [&](const FoundPeak& s) {
      return peak.power < kFarWeaker * s.power && std::abs(peak.frequency - s.frequency) < 2.0 * std::hypot(peak.sd, s.sd);
    });
    if (shines) continue;
    weak.peaks[kept] = peak;
    weak.above_noise[kept++] = weak.above_noise[i];
  }
  const std::size_t dropped = weak.peaks.size() - kept;
  weak.peaks.resize(kept);
  weak.above_noise.resize(kept);
  return dropped;
}

std::vector<SpectrumPeak> strongest_first(const std::vector<Found>& ways) {
  std::vector<std::pair<double, SpectrumPeak>> all;
  for (const Found& found : ways) {
    for (std::size_t i = 0; i < found.peaks.size(); ++i) {
      all.push_back({found.above_noise[i], {found.way.way, found.peaks[i].frequency, found.peaks[i].sd}});
    }
  }
  std::stable_sort(all.begin(), all.end(), [](const auto& a, const auto& b) { return a.first > b.first; });
  std::vector<SpectrumPeak> peaks;
  for (const auto& [above, peak] : all) peaks.push_back(peak);
  return peaks;
}

// A main that swings sideways pulls harder at both ends of a swing: upwards it then moves at twice the frequency.
void note_twice(const std::vector<SpectrumPeak>& peaks, std::vector<std::string>& notes) {
  for (const SpectrumPeak& up : peaks) {
    for (const SpectrumPeak& side : peaks) {
      const double off = std::abs(up.frequency - 2.0 * side.frequency);
      if (up.way != SwingWay::up || side.way != SwingWay::sideways || off > 2.0 * std::hypot(up.sd, 2.0 * side.sd)) continue;
      notes.push_back(fmt::format("The upward {:.2f} Hz is twice the sideways {:.2f} Hz and may be its pull on the main only.",
                                  up.frequency, side.frequency));
    }
  }
}

std::vector<std::string> notes_of(const RecordSpectrum& out, const DeviceMotion& motion, std::size_t dropped, double highest) {
  constexpr double kSure = 0.75;
  std::vector<std::string> notes;
  notes.push_back(fmt::format("{:.1f} s long, {:.0f} rows a second, longest gap {:.2f} s.", out.reading.duration, out.sampling,
                              out.longest_gap));
  if (motion.has_gravity) notes.push_back(fmt::format("Gravity found: {:.2f} m/s2; it tells which way is up.", motion.mean));
  else notes.push_back("The record holds no gravity; up is as was said.");
  const double percent = 100.0 * motion.sideways_share;
  notes.push_back(fmt::format("Of the level motion {:.0f} % goes one way, taken as across the line.", percent));
  if (motion.sideways_share < kSure) {
    notes.push_back("That is little: which way is sideways is not sure. Shake the line sideways while you record.");
  }
  if (dropped > 0) notes.push_back(fmt::format("{} far weaker peaks at the frequency of one of the other way were left out.", dropped));
  if (highest > 0.0) {
    notes.push_back(fmt::format("So few rows a second show nothing above {:.1f} Hz, and what is faster may show lower.", highest));
  }
  note_twice(out.reading.peaks, notes);
  return notes;
}

std::string unfit(std::size_t rows, double duration) {
  if (rows < kLeastRows) return fmt::format("the record has {} rows, too few: at least {}", rows, kLeastRows);
  if (duration < kLeastRecord) {
    return fmt::format("the record is {:.1f} s long, too short: record for at least {:.0f} s", duration, kLeastRecord);
  }
  if (duration > kMostRecord) return "the record is longer than a day: is the unit of the time right?";
  return {};
}

// All that is left is rounding.
bool stands_still(const DeviceMotion& motion) {
  constexpr double kRounding = 1e-9;     // [m/s2]
  const auto none = [](double a) { return std::abs(a) < kRounding; };
  const auto all = [&](const std::vector<double>& moved) { return std::all_of(moved.begin(), moved.end(), none); };
  return all(motion.moved_up) && all(motion.moved_sideways);
}

}  // namespace

SpectrumOutcome spectrum_of(const std::vector<Acceleration>& record, double at, const SpectrumOptions& options) {
  check(record, options);
  const double whole = record.empty() ? 0.0 : record.back().time - record.front().time;
  if (const std::string why = unfit(record.size(), whole); !why.empty()) return {std::nullopt, why};
  const Times times = times_of(record);
  const double seen = kBelowNyquist * 0.5 / times.spacing, highest = std::min(options.highest, seen);
  const Pieces pieces = cut_into_pieces(times.time, times.spacing);
  if (pieces.pieces.empty()) return {std::nullopt, "most of the record is missing: nowhere is a stretch of it whole"};
  const double step = 1.0 / (kFinerThanPiece * pieces.length), first = kLowestTurns / pieces.length;
  if (highest < 2.0 * first) {
    return {std::nullopt, fmt::format("{:.1f} rows a second show nothing but slow swings: sample faster", 1.0 / times.spacing)};
  }
  DeviceMotionOutcome device = device_motion(record, options.device_up);
  if (!device.motion) return {std::nullopt, device.why};
  const DeviceMotion& motion = *device.motion;
  if (stands_still(motion)) return {std::nullopt, "nothing moves in the record: is the device on the line, and its file whole?"};
  const FrequencyGrid grid{first, step, std::size_t((highest - first) / step) + 1};
  std::vector<Found> ways;
  ways.push_back(look(SwingWay::sideways, pieces, motion.moved_sideways, grid, times.spacing, options));
  ways.push_back(look(SwingWay::up, pieces, motion.moved_up, grid, times.spacing, options));
  std::size_t dropped = drop_shine_through(ways[0], ways[1]);
  dropped += drop_shine_through(ways[1], ways[0]);

  RecordSpectrum out;
  out.reading = {at, times.duration, pieces.length, strongest_first(ways)};
  for (Found& found : ways) out.ways.push_back(std::move(found.way));
  out.sampling = 1.0 / times.spacing;
  out.longest_gap = times.longest_gap;
  out.gravity = motion.has_gravity ? motion.mean : 0.0;
  out.sideways_share = motion.sideways_share;
  out.notes = notes_of(out, motion, dropped, seen < options.highest ? seen : 0.0);
  return {std::move(out), {}};
}

}  // namespace spanloom
