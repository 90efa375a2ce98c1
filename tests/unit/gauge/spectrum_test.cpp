#include "gauge/spectrum.h"

#include <algorithm>
#include <cmath>
#include <functional>

#include <gtest/gtest.h>

#include "base/input_error.h"
#include "gauge/averaged_spectrum.h"
#include "gauge/spectrum_peaks.h"
#include "invented_record.h"

namespace spanloom {
namespace {

using fixture::even;
using fixture::normal;
using fixture::record_of;
using fixture::times_of;
using fixture::wave;

struct Heard { Vec3 angles{}; double gravity = kGravity; double jitter = 0.3; double noise = 0.1; double duration = 60.0; };

// Swings sideways at 2.31 Hz and 4.7 Hz, up at 3.18 Hz.
Vec3 two_and_one(double t) {
  return {0.02 * wave(2.31, t), 1.0 * wave(2.31, t) + 0.5 * wave(4.7, t), 0.8 * wave(3.18, t)};
}

std::vector<Acceleration> heard(const Heard& how) {
  auto random = random_stream(11, 1);
  const std::vector<double> times = times_of(how.duration, 50.0, how.jitter, random);
  return record_of(times, two_and_one, how.noise, random, how.angles, how.gravity);
}

RecordSpectrum spectrum(const std::vector<Acceleration>& record, const SpectrumOptions& options = {}) {
  SpectrumOutcome outcome = spectrum_of(record, 4.0, options);
  EXPECT_TRUE(outcome.spectrum) << outcome.why;
  return outcome.spectrum.value_or(RecordSpectrum{});
}

std::vector<SpectrumPeak> peaks(const RecordSpectrum& of, SwingWay way) {
  std::vector<SpectrumPeak> out;
  for (const SpectrumPeak& p : of.reading.peaks) if (p.way == way) out.push_back(p);
  return out;
}

void expect_two_and_one(const RecordSpectrum& found) {
  const auto sideways = peaks(found, SwingWay::sideways), up = peaks(found, SwingWay::up);
  ASSERT_EQ(sideways.size(), 2u);
  ASSERT_EQ(up.size(), 1u);
  EXPECT_NEAR(sideways[0].frequency, 2.31, sideways[0].sd);
  EXPECT_NEAR(sideways[1].frequency, 4.7, sideways[1].sd);
  EXPECT_NEAR(up[0].frequency, 3.18, up[0].sd);
  for (const SpectrumPeak& p : found.reading.peaks) EXPECT_LT(p.sd, 0.01);
}

std::string all_notes(const RecordSpectrum& of) {
  std::string all;
  for (const std::string& note : of.notes) all += note + '\n';
  return all;
}

TEST(Spectrum, FindsSteadySwingsWithinTheirStandardDeviation) { expect_two_and_one(spectrum(heard({}))); }

TEST(Spectrum, IsTheSameForEvenAndUnevenTimes) { expect_two_and_one(spectrum(heard({.jitter = 0.0}))); }

TEST(Spectrum, IsTheSameHoweverTheDeviceLies) {
  for (const Vec3& angles : {Vec3{0.4, 1.1, -0.7}, Vec3{2.0, -2.5, 0.3}, Vec3{0.0, 1.5708, 0.0}}) {
    const RecordSpectrum found = spectrum(heard({.angles = angles}));
    expect_two_and_one(found);
    EXPECT_NEAR(found.gravity, kGravity, 0.01);
    EXPECT_GT(found.sideways_share, 0.9);
  }
}

TEST(Spectrum, FindsThroughGapsWhatItFindsWithout) {
  std::vector<Acceleration> record = heard({});
  std::erase_if(record, [](const Acceleration& a) { return std::fmod(a.time, 7.0) < 0.8 || (a.time > 31.0 && a.time < 35.0); });
  const RecordSpectrum found = spectrum(record);
  expect_two_and_one(found);
  EXPECT_GT(found.longest_gap, 4.0);
}

TEST(Spectrum, TakesASlowTiltForNoSwing) {
  std::vector<Acceleration> record = heard({});
  for (Acceleration& a : record) a.y += 0.3 * std::pow(a.time / 60.0, 2), a.x += 0.01 * a.time;
  expect_two_and_one(spectrum(record));
}

TEST(Spectrum, DoesNotGuessUpWhereGravityIsTakenOut) {
  const std::vector<Acceleration> record = heard({.gravity = 0.0});
  const SpectrumOutcome outcome = spectrum_of(record, 4.0);
  EXPECT_FALSE(outcome.spectrum);
  EXPECT_NE(outcome.why.find("which way is up"), std::string::npos) << outcome.why;
  SpectrumOptions told;
  told.device_up = Vec3{0.0, 0.0, 2.0};
  const RecordSpectrum found = spectrum(record, told);
  expect_two_and_one(found);
  EXPECT_EQ(found.gravity, 0.0);
}

TEST(Spectrum, AsksForUnitsWhereTheMeanIsNoGravity) {
  const SpectrumOutcome outcome = spectrum_of(heard({.gravity = 1.0}), 4.0);   // g taken for m/s2
  EXPECT_FALSE(outcome.spectrum);
  EXPECT_NE(outcome.why.find("units"), std::string::npos) << outcome.why;
}

TEST(Spectrum, SaysWhatItFound) {
  const std::string notes = all_notes(spectrum(heard({})));
  EXPECT_NE(notes.find("60.0 s long, 50 rows a second"), std::string::npos) << notes;
  EXPECT_NE(notes.find("Gravity found: 9.81 m/s2"), std::string::npos) << notes;
}

TEST(Spectrum, SaysWhereSidewaysIsNotSure) {
  auto random = random_stream(11, 2);
  const auto round = [](double t) { return Vec3{wave(2.0, t), wave(2.0, t + 0.125), 0.0}; };
  const std::string notes = all_notes(spectrum(record_of(times_of(30.0, 50.0, 0.0, random), round, 0.1, random)));
  EXPECT_NE(notes.find("not sure"), std::string::npos) << notes;
}

TEST(Spectrum, LooksNoHigherThanRowsAllow) {
  auto random = random_stream(11, 3);
  const RecordSpectrum found = spectrum(record_of(times_of(60.0, 12.0, 0.0, random), two_and_one, 0.1, random));
  for (const WaySpectrum& way : found.ways) EXPECT_LE(way.frequency.back(), 0.8 * 6.0 + 1e-9);
  EXPECT_NE(all_notes(found).find("nothing above 4.8 Hz"), std::string::npos) << all_notes(found);
}

TEST(Spectrum, TakesWhatShinesThroughForNoSwingOfItsOwn) {
  auto random = random_stream(11, 4);
  const auto felt = [](double t) { return Vec3{0.0, 2.0 * wave(1.7, t), 0.1 * wave(1.7, t) + 0.3 * wave(3.4, t)}; };
  const RecordSpectrum found = spectrum(record_of(times_of(60.0, 50.0, 0.2, random), felt, 0.05, random));
  const auto up = peaks(found, SwingWay::up);
  ASSERT_EQ(up.size(), 1u);
  EXPECT_NEAR(up[0].frequency, 3.4, 0.02);
  EXPECT_NE(all_notes(found).find("3.40 Hz is twice the sideways 1.70 Hz"), std::string::npos) << all_notes(found);
}

TEST(Spectrum, RefusesWhatIsTooShort) {
  EXPECT_NE(spectrum_of({}, 4.0).why.find("too few"), std::string::npos);
  EXPECT_NE(spectrum_of(heard({.duration = 8.0}), 4.0).why.find("too short"), std::string::npos);
}

TEST(Spectrum, SaysWhereNothingMoves) {
  std::vector<Acceleration> record;
  for (int i = 0; i < 1000; ++i) record.push_back({0.02 * i, 0.1, 0.2, 9.8});
  const SpectrumOutcome outcome = spectrum_of(record, 4.0);
  EXPECT_FALSE(outcome.spectrum);
  EXPECT_NE(outcome.why.find("nothing moves"), std::string::npos) << outcome.why;
}

TEST(Spectrum, ThrowsWhereTimesDoNotRise) {
  std::vector<Acceleration> record = heard({});
  record[5].time = record[4].time;
  try {
    (void)spectrum_of(record, 4.0);
    ADD_FAILURE();
  } catch (const InputError& error) {
    EXPECT_EQ(error.problems()[0].key, "record[5].time");
  }
}

constexpr double kRate = 25.0;           // [Hz]

// What one series holds, as each way of a record is looked at.
std::vector<FoundPeak> peaks_in(const std::vector<double>& time, const std::vector<double>& values) {
  const Pieces pieces = cut_into_pieces(time, 1.0 / kRate);
  const double first = 4.0 / pieces.length, step = 1.0 / (8.0 * pieces.length);
  return find_peaks(averaged_spectrum(pieces, values, {first, step, std::size_t((6.0 - first) / step)}), pieces, values);
}

std::vector<double> series(const std::vector<double>& time, double noise, std::mt19937_64& random,
                           const std::function<double(double)>& moved) {
  std::vector<double> out;
  for (const double t : time) out.push_back(moved(t) + noise * normal(random));
  return out;
}

// Asked for: a peak in 1 of 100. 3.5 % would be five standard deviations above that in 400 seeds.
TEST(SpectrumPeaks, AreSeldomInWhiteNoise) {
  for (const double duration : {20.0, 60.0}) {
    int alarms = 0;
    for (std::uint64_t seed = 0; seed < 400; ++seed) {
      auto random = random_stream(21, seed);
      const std::vector<double> time = times_of(duration, kRate, 0.3, random);
      alarms += !peaks_in(time, series(time, 1.0, random, [](double) { return 0.0; })).empty();
    }
    EXPECT_LE(alarms, 14) << duration;
  }
}

// 1 / length of a piece is 0.067 Hz. Three of them apart, windows are as good as separate.
TEST(SpectrumPeaks, TellTwoSwingsThreeStepsApart) {
  auto random = random_stream(22, 1);
  const std::vector<double> time = times_of(60.0, kRate, 0.3, random);
  const auto found = peaks_in(time, series(time, 0.2, random, [](double t) { return wave(2.0, t) + 0.8 * wave(2.2, t + 0.1); }));
  ASSERT_EQ(found.size(), 2u);
  EXPECT_NEAR(found[0].frequency, 2.0, 2.0 * found[0].sd);
  EXPECT_NEAR(found[1].frequency, 2.2, 2.0 * found[1].sd);
}

TEST(SpectrumPeaks, AreNotTheSideLobesOfGaps) {
  auto random = random_stream(22, 2);
  std::vector<double> time = times_of(60.0, kRate, 0.3, random);
  std::erase_if(time, [](double t) { return std::fmod(t, 2.0) < 0.6; });      // side lobes every 0.5 Hz
  EXPECT_EQ(peaks_in(time, series(time, 0.01, random, [](double t) { return wave(3.0, t); })).size(), 1u);
}

struct Covered { double share = 0.0; int found = 0; };

// Of 500 records, how often the true frequency lies within 1.96 sd of the strongest peak.
template <class Make>
Covered coverage(double duration, double noise, std::uint64_t seed, Make make) {
  int found = 0, inside = 0;
  for (std::uint64_t trial = 0; trial < 500; ++trial) {
    auto random = random_stream(seed, trial);
    const double frequency = 1.5 + even(random);
    const std::vector<double> time = times_of(duration, kRate, 0.3, random);
    const auto moved = make(frequency, random);
    const auto peaks = peaks_in(time, series(time, noise, random, moved));
    if (peaks.empty()) continue;
    ++found;
    inside += std::abs(peaks[0].frequency - frequency) < 1.96 * peaks[0].sd;
  }
  return {double(inside) / std::max(found, 1), found};
}

// Blows at times of their own, each dying away within seconds: what gusts and a crew do.
auto blows(double every, double decay, double duration) {
  return [=](double frequency, std::mt19937_64& random) -> std::function<double(double)> {
    struct Blow { double time, size, phase; };
    std::vector<Blow> list;
    for (double t = -3.0 * decay; t < duration; t -= every * std::log(even(random))) list.push_back({t, 0.3 + even(random), even(random)});
    return [=](double t) {
      double sum = 0.0;
      for (const Blow& b : list) {
        if (t > b.time) sum += b.size * std::exp((b.time - t) / decay) * wave(frequency, t - b.time + b.phase / frequency);
      }
      return sum;
    };
  };
}

TEST(SpectrumPeaks, AreCoveredByTheirIntervalUnderRepeatedBlows) {
  for (const auto& make : {blows(5.0, 3.0, 60.0), blows(3.0, 1.5, 60.0)}) {
    const Covered covered = coverage(60.0, 0.1, 41, make);   // not the seed that the shares of the rule were chosen on
    EXPECT_GE(covered.share, 0.90);
    EXPECT_LE(covered.share, 0.99);
    EXPECT_GE(covered.found, 450);
  }
}

// So few pieces say little of their scatter, so the interval is wide.
TEST(SpectrumPeaks, AreCoveredAtLeastSoOftenInAShortRecord) {
  const Covered covered = coverage(20.0, 0.1, 31, blows(5.0, 3.0, 20.0));
  EXPECT_GE(covered.share, 0.95);
  EXPECT_GE(covered.found, 450);
}

TEST(SpectrumPeaks, AreCoveredAtLeastSoOftenAfterOneBlow) {
  const auto one = [](double frequency, std::mt19937_64& random) -> std::function<double(double)> {
    const double phase = even(random);
    return [=](double t) { return t < 1.0 ? 0.0 : std::exp((1.0 - t) / 3.0) * wave(frequency, t + phase); };
  };
  const Covered covered = coverage(20.0, 0.2, 32, one);
  EXPECT_GE(covered.share, 0.95);
  EXPECT_GE(covered.found, 450);
}

// White noise and an even sinusoid: error of the top against sqrt(6 / N) s / (pi T A), Montgomery & O'Donoghue (1999),
// the Cramer-Rao bound of Rife & Boorstyn (1974), from memory. A mean of tapered pieces throws away what ties their phases
// together, so it cannot reach the bound of the whole record, nor may its standard deviation claim to.
TEST(SpectrumPeaks, AreNoSurerThanTheCramerRaoBound) {
  double square = 0.0, least_sd = 1.0;
  constexpr int kTrials = 300;
  for (std::uint64_t trial = 0; trial < kTrials; ++trial) {
    auto random = random_stream(33, trial);
    const std::vector<double> time = times_of(20.0, kRate, 0.0, random);
    const auto peaks = peaks_in(time, series(time, 0.5, random, [](double t) { return wave(2.37, t); }));
    ASSERT_FALSE(peaks.empty());
    square += std::pow(peaks[0].frequency - 2.37, 2) / kTrials;
    least_sd = std::min(least_sd, peaks[0].sd);
  }
  const double bound = std::sqrt(6.0 / 500.0) * 0.5 / (std::numbers::pi * 20.0);
  EXPECT_GT(std::sqrt(square), bound);
  EXPECT_LT(std::sqrt(square), 8.0 * bound);   // pieces of a quarter: 4, and the taper
  EXPECT_GT(least_sd, bound);
}

}  // namespace
}  // namespace spanloom
