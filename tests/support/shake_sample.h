// A shake report made by hand, so that report, figure, picture and files are tested on their own. Its motion is that of
// a bare string with lossy ends (d'Alembert), its returns are invented.
#pragma once

#include <cmath>
#include <numbers>
#include <utility>

#include "motion/shake_report.h"

namespace spanloom::fixture {

inline constexpr double kSampleGap = 62.0;         // [m]
inline constexpr double kSampleRoundTrip = 0.62;   // [s]

inline double sample_return(ComparedLine line, double frequency, double place) {
  const double of_line = line == ComparedLine::rig ? 0.35 : line == ComparedLine::even ? 0.55 : 0.7;
  return of_line + 0.2 * std::cos(2.0 * frequency) + 0.1 * place;
}

/// One cycle sent both ways from `place`; what each end throws back is turned over and a tenth smaller.
inline double string_displacement(double x, double time, double place, double frequency) {
  const double speed = 2.0 * kSampleGap / kSampleRoundTrip;
  double moved = 0.0;
  for (int bounces = -6; bounces <= 6; ++bounces) {
    const bool turned = bounces % 2 != 0;
    const double image = turned ? (bounces + 1) * kSampleGap - place : bounces * kSampleGap + place;
    const double since = time - std::abs(x - image) / speed;
    if (since <= 0.0 || since >= 1.0 / frequency) continue;
    moved += (turned ? -1.0 : 1.0) * std::pow(0.9, std::abs(bounces)) * std::sin(2.0 * std::numbers::pi * frequency * since);
  }
  return 0.1 * moved;
}

inline ShakeHistory sample_history(const Shake& shake) {
  ShakeHistory history;
  for (int i = 0; i <= 124; ++i) history.along.push_back(kSampleGap * i / 124.0);
  const double end = 1.0 / shake.frequency + 3.0 * kSampleRoundTrip + 0.2;
  for (int i = 0; i <= 300; ++i) {
    history.time.push_back(end * i / 300.0);
    history.displacement.emplace_back();
    for (const double x : history.along) {
      history.displacement.back().push_back(
          string_displacement(x, history.time.back(), shake.place * kSampleGap, shake.frequency));
    }
  }
  return history;
}

inline ReportedShake sample_shake(ComparedLine line, const Shake& shake) {
  ReportedShake reported;
  reported.line = line;
  ShakeResult& result = reported.result;
  result.shake = shake;
  result.place_m = shake.place * kSampleGap;
  result.force = 41.5;
  result.swing = shake.first_swing;
  result.round_trip = kSampleRoundTrip;
  result.returned = sample_return(line, shake.frequency, shake.place);
  result.energy_share = 0.3 * result.returned;
  result.ledger = {.kinetic = 0.2, .stretch = 0.3, .height = 0.1, .put_in = 2.0, .lost_in_webbing = 0.9,
                   .lost_to_air = 0.5, .drift = -4e-4};
  return reported;
}

/// @param lines, directions  that were shaken; one line and one direction is what a quick look gives
inline ShakeReport shake_sample(const std::vector<ComparedLine>& lines = {ComparedLine::rig, ComparedLine::even,
                                                                          ComparedLine::bare},
                                const std::vector<ShakeDirection>& directions = {ShakeDirection::sideways,
                                                                                 ShakeDirection::up}) {
  ShakeReport report;
  report.frequencies = {0.5, 0.63, 0.8, 1.0, 1.25, 1.6, 2.0, 2.5, 3.15, 4.0};
  report.places = {0.15, 0.35, 0.5};
  for (const ComparedLine line : lines) {
    report.lines.push_back({line, true, "", 4500.0, kSampleRoundTrip, 0.41, 0.52});
    for (const ShakeDirection direction : directions) {
      for (const double place : report.places) {
        for (const double frequency : report.frequencies) {
          report.shakes.push_back(sample_shake(line, {frequency, place, direction, 0.1}));
        }
      }
    }
  }
  report.worst = 0;
  report.shakes[0].settling = {.settles = true, .time = 7.25};
  report.unevenness = {0.31, 0.44};
  report.lateral = {1.61, 1.72, 2.9};
  report.in_plane = {1.6, 3.2, 3.3, 3.4, 3.6, 4.1, 4.8};
  report.swings = {{"shakes", "the greatest of all shakes", {{0.5, false}, {1.7, false}, {3.0, true}}, std::nullopt},
                   {"gust", "8 to 14 m/s in 6 s", {}, "the file states no gust"}};
  report.pictured = {1.6, 0.15, ShakeDirection::sideways, 0.1};
  report.history = sample_history(report.pictured);
  report.headline =
      "Shaken sideways, over all frequencies and places 41 % comes back, less than on the same line evenly taped (55 %).";
  report.sentences = {
      "Every line is shaken once and left to itself.",
      report.headline,
      "Worst case: a sideways shake of 0.5 Hz at 9.30 m comes back with 47 % of its swing; evenly taped it is 67 %, "
      "without loops 82 %.",
      "Upwards, tapes make no difference."};
  report.swing_sentences = {"In the sideways shakes of this report the loop of bay 3 passes over the main and may wrap it."};
  report.notes = {"Webbing brook: no loss stated, none is computed.", "Flutter and twist of the webbing are not computed."};
  return report;
}

/// What a quick look gives: the rig alone, sideways.
inline ShakeReport quick_sample() {
  ShakeReport report = shake_sample({ComparedLine::rig}, {ShakeDirection::sideways});
  report.quick = true;
  report.in_plane = std::nullopt;
  report.swings.resize(1);
  report.headline = "Shaken sideways, over all frequencies and places 41 % comes back.";
  report.sentences = {"Every line is shaken once and left to itself.", "Most of these sideways shakes: 0.5 Hz, 47 % returns."};
  return report;
}

}  // namespace spanloom::fixture
