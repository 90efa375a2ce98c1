#include "gauge/gauge_advice.h"

#include <algorithm>
#include <cmath>

#include <fmt/format.h>

namespace spanloom {
namespace {

bool counted_alone(const GaugeReport& report) {
  return report.by.size() == 1 && (report.by[0].method == GaugeMethod::pulse || report.by[0].method == GaugeMethod::frequency);
}

MainAdvice advice_for(const GaugeReport& report) {
  if (!report.from_readings) return MainAdvice::measure_more;
  if (report.torn || readings_contradict(report.misfit, report.freedom)) return MainAdvice::read_again;
  const double apart = report.tension - report.planned_tension;
  if (std::abs(apart) <= kAsPlanned * report.planned_tension) {
    const double widest = 2.0 * kAsPlanned * report.planned_tension;
    const bool sure = report.planned_tension - report.interval.low <= widest && report.interval.high - report.planned_tension <= widest;
    return sure ? MainAdvice::leave : MainAdvice::measure_more;
  }
  if (std::abs(apart) < 2.0 * report.tension_sd) return MainAdvice::measure_more;
  // A miscount by one is as sure of itself as a right count, and the last of several has nothing to bear it out.
  const auto used = std::count_if(report.readings.begin(), report.readings.end(), [](const GaugedReading& r) { return !r.left_out; });
  const bool last_of_several = used == 1 && report.readings.size() > 1;
  if (counted_alone(report) || last_of_several) return MainAdvice::measure_more;
  return apart < 0.0 ? MainAdvice::pull_in : MainAdvice::let_out;
}

std::string small(double metres, UnitSystem units) { return quantity_text(metres, Measure::small_length, units); }

}  // namespace

bool readings_contradict(double misfit, int freedom) {
  return freedom > 0 ? misfit > freedom + 3.0 * std::sqrt(2.0 * freedom) : misfit > 4.0;
}

bool advise_main(GaugeReport& report, const LineHanger& hanger, const HungState& found) {
  constexpr double kStep = 0.01;  // in ln T
  HungState planned = found, more = found;
  planned.tension = report.planned_tension;
  more.tension *= std::exp(kStep);
  const auto now = hanger.hang(found), then = hanger.hang(planned), beside = hanger.hang(more);
  if (!now || !then || !beside) return false;
  report.main_length = now->main_length;
  report.pull = now->main_length - then->main_length;
  const double per_log = (beside->main_length - now->main_length) / kStep;
  report.pull_sd = std::abs(per_log) * report.tension_sd / report.tension;
  // What comes through the clamp is the main next to it, at the planned tension.
  double stretch = 0.0;
  const ChainRange main = then->mesh.line.main_chain(0);
  for (std::size_t i = main.first; i < main.first + main.count; ++i) {
    stretch = std::max(stretch, then->mesh.line.laws[std::size_t(then->mesh.line.law[i])].stretch_at(report.planned_tension).stretch);
  }
  report.pull_stretched = report.pull * (1.0 + stretch);
  report.advice = advice_for(report);
  if (report.from_readings && report.by.size() == 1) {
    report.notes.push_back(fmt::format("Only {} tells the tension: a slip in it would not show{}. Read something else besides before you "
                                       "touch the main.", name_of(report.by[0].method),
                                       counted_alone(report) ? ", least of all a miscount by one" : ""));
  }
  return true;
}

bool advise_loops(GaugeReport& report, const LineHanger& hanger, UnitSystem units) {
  LineHanger as_found = hanger;
  std::vector<double> lengths;
  for (const GaugedLoop& loop : report.loops) lengths.push_back(loop.length);
  as_found.set_loops(std::move(lengths));
  const HungState planned{report.planned_tension, report.mass_factor, report.stretch_factor, report.gap};
  const auto after = as_found.hang(planned, mesh_of_a_plan());
  if (!after) return false;
  const std::vector<double> drops = after->drops();
  const Limits& limits = hanger.rig().limits;
  const bool rings = hanger.rig().backup.joint == Joint::ring;
  for (GaugedLoop& loop : report.loops) {
    const double drop = drops[loop.bay];
    const double apart = drop - loop.planned_drop;
    const bool far = std::abs(apart) > std::max(kDropApart, kDropShare * loop.planned_drop);
    const bool sure = std::abs(loop.let_in) > 2.0 * loop.length_sd;
    const bool shallow = drop < limits.least_drop.value && loop.read_drop;
    if (!(far && sure) && !shallow) continue;
    loop.retape = true;
    loop.why = shallow ? fmt::format("at the planned tension it would hang {} deep, and {} is the least that is wanted", small(drop, units),
                                     small(limits.least_drop.value, units))
                       : fmt::format("at the planned tension it would hang {} deep instead of {}", small(drop, units),
                                     small(loop.planned_drop, units));
    if (rings) loop.why += "; the backup runs through rings, so let it in or out at an end";
  }
  return true;
}

}  // namespace spanloom
