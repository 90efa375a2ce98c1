#include "sheet/shake_numbers.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>

#include <fmt/format.h>

namespace spanloom {

std::vector<ComparedLine> lines_shaken(const ShakeReport& report, ShakeDirection direction) {
  std::vector<ComparedLine> lines;
  for (const ComparedLine line : {ComparedLine::rig, ComparedLine::even, ComparedLine::bare}) {
    const bool any = std::any_of(report.shakes.begin(), report.shakes.end(), [&](const ReportedShake& shake) {
      return shake.line == line && shake.result.shake.direction == direction;
    });
    if (any) lines.push_back(line);
  }
  return lines;
}

const char* label_of(ComparedLine line) {
  switch (line) {
    case ComparedLine::rig: return "this rig";
    case ComparedLine::even: return "evenly taped";
    case ComparedLine::bare: return "no loops";
  }
  return "no loops";
}

std::string whole_percent(double share) { return fmt::format("{:.0f}", 100.0 * share); }

std::string hertz(double frequency) {
  // Third-octaves are called by their rounded names: ISO 266.
  constexpr std::array<double, 10> kNames = {0.5, 0.63, 0.8, 1.0, 1.25, 1.6, 2.0, 2.5, 3.15, 4.0};
  for (const double name : kNames) {
    if (std::abs(frequency / name - 1.0) < 0.012) return fmt::format("{:g}", name);
  }
  return fmt::format("{:.3g}", frequency);
}

const char* quick_look_words() {
  return "QUICK LOOK: this rig alone, shaken sideways only. Shakes upward, the lines to compare with, gust and bounce "
         "are not computed; the worst may be there.";
}

const char* after_a_shake(const ShakeReport& report) {
  const bool loops = std::any_of(report.swings.begin(), report.swings.end(),
                                 [](const SwingCase& swing) { return !swing.loops.empty(); });
  return loops ? "After a shake look along the line: clear any loop that lies over the main before anyone walks." : "";
}

std::string bays_text(const std::vector<std::size_t>& bays) {
  std::string text = bays.size() == 1 ? "bay" : "bays";
  for (std::size_t first = 0, last = 0; first < bays.size(); first = ++last) {
    while (last + 1 < bays.size() && bays[last + 1] == bays[last] + 1) ++last;
    if (last - first < 2) last = first;  // two neighbours read better one by one
    text += fmt::format("{} {}", first == 0 ? "" : ",", bays[first]);
    if (last > first) text += fmt::format(" to {}", bays[last]);
  }
  return text;
}

const ShakeResult* pictured_result(const ShakeReport& report) {
  const Shake& shake = report.pictured;
  const ReportedShake* found = report.find(ComparedLine::rig, shake.frequency, shake.place, shake.direction);
  return found == nullptr ? nullptr : &found->result;
}

}  // namespace spanloom
