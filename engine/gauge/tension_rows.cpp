#include "gauge/tension_rows.h"

#include <algorithm>
#include <cmath>
#include <numbers>

#include <fmt/format.h>

#include "base/constants.h"
#include "base/input_error.h"
#include "gauge/pulse.h"
#include "gauge/swings.h"
#include "survey/weighted_mean.h"

namespace spanloom {
namespace {

std::string length_words(double metres, UnitSystem units) { return quantity_text(metres, Measure::length, units); }

void demand(bool good, const std::string& list, std::size_t i, const char* key, double read, const char* expected) {
  if (good) return;
  throw InputError(fmt::format("{}[{}].{}", list, i, key), fmt::format("{:g}", read), expected);
}

/// Collects rows and the places they were read at.
class Rows {
 public:
  Rows(const Rig& rig, UnitSystem units) : rig_(rig), units_(units) {}

  TensionRow& add(GaugeMethod method, double at, const std::string& list, std::size_t i) {
    demand(at > 0.0 && at < rig_.site.gap, list, i, "at", at, "a place between the anchors, in metres on the gap");
    out_.places.push_back(at);
    return add_row(method, out_.places.size() - 1);
  }
  /// Another row at the place of the last one.
  TensionRow& add_row(GaugeMethod method, std::size_t place) {
    TensionRow& row = out_.rows.emplace_back();
    row.method = method;
    row.place = place;
    return row;
  }
  std::string where(double at) const { return "at " + length_words(at, units_); }
  UnitSystem units() const { return units_; }
  const Rig& rig() const { return rig_; }
  std::size_t last_place() const { return out_.places.size() - 1; }
  TensionRows take() { return std::move(out_); }

 private:
  const Rig& rig_;
  UnitSystem units_;
  TensionRows out_;
};

void assume(TensionRow& row, const Stated<double>& value, const std::string& words) {
  if (value.assumed) row.assumed.push_back(words);
}

// The mean of timings by hand, slips left out.
void take_timings(TensionRow& row, const std::vector<double>& times, const Stated<double>& timing, const std::string& list,
                  std::size_t i) {
  demand(!times.empty(), list, i, "times", 0.0, "one timing or more");
  for (const double t : times) demand(t > 0.0 && std::isfinite(t), list, i, "times", t, "times above 0 s");
  demand(timing.value > 0.0 && std::isfinite(timing.value), list, i, "timing", timing.value, "an uncertainty above 0 s");
  const WeightedMean mean = mean_of(times, timing.value);
  for (const std::size_t slip : mean.left_out) {
    row.notes.push_back(fmt::format("A timing of {:.2f} s lies far from the others and is left out.", times[slip]));
  }
  if (mean.torn) {
    row.notes.push_back("The timings lie far apart, and no majority says which are wrong: count again.");
  }
  row.read = mean.value;
  row.sd = mean.sd;
  row.unit = "s";
  assume(row, timing, fmt::format("a timing is good to {:.2f} s", timing.value));
}

void add_pulse(Rows& rows, const PulseReading& pulse, std::size_t i) {
  TensionRow& row = rows.add(GaugeMethod::pulse, pulse.at, "pulse", i);
  demand(pulse.round_trips >= 1.0 && pulse.round_trips <= kMostRoundTrips && pulse.round_trips == std::floor(pulse.round_trips), "pulse",
         i, "round_trips", pulse.round_trips, "a whole number of round trips, 1 to 5: later ones are lost among the loops");
  demand(pulse.length.value >= kShortestBlow && pulse.length.value <= kLongestBlow, "pulse", i, "length", pulse.length.value,
         "a blow of 5 ms to 5 s");
  take_timings(row, pulse.times, pulse.timing_sd, "pulse", i);
  row.what = pulse;
  // Which moment of a return the hand takes for it stays the same from one timing to the next.
  row.sd = std::hypot(row.sd, 0.25 * pulse.length.value);
  row.words = fmt::format("{:.0f} round trip{} {}", pulse.round_trips, pulse.round_trips == 1.0 ? "" : "s", rows.where(pulse.at));
  assume(row, pulse.length, fmt::format("a blow lasts {:.0f} ms", 1e3 * pulse.length.value));
}

void add_sag(Rows& rows, const SagReading& sag, std::size_t i) {
  TensionRow& row = rows.add(GaugeMethod::sag, sag.at, "sag", i);
  demand(sag.mass >= 0.0 && sag.mass <= kHeaviest, "sag", i, "weight", sag.mass, "a weight of 0 kg to 500 kg");
  demand(sag.mass > 0.0 || sag.from == SagFrom::anchors, "sag", i, "weight", sag.mass, "a weight: with none, nothing sinks");
  demand(std::isfinite(sag.sag) && sag.sag > 0.0, "sag", i, "sag", sag.sag, "a sag above 0 m");
  demand(sag.sd.value > 0.0 && std::isfinite(sag.sd.value), "sag", i, "uncertainty", sag.sd.value, "an uncertainty above 0 m");
  row.what = sag;
  row.read = sag.sag;
  row.sd = sag.sd.value;
  row.unit = "m";
  row.words = fmt::format("{} under {} {}", sag.from == SagFrom::anchors ? "sag" : "sinks",
                          quantity_text(sag.mass, Measure::mass, rows.units()), rows.where(sag.at));
  assume(row, sag.sd, "a sag is good to " + quantity_text(sag.sd.value, Measure::small_length, rows.units()));
}

void add_frequency(Rows& rows, const FrequencyReading& swing, std::size_t i) {
  demand(swing.bellies >= 1 && swing.bellies <= kMostBellies, "frequency", i, "bellies", swing.bellies, "1 to 10 half waves");
  demand(swing.swings >= 1.0 && std::isfinite(swing.swings), "frequency", i, "swings", swing.swings, "one full swing or more");
  TensionRow& row = rows.add(GaugeMethod::frequency, 0.5 * rows.rig().site.gap, "frequency", i);
  take_timings(row, swing.times, swing.timing_sd, "frequency", i);
  row.what = swing;
  if (swing.way == SwingWay::up) {
    const double turn = 2.0 * std::numbers::pi * swing.swings / row.read;
    row.notes.push_back(fmt::format("Holds for swings of less than {} to either side: in greater ones the loops fly, and the line "
                                    "swings slower.", quantity_text(kGravity / (turn * turn), Measure::small_length, rows.units())));
  }
  row.words = fmt::format("{:g} swings {}, {} bell{}", swing.swings, swing.way == SwingWay::sideways ? "sideways" : "up and down",
                          swing.bellies, swing.bellies == 1 ? "y" : "ies");
}

void add_marks(Rows& rows, const MarksReading& marks, std::size_t i) {
  TensionRow& row = rows.add(GaugeMethod::marks, marks.at, "marks", i);
  demand(marks.unloaded > 0.0 && std::isfinite(marks.unloaded), "marks", i, "unloaded", marks.unloaded, "a length above 0 m");
  demand(marks.standing > marks.unloaded && std::isfinite(marks.standing), "marks", i, "standing", marks.standing,
         "longer than unloaded: the main is stretched");
  demand(marks.sd.value > 0.0 && std::isfinite(marks.sd.value), "marks", i, "uncertainty", marks.sd.value,
         "an uncertainty above 0 m");
  row.what = marks;
  row.read = marks.standing - marks.unloaded;
  row.sd = marks.sd.value;
  row.unit = "m";
  row.words = fmt::format("stretch of {} {}", length_words(marks.unloaded, rows.units()), rows.where(marks.at));
  assume(row, marks.sd, "marks are good to " + quantity_text(marks.sd.value, Measure::small_length, rows.units()));
}

void add_spectrum(Rows& rows, const SpectrumReading& record, std::size_t i) {
  constexpr std::size_t kMostPeaks = 6;  // the strongest tell of the line; the rest is as often something else
  constexpr double kDoubt = 0.015;       // of each peak by itself; tension_fit.h has what all share. Our choice
  demand(!record.peaks.empty(), "accelerometer", i, "file", 0.0, "a record with a peak in its spectrum");
  for (std::size_t k = 0; k < std::min(kMostPeaks, record.peaks.size()); ++k) {
    const SpectrumPeak& peak = record.peaks[k];
    TensionRow& row = k == 0 ? rows.add(GaugeMethod::spectrum, record.at, "accelerometer", i)
                             : rows.add_row(GaugeMethod::spectrum, rows.last_place());
    row.what = peak;
    row.duration = record.resolved_over;
    row.read = peak.frequency;
    row.sd = std::hypot(peak.sd, kDoubt * peak.frequency);
    row.assumed.push_back("peaks of a moving line lie within 2.5 % of those of a still one, and 1.5 % each");
    row.unit = "Hz";
    row.words = fmt::format("peak {} {}", peak.way == SwingWay::sideways ? "sideways" : "up", rows.where(record.at));
  }
}

std::optional<double> sag_foretold(const HungLine& hung, const TensionRow& row, const SagReading& sag) {
  const std::size_t node = hung.node_of(row.place);
  const auto below_anchors = [&](const Vec3& place) { return place.x / hung.far_anchor.x * hung.far_anchor.z - place.z; };
  Vec3 place = hung.rest[node];
  if (sag.mass > 0.0) {
    Line loaded = hung.mesh.line;
    add_main_load(loaded, hung.mesh.asked[row.place], {0.0, 0.0, -sag.mass * kGravity});
    EquilibriumSolver solver(loaded);
    const Equilibrium rest = solver.solve_from(hung.standing);
    if (!rest.certified()) return std::nullopt;
    place = solver.shape(rest).main[hung.mesh.asked[row.place].bay][hung.mesh.asked[row.place].bar];
  }
  return sag.from == SagFrom::anchors ? below_anchors(place) : hung.rest[node].z - place.z;
}

// Stretch of the webbing at the place, by its own curve and the tension there.
double marks_foretold(const HungLine& hung, const TensionRow& row, const MarksReading& marks) {
  const Mesh& mesh = hung.mesh;
  const NodeAt at = mesh.asked[row.place];
  const ChainRange main = mesh.line.main_chain(at.bay);
  const std::size_t bar = main.first + std::min(at.bar, main.count - 1);
  const double tension = norm(hung.standing.near_force[2 * at.bay]);
  return marks.unloaded * mesh.line.laws[std::size_t(mesh.line.law[bar])].stretch_at(tension).stretch;
}

}  // namespace

TensionRows tension_rows(const Rig& rig, const Readings& readings, UnitSystem units) {
  Rows rows(rig, units);
  for (std::size_t i = 0; i < readings.pulses.size(); ++i) add_pulse(rows, readings.pulses[i], i);
  for (std::size_t i = 0; i < readings.sags.size(); ++i) add_sag(rows, readings.sags[i], i);
  for (std::size_t i = 0; i < readings.frequencies.size(); ++i) add_frequency(rows, readings.frequencies[i], i);
  for (std::size_t i = 0; i < readings.marks.size(); ++i) add_marks(rows, readings.marks[i], i);
  for (std::size_t i = 0; i < readings.spectra.size(); ++i) add_spectrum(rows, readings.spectra[i], i);
  return rows.take();
}

std::optional<double> guessed(const HungLine& hung, const TensionRow& row) {
  const auto* pulse = std::get_if<PulseReading>(&row.what);
  return pulse ? std::optional(pulse->round_trips * string_round_trip(hung, pulse->length.value)) : foretold(hung, row);
}

std::optional<double> foretold(const HungLine& hung, const TensionRow& row, std::optional<double> near_Hz) {
  const std::size_t node = hung.node_of(row.place);
  if (const auto* pulse = std::get_if<PulseReading>(&row.what)) {
    const auto echo = echo_of_blow(hung, node, pulse->length.value, int(pulse->round_trips));
    return echo ? std::optional(echo->time) : std::nullopt;
  }
  if (const auto* sag = std::get_if<SagReading>(&row.what)) return sag_foretold(hung, row, *sag);
  if (const auto* swing = std::get_if<FrequencyReading>(&row.what)) {
    const auto found = belly_swing(hung, swing->way, swing->bellies);
    return found ? std::optional(swing->swings / found->frequency) : std::nullopt;
  }
  if (const auto* marks = std::get_if<MarksReading>(&row.what)) return marks_foretold(hung, row, *marks);
  const auto& peak = std::get<SpectrumPeak>(row.what);
  return response_peak(hung, node, peak.way, near_Hz.value_or(peak.frequency), row.duration);
}

}  // namespace spanloom
