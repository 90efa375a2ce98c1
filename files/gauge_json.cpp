#include "files/gauge_json.h"

#include "files/json_values.h"

namespace spanloom {
namespace {

/// Grows when a key changes its meaning.
constexpr int kGaugeFormat = 1;

const char* advice_name(MainAdvice advice) {
  switch (advice) {
    case MainAdvice::leave: return "leave";
    case MainAdvice::pull_in: return "pull_in";
    case MainAdvice::let_out: return "let_out";
    case MainAdvice::read_again: return "read_again";
    case MainAdvice::measure_more: break;
  }
  return "measure_more";
}

Json by_json(const GaugeReport& report) {
  Json out = Json::array();
  for (const MethodTension& by : report.by) {
    out.push_back({{"method", name_of(by.method)}, {"tension_N", finite(by.tension)}, {"sd_N", finite(by.sd)}});
  }
  return out;
}

Json readings_json(const GaugeReport& report) {
  Json out = Json::array();
  for (const GaugedReading& reading : report.readings) {
    out.push_back({{"method", name_of(reading.method)},
                   {"words", reading.words},
                   {"unit", reading.unit},
                   {"read", finite(reading.read)},
                   {"sd", finite(reading.sd)},
                   {"fitted", optional(reading.fitted)},
                   {"off_sd", finite(reading.off)},
                   {"left_out", reading.left_out},
                   {"tension_N", optional(reading.tension)},
                   {"tension_sd_N", optional(reading.tension_sd)},
                   {"notes", reading.notes}});
  }
  return out;
}

Json loops_json(const GaugeReport& report) {
  Json out = Json::array();
  for (const GaugedLoop& loop : report.loops) {
    out.push_back({{"bay", loop.bay + 1},
                   {"planned_drop_m", finite(loop.planned_drop)},
                   {"read_drop_m", optional(loop.read_drop)},
                   {"drop_m", finite(loop.drop)},
                   {"drop_sd_m", finite(loop.drop_sd)},
                   {"planned_slack", finite(loop.planned_slack)},
                   {"slack", finite(loop.slack)},
                   {"slack_sd", finite(loop.slack_sd)},
                   {"length_m", finite(loop.length)},
                   {"length_sd_m", finite(loop.length_sd)},
                   {"let_in_m", finite(loop.let_in)},
                   {"off_sd", finite(loop.off)},
                   {"retape", loop.retape},
                   {"why", loop.why}});
  }
  return out;
}

}  // namespace

std::string gauge_json(const Rig& rig, const Readings& readings, const GaugeReport& report) {
  Json out = document_head("spanloom-gauge", kGaugeFormat, rig.title);
  out["torn"] = report.torn;
  out["readings_title"] = readings.title;
  out["tension_N"] = finite(report.tension);
  out["tension_sd_N"] = finite(report.tension_sd);
  out["interval_95_N"] = {finite(report.interval.low), finite(report.interval.high)};
  out["planned_tension_N"] = finite(report.planned_tension);
  out["from_readings"] = report.from_readings;
  out["advice"] = advice_name(report.advice);
  out["pull_m"] = finite(report.pull);
  out["pull_sd_m"] = finite(report.pull_sd);
  out["pull_stretched_m"] = finite(report.pull_stretched);
  out["by"] = by_json(report);
  out["readings"] = readings_json(report);
  out["loops"] = loops_json(report);
  out["mass_factor"] = finite(report.mass_factor);
  out["stretch_factor"] = finite(report.stretch_factor);
  out["gap_m"] = finite(report.gap);
  out["main_length_m"] = finite(report.main_length);
  out["misfit"] = finite(report.misfit);
  out["freedom"] = report.freedom;
  out["checks"] = checks_json(report.checks);
  out["less_sure"] = report.less_sure;
  out["assumed"] = report.assumed;
  out["notes"] = report.notes;
  return text_of(out);
}

}  // namespace spanloom
