// A short rig with its plan and what was read off it, for tests of the gauge. Invented.
#pragma once

#include <cmath>
#include <numbers>
#include <random>
#include <vector>

#include "gauge/gauge.h"
#include "gauge/line_as_hung.h"
#include "gauge/tension_rows.h"
#include "support/planned.h"
#include "support/short_rig.h"

namespace spanloom {

inline Stated<double> given(double value) { return Stated<double>::given(value); }

/// A reading of each kind but the accelerometer's; what was read is still to be filled in.
inline Readings short_readings() {
  Readings readings;
  readings.pulses.push_back({1.0, 3, {1.0}, given(kUsualBlow), given(0.05)});
  readings.sags.push_back({8.0, 70.0, 1.0, SagFrom::anchors, given(0.02)});
  readings.frequencies.push_back({SwingWay::up, 1, 20, {1.0}, given(0.1)});
  readings.marks.push_back({5.5, 2.0, 2.1, given(0.001)});
  return readings;
}

/// Draws that are the same with every standard library. Box & Muller (1958).
inline double normal_draw(std::mt19937_64& stream) {
  const auto uniform = [&] { return (double(stream() >> 11) + 0.5) * 0x1.0p-53; };
  const double radius = std::sqrt(-2.0 * std::log(uniform()));
  return radius * std::cos(2.0 * std::numbers::pi * uniform());
}

/// The rig planned, with a hanger for the places of some rows.
struct Hanging {
  Planned of;
  TensionRows rows;
  LineHanger hanger;

  Hanging(Rig rig, const Readings& readings)
      : of(planned(std::move(rig))), rows(tension_rows(of.rig, readings, UnitSystem::metric)),
        hanger(of.rig, of.plan.rigged, rows.places, of.plan.standing.tapes) {}

  HungState state(double tension) const { return {tension, 1.0, 1.0, of.rig.site.gap}; }
};

/// Readings exactly as the line would give them in a state.
inline Readings as_foretold(Readings readings, const Hanging& hanging, const HungLine& hung) {
  std::size_t row = 0;
  const auto next = [&] { return foretold(hung, hanging.rows.rows[row++]).value(); };
  for (PulseReading& pulse : readings.pulses) pulse.times = {next()};
  for (SagReading& sag : readings.sags) sag.sag = next();
  for (FrequencyReading& swing : readings.frequencies) swing.times = {next()};
  for (MarksReading& marks : readings.marks) marks.standing = marks.unloaded + next();
  return readings;
}

}  // namespace spanloom
