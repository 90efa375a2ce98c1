#include "webbing/pull_test.h"

#include <algorithm>
#include <cmath>
#include <span>

#include "base/input_error.h"
#include "webbing/pull_test_fit.h"

namespace spanloom {
namespace {

constexpr std::size_t kFewestRows = 6;      // of a loading
constexpr std::size_t kBins = 400;          // of the fit
constexpr double kNoLoadWindow = 0.01;      // of the greatest tension: readings from which the length without load is read
constexpr double kPreload = 0.02;           // of the greatest tension: more left at the start is said
constexpr double kSlip = 0.03;              // of the greatest tension: a fall while the webbing gets longer is said
constexpr double kMostBelowZero = 0.1;      // of the greatest tension
constexpr double kLongest = 1.0, kShortest = -0.2;  // stretches that can be
constexpr double kLeastRise = 1e-4;         // of the stretch, in the chosen loading
constexpr double kLeastPull = 1.0;          // [N]
constexpr double kMostPull = 10e6;          // [N]

// What can be wrong with rows, told at the first row that has it: a wrong unit is wrong all the way down.
class RowFaults {
 public:
  void add(std::size_t row, const std::string& read, const char* expected, const char* cure) {
    for (Fault& fault : faults_) {
      if (fault.problem.expected == expected) return void(++fault.more);
    }
    faults_.push_back({{"[" + std::to_string(row) + "]", read, expected, cure}, 0});
  }

  std::vector<Problem> problems() const {
    std::vector<Problem> problems;
    for (const Fault& fault : faults_) {
      problems.push_back(fault.problem);
      if (fault.more > 0) problems.back().read += " (" + std::to_string(fault.more) + " more rows like it)";
    }
    return problems;
  }

 private:
  struct Fault {
    Problem problem;
    std::size_t more;  // rows
  };
  std::vector<Fault> faults_;
};

void check_samples(const std::vector<PullSample>& samples, UnitSystem units) {
  double greatest = 0.0;
  for (const PullSample& s : samples) greatest = std::max(greatest, s.tension);
  RowFaults faults;
  for (std::size_t i = 0; i < samples.size(); ++i) {
    const auto& [tension, stretch] = samples[i];
    if (!std::isfinite(tension) || !std::isfinite(stretch)) {
      faults.add(i, "no number", "a tension and a stretch", "");
    } else if (!(stretch > kShortest && stretch < kLongest)) {
      faults.add(i, "a stretch of " + quantity_text(stretch, Measure::share, units), "-20 % to 100 %",
                 "look at the unit of the column and at the gauge length");
    } else if (tension > kMostPull) {
      faults.add(i, "a tension of " + quantity_text(tension, Measure::force, units), "a pull that webbing can hold",
                 "look at the unit of the column");
    } else if (greatest > 0.0 && tension < -kMostBelowZero * greatest) {
      faults.add(i, "a tension of " + quantity_text(tension, Measure::force, units), "a pull, not below 0",
                 "set the load cell to zero, or turn its sign");
    }
  }
  std::vector<Problem> problems = faults.problems();
  if (samples.size() < kFewestRows) {
    problems.push_back({"", std::to_string(samples.size()) + (samples.size() == 1 ? " row" : " rows"),
                        "at least " + std::to_string(kFewestRows) + " rows of one loading", "read more often during the pull"});
  } else if (greatest < kLeastPull) {
    problems.push_back({"", "no tension above 1 N", "a pull", "look at the unit, and at the sign of the load cell"});
  }
  if (!problems.empty()) throw InputError(std::move(problems));
}

/// One test on its way to a result.
class Analysis {
 public:
  Analysis(const std::vector<PullSample>& samples, const PullTestOptions& options) : samples_(samples), options_(options) {
    for (const PullSample& s : samples_) greatest_ = std::max(greatest_, s.tension);
  }

  PullTest run() {
    find_cycles();
    find_settled();
    choose();
    fit();
    find_spread();
    find_loss();
    add_notes();
    return std::move(out_);
  }

 private:
  std::span<const PullSample> loading(const LoadCycle& c) const { return all().subspan(c.from, c.peak - c.from + 1); }
  std::span<const PullSample> unloading(const LoadCycle& c) const { return all().subspan(c.peak, c.to - c.peak + 1); }
  std::span<const PullSample> all() const { return samples_; }
  std::string force(double tension) const { return quantity_text(tension, Measure::force, options_.units); }
  std::string share(double share) const { return quantity_text(share, Measure::share, options_.units); }
  bool is_low(std::size_t row) const { return samples_[row].tension <= kFullFrom * greatest_; }

  void find_cycles();
  void find_settled();
  CycleFound cycle_of(const LoadCycle& rows, double new_length) const;
  void choose();
  std::vector<FitReading> readings_of(const CycleFound& cycle) const;
  void fit();
  void measure_misses(const std::vector<FitReading>& readings);
  void find_spread();
  void meet(const std::vector<CurvePoint>& curve);
  void find_loss();
  void add_notes();
  void note_slip();

  const std::vector<PullSample>& samples_;
  const PullTestOptions& options_;
  double greatest_ = 0.0;  // tension of the test [N]
  PullTest out_;
};

void Analysis::find_cycles() {
  const std::vector<LoadCycle> rows = split_into_cycles(samples_, kTurnShare * greatest_);
  if (rows.empty()) {
    throw InputError("", "no loading: the tension never rises by a tenth of the greatest", "at least one loading from near 0",
                     "put the rows in order of time, and start the readings before the pull");
  }
  out_.read_without_load = stretch_without_load(loading(rows.front()), kNoLoadWindow * greatest_);
  for (const LoadCycle& cycle : rows) out_.cycles.push_back(cycle_of(cycle, 1.0 + out_.read_without_load));
  double before = 0.0;
  for (CycleFound& cycle : out_.cycles) {
    if (!cycle.stretch_after) continue;
    cycle.growth = *cycle.stretch_after - before;
    before = *cycle.stretch_after;
  }
}

CycleFound Analysis::cycle_of(const LoadCycle& rows, double new_length) const {
  CycleFound cycle;
  cycle.rows = rows;
  cycle.greatest_tension = samples_[rows.peak].tension;
  const auto of_new = [&](double read) { return (1.0 + read) / new_length - 1.0; };
  cycle.greatest_stretch = of_new(samples_[rows.peak].stretch);
  const double window = kNoLoadWindow * greatest_;
  cycle.stretch_before = of_new(stretch_without_load(loading(rows), window));
  const bool unloads = rows.to > rows.peak;
  if (unloads && is_low(rows.to)) cycle.stretch_after = of_new(stretch_without_load(unloading(rows), window));
  cycle.full = unloads && is_low(rows.from) && is_low(rows.to) && cycle.greatest_tension >= kFullTo * greatest_;
  if (!cycle.full) return cycle;
  const double up = work_along(loading(rows)), down = -work_along(unloading(rows));
  if (up > 0.0 && down > 0.0) {
    cycle.loss = (up - down) / (0.5 * (up + down));
    cycle.loss_of_loading = (up - down) / up;
  }
  return cycle;
}

void Analysis::choose() {
  const std::vector<CycleFound>& cycles = out_.cycles;
  if (options_.cycle) {
    if (*options_.cycle < 1 || *options_.cycle > cycles.size()) {
      throw InputError("cycle", std::to_string(*options_.cycle), "one of the cycles 1 to " + std::to_string(cycles.size()));
    }
    out_.chosen = *options_.cycle - 1;
  } else {
    const auto last = [&](auto&& suits) {
      for (std::size_t i = cycles.size(); i-- > 0;) {
        if (suits(cycles[i])) return i;
      }
      return cycles.size();
    };
    out_.chosen = last([](const CycleFound& c) { return c.full; });
    if (out_.chosen == cycles.size()) out_.chosen = last([&](const CycleFound& c) { return is_low(c.rows.from); });
    if (out_.chosen == cycles.size()) out_.chosen = 0;
  }
  const CycleFound& chosen = cycles[out_.chosen];
  if (!is_low(chosen.rows.from)) {
    throw InputError("cycle", "cycle " + std::to_string(out_.chosen + 1) + " starts at " + force(samples_[chosen.rows.from].tension),
                     "a loading from near 0, under a fifth of the greatest tension",
                     "the length without load is not known there: choose another cycle, or slacken more between pulls");
  }
  if (loading(chosen.rows).size() < kFewestRows) {
    throw InputError("", std::to_string(loading(chosen.rows).size()) + " rows in the loading of cycle " +
                             std::to_string(out_.chosen + 1),
                     "at least " + std::to_string(kFewestRows), "read more often during the pull");
  }
}

// A loading, its stretch from the length without load at its start; what lies below that is left out.
std::vector<FitReading> Analysis::readings_of(const CycleFound& cycle) const {
  const double length = (1.0 + cycle.stretch_before) * (1.0 + out_.read_without_load);
  std::vector<FitReading> readings;
  for (const PullSample& s : loading(cycle.rows)) {
    const double stretch = (1.0 + s.stretch) / length - 1.0;
    if (stretch > 0.0) readings.push_back({stretch, s.tension});
  }
  return readings;
}

void Analysis::fit() {
  const CycleFound& chosen = out_.cycles[out_.chosen];
  if (!(chosen.greatest_stretch > chosen.stretch_before + kLeastRise)) {
    throw InputError("", "a stretch that does not rise while the tension does", "a stretch that rises with the tension",
                     "look whether the columns are swapped or the marks have slipped");
  }
  const std::vector<FitReading> readings = readings_of(chosen);
  const RisingFit fit = fit_rising_curve(binned(readings, kBins));
  const std::vector<CurvePoint> points = in_five_figures(fit.points);
  try {
    out_.curve = StretchCurve::from_points(points);
  } catch (const InputError&) {
    throw InputError("", "a loading in which no curve that rises can be told from the noise", "a tension that rises with the stretch",
                     "pull further, or read more exactly");
  }
  for (const CurvePoint& p : points) out_.points.push_back({p, {}, {}});
  out_.from_isotonic_rms = fit.from_isotonic_rms;
  out_.lengthened = chosen.stretch_before;
  out_.lowest_tension = std::max(0.0, samples_[chosen.rows.from].tension);
  measure_misses(readings);
}

void Analysis::measure_misses(const std::vector<FitReading>& readings) {
  double sum = 0.0;
  for (const FitReading& reading : readings) {
    const double miss = reading.tension - out_.curve.tension(reading.stretch);
    sum += miss * miss;
    if (std::abs(miss) <= out_.greatest_miss) continue;
    out_.greatest_miss = std::abs(miss);
    out_.greatest_miss_at = reading.stretch;
  }
  out_.residual_rms = std::sqrt(sum / static_cast<double>(readings.size()));
}

void Analysis::find_settled() {
  std::vector<std::size_t> after_first;
  for (std::size_t i = 1; i < out_.cycles.size(); ++i) {
    const CycleFound& cycle = out_.cycles[i];
    if (!cycle.full) continue;
    after_first.push_back(i);
    if (cycle.growth.value_or(1.0) < kSettledGrowth) out_.settled.push_back(i);
  }
  if (out_.settled.empty()) out_.settled = after_first;
}

void Analysis::find_spread() {
  if (out_.settled.size() < 2) return;
  for (const std::size_t i : out_.settled) {
    try {
      meet(fit_rising_curve(binned(readings_of(out_.cycles[i]), kBins)).points);
    } catch (const InputError&) {
      out_.notes.push_back("No curve that rises lies near the loading of cycle " + std::to_string(i + 1) + ": it is left out of the spread.");
    }
  }
}

// Takes another cycle into the spread of each point that it reaches.
void Analysis::meet(const std::vector<CurvePoint>& curve) {
  constexpr double kHair = 1.005;  // so little past its last point a curve still says what it carries
  const StretchCurve other = StretchCurve::from_points(curve);
  for (PointFound& point : out_.points) {
    if (point.at.stretch > kHair * curve.back().stretch) continue;
    const double tension = other.tension(point.at.stretch);
    point.least = std::min(point.least.value_or(tension), tension);
    point.greatest = std::max(point.greatest.value_or(tension), tension);
  }
}

void Analysis::find_loss() {
  std::vector<std::size_t> used = out_.settled;
  if (used.empty() && out_.cycles.front().full) used.push_back(0);
  double sum = 0.0, count = 0.0;
  for (const std::size_t i : used) {
    if (!out_.cycles[i].loss) continue;
    sum += *out_.cycles[i].loss;
    count += 1.0;
  }
  if (count > 0.0) out_.loss = sum / count;
}

// The tension falls while the webbing gets longer: a knot, a clamp or a mark has moved.
void Analysis::note_slip() {
  const std::span<const PullSample> branch = loading(out_.cycles[out_.chosen].rows);
  PullSample top = branch.front();
  double fall = 0.0, at = 0.0;
  for (const PullSample& s : branch) {
    if (s.tension > top.tension) top = s;
    if (s.stretch < top.stretch || top.tension - s.tension <= fall) continue;
    fall = top.tension - s.tension;
    at = top.tension;
  }
  if (fall < std::max(kSlip * greatest_, 4.0 * out_.residual_rms)) return;
  out_.notes.push_back("The tension fell by " + force(fall) + " at " + force(at) + " while the webbing got longer: something slipped. "
                       "The slip is in the curve as stretch.");
}

void Analysis::add_notes() {
  std::vector<std::string>& notes = out_.notes;
  const CycleFound& chosen = out_.cycles[out_.chosen];
  if (out_.lowest_tension > kPreload * greatest_) {
    notes.push_back("The loading starts at " + force(out_.lowest_tension) + ", not at 0. The length without load, and the curve below "
                    "that tension, are a straight line from there to zero: not measured.");
    notes.push_back("The loss is that of cycles from that tension, not from slack.");
  }
  if (!chosen.full) {
    notes.push_back("The curve is of a cycle that is not full (from under 20 % to over 90 % of the greatest tension and back).");
  }
  if (!out_.loss) {
    notes.push_back("No loss: it takes a full cycle, loading and unloading.");
  } else if (*out_.loss <= 0.0 || *out_.loss > 0.5) {
    notes.push_back("A loss of " + share(*out_.loss) + " cannot be entered (0 to 50 %): look at the unloading.");
  } else if (out_.settled.empty()) {
    notes.push_back("The loss is that of the first cycle, which loses more than later ones. Pull at least three times.");
  }
  if (out_.settled.size() < 2) {
    notes.push_back("Fewer than two settled cycles: how much cycles differ is not known.");
  }
  const double growth = out_.settled.empty() ? 0.0 : out_.cycles[out_.settled.back()].growth.value_or(0.0);
  if (growth >= kSettledGrowth) {
    notes.push_back("The last full cycle still left " + share(growth) + " more: the webbing has not settled. Pull more often.");
  }
  note_slip();
}

}  // namespace

PullTest analyse_pull_test(const std::vector<PullSample>& samples, const PullTestOptions& options) {
  check_samples(samples, options.units);
  return Analysis(samples, options).run();
}

}  // namespace spanloom
