// A gauge report made by hand, so that report and files are tested on their own. Its numbers are invented.
#pragma once

#include "gauge/gauge.h"

namespace spanloom::fixture {

inline GaugedReading sample_reading(GaugeMethod method, const char* words, const char* unit, double read, double fitted, double off) {
  GaugedReading reading;
  reading.method = method;
  reading.words = words;
  reading.unit = unit;
  reading.read = read;
  reading.sd = 0.05;
  reading.fitted = fitted;
  reading.off = off;
  return reading;
}

/// Three readings of which one is left out, 18 loops of which the third is to be let out.
inline GaugeReport gauge_sample() {
  GaugeReport report;
  report.planned_tension = 4500.0;
  report.tension = 4020.0;
  report.tension_sd = 160.0;
  report.interval = {3710.0, 4350.0};
  report.from_readings = true;
  report.mass_factor = 1.01;
  report.stretch_factor = 0.98;
  report.gap = 62.03;
  report.misfit = 1.2;
  report.freedom = 1;
  report.by = {{GaugeMethod::pulse, 3950.0, 210.0}, {GaugeMethod::sag, 4110.0, 240.0}};
  report.readings = {sample_reading(GaugeMethod::pulse, "2 round trips at 1.50 m", "s", 1.12, 1.15, -0.6),
                     sample_reading(GaugeMethod::sag, "78.0 kg at 31.00 m", "m", 2.31, 2.33, -0.5),
                     sample_reading(GaugeMethod::pulse, "3 round trips at 1.50 m", "s", 2.31, 1.72, 6.2)};
  report.readings[0].tension = 3950.0;
  report.readings[0].tension_sd = 210.0;
  report.readings[1].tension = 4110.0;
  report.readings[1].notes = {"the weight stands in an anchor zone"};
  report.readings[2].left_out = true;
  for (std::size_t bay = 0; bay < 18; ++bay) {
    GaugedLoop loop;
    loop.bay = bay;
    loop.planned_drop = 0.16;
    loop.drop = 0.15;
    loop.drop_sd = 0.012;
    loop.slack = loop.planned_slack = 0.015;
    loop.length = 3.5;
    loop.length_sd = 0.02;
    report.loops.push_back(loop);
  }
  GaugedLoop& short_one = report.loops[2];
  short_one.read_drop = 0.105;
  short_one.drop = 0.107;
  short_one.let_in = 0.032;
  short_one.off = -4.1;
  short_one.retape = true;
  short_one.why = "at the planned tension it would hang 118 mm deep instead of 160 mm";
  report.advice = MainAdvice::pull_in;
  report.main_length = 60.4;
  report.pull = 0.2;
  report.pull_sd = 0.07;
  report.pull_stretched = 0.21;
  report.less_sure = {"Main: strength over greatest tension: a caution at 3.71 kN."};
  report.assumed = {"timing of one pulse: 0.10 s"};
  report.notes = {"The second reading was taken in wind."};
  return report;
}

}  // namespace spanloom::fixture
