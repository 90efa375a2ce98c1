#include "files/readings_problems.h"

#include <cmath>
#include <string>
#include <utility>

#include <fmt/format.h>

namespace spanloom {
namespace {

constexpr double kMostSwings = 1000.0;

class Problems {
 public:
  std::vector<Problem> take() { return std::move(all_); }
  /// Whose keys come next: "pulse[0]".
  void of(std::string table) { table_ = std::move(table); }

  void add(const std::string& key, double read, const char* unit, const char* expected, const char* cure) {
    all_.push_back({table_ + '.' + key, fmt::format("{:.6g}{}{}", read, *unit ? " " : "", unit), expected, cure});
  }
  void positive(const std::string& key, double read, const char* unit, const char* expected, const char* cure = "") {
    if (!(read > 0.0) || !std::isfinite(read)) add(key, read, unit, expected, cure);
  }
  void uncertainty(const char* key, const Stated<double>& sd, const char* unit) {
    positive(key, sd.value, unit, "more than nothing", "no reading is exact: how far may it be off?");
  }
  void times(const std::vector<double>& times) {
    for (std::size_t i = 0; i < times.size(); ++i) positive(fmt::format("times[{}]", i), times[i], "s", "more than 0 s");
  }
  /// Of a prior, where nothing may be sure.
  void within_half(const char* key, const Stated<double>& sd, const char* unit) {
    if (sd.value >= 0.0 && sd.value < 0.5) return;
    const bool share = *unit == '%';
    add(key, share ? 100.0 * sd.value : sd.value, unit, share ? "0 % to below 50 %" : "0 m to below 0.5 m", "");
  }

 private:
  std::vector<Problem> all_;
  std::string table_;
};

void check(Problems& problems, const PulseReading& pulse) {
  const double trips = pulse.round_trips;
  if (!(trips >= 1.0 && trips <= kMostRoundTrips && trips == std::floor(trips))) {
    problems.add("round_trips", trips, "", "a whole number from 1 to 5", "count how often it came back; later returns are lost among the loops");
  }
  problems.times(pulse.times);
  const double blow = pulse.length.value;
  if (!(blow >= kShortestBlow && blow <= kLongestBlow)) problems.add("length", blow, "s", "5 ms to 5 s", "how long the blow lasts");
  problems.uncertainty("timing", pulse.timing_sd, "s");
}

void check(Problems& problems, const SagReading& sag) {
  if (!(sag.mass >= 0.0 && sag.mass <= kHeaviest)) problems.add("weight", sag.mass, "kg", "0 kg to 500 kg", "");
  if (sag.mass == 0.0 && sag.from == SagFrom::standing) {
    problems.add("weight", sag.mass, "kg", "more than 0 kg", "without a weight the line does not go below where it stands");
  }
  problems.positive("sag", sag.sag, "m", "more than 0 m", "measured downwards");
  problems.uncertainty("uncertainty", sag.sd, "m");
}

void check(Problems& problems, const FrequencyReading& frequency) {
  if (frequency.bellies < 1 || frequency.bellies > kMostBellies) {
    problems.add("bellies", frequency.bellies, "", "a whole number from 1 to 10", "1: the line swings as a whole");
  }
  if (!(frequency.swings >= 1.0 && frequency.swings <= kMostSwings)) {
    problems.add("swings", frequency.swings, "", "a number from 1 to 1000", "full swings, there and back");
  }
  problems.times(frequency.times);
  problems.uncertainty("timing", frequency.timing_sd, "s");
}

void check(Problems& problems, const MarksReading& marks) {
  problems.positive("unloaded", marks.unloaded, "m", "more than 0 m");
  if (!(marks.standing > marks.unloaded)) {
    problems.add("standing", marks.standing, "m", "more than unloaded", "a main under tension is longer than it lay");
  }
  problems.uncertainty("uncertainty", marks.sd, "m");
}

void check(Problems& problems, const DropReading& drop) {
  problems.positive("drop", drop.drop, "m", "more than 0 m", "from main to loop, downwards");
  problems.uncertainty("uncertainty", drop.sd, "m");
}

void check(Problems& problems, const GaugePrior& prior) {
  problems.of("prior");
  problems.within_half("mass", prior.mass_sd, "%");
  problems.within_half("stretch", prior.stretch_sd, "%");
  problems.within_half("gap", prior.gap_sd, "m");
  problems.within_half("loop", prior.loop_sd, "m");
  problems.within_half("all_loops", prior.all_loops_sd, "%");
}

template <class Reading>
void check_all(Problems& problems, const char* table, const std::vector<Reading>& readings) {
  for (std::size_t i = 0; i < readings.size(); ++i) {
    problems.of(fmt::format("{}[{}]", table, i));
    check(problems, readings[i]);
  }
}

}  // namespace

std::vector<Problem> problems_of(const Readings& readings) {
  Problems problems;
  check_all(problems, "pulse", readings.pulses);
  check_all(problems, "sag", readings.sags);
  check_all(problems, "frequency", readings.frequencies);
  check_all(problems, "marks", readings.marks);
  check_all(problems, "drop", readings.drops);
  check(problems, readings.prior);
  return problems.take();
}

}  // namespace spanloom
