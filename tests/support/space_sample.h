// A report of a search for spacing made by hand, so that words, figures, pages and files are tested on their own. The line
// stands and its layouts are those of their phrases; drops are a parabola's, returns and margins are invented.
#pragma once

#include <algorithm>
#include <cmath>
#include <numeric>
#include <stdexcept>
#include <string>
#include <utility>
#include <vector>

#include "checks/verdicts.h"
#include "spacing/space_report.h"
#include "support/plain_rig.h"
#include "support/planned.h"

namespace spanloom::fixture {

inline constexpr double kSpaceSlack = 0.015;       // of the line as it is [-]
inline constexpr std::size_t kSpaceChosen = 1;     // of the points

/// 20 m, 4 kN, eight even bays of slack 1.5 %.
inline Rig space_rig() {
  Rig rig = plain_rig();
  rig.title = "space sample";
  rig.site.gap = 20.0;
  rig.site.ground = {{0.0, -1.5}, {1.0, -1.5}, {1.0, -12.0}, {19.0, -12.0}, {19.0, -1.5}, {20.0, -1.5}};
  rig.near_anchor.edge = rig.far_anchor.edge = 1.0;
  rig.backup.amount = SlackShare{{kSpaceSlack}};
  rig.spacing.pattern = EvenBays{2.45};
  rig.limits.least_drop.value = 0.05;
  rig.limits.least_ankle_margin.value = 0.02;
  return rig;
}

/// The rig with its plan, solved once.
inline const Planned& space_planned() {
  static const Planned both = planned(space_rig());
  return both;
}
inline const Plan& space_plan() { return space_planned().plan; }

/// Natural length of webbing and connectors of the main [m].
inline double space_main_length() {
  const std::vector<PlanBay>& bays = space_plan().bays;
  return std::accumulate(bays.begin(), bays.end(), 0.0, [](double sum, const PlanBay& bay) { return sum + bay.main_natural; });
}

struct SampleReturn {
  double moved = 0.4, small = 0.4;   ///< mean returns [-]
  std::size_t shakes = 10;           ///< that gave a number
};

/// From half to one and a half of the mean.
inline MovedReturn sample_moved(const SampleReturn& back) {
  MovedReturn moved;
  const double last = double(back.shakes - 1);
  for (std::size_t i = 0; i < back.shakes; ++i) moved.each.push_back(back.moved * (0.5 + double(i) / last));
  moved.mean = back.moved;
  moved.worst = 1.5 * back.moved;
  moved.shakes = back.shakes;
  return moved;
}

/// @param phrase  empty: the line as it is, or even
inline JudgedLayout sample_layout(std::optional<Phrase> phrase, Layout layout, const SampleReturn& back) {
  JudgedLayout judged;
  judged.phrase = std::move(phrase);
  judged.layout = std::move(layout);
  judged.least_ankle_margin = INFINITY;
  for (std::size_t k = 0; k < judged.layout.bays.size(); ++k) {
    const double bay = judged.layout.bays[k];
    // A parabola of arc l (1 + slack) on a chord l hangs by l sqrt(3 slack / 8).
    const double drop = bay * std::sqrt(0.375 * judged.layout.slack[k]);
    judged.drop.push_back(drop);
    judged.ankle_margin.push_back(0.7 * drop);
    judged.least_ankle_margin = std::min(judged.least_ankle_margin, 0.7 * drop);
    const double deeper = kTouch * 3.0 * bay / (16.0 * drop);
    judged.touch.push_back({deeper, 0.9 * deeper, 0.001 * (double(k % 3) - 1.0)});
  }
  judged.small = {back.small, 1.6 * back.small};
  judged.small_as_taped = {.mean = back.small + 0.02, .p95 = back.small + 0.06, .spread = 0.02, .samples = 40, .taut = 1};
  judged.moved = sample_moved(back);
  judged.backup_tension = 120.0 + 300.0 * back.moved;
  return judged;
}

/// A layout found. @throws std::logic_error where the phrase makes another number of tapes: the sample is wrong
inline JudgedLayout sample_found(const Phrase& phrase, std::size_t tapes, const SampleReturn& back) {
  std::optional<Layout> layout = layout_of(phrase, space_planned().rig.spacing, space_main_length());
  if (!layout || layout->bays.size() != tapes + 1) {
    throw std::logic_error("space_sample.h: not " + std::to_string(tapes) + " tapes");
  }
  return sample_layout(phrase, std::move(*layout), back);
}

/// Of 7, 9 and 11 tapes; the first counted from both anchors.
inline std::vector<JudgedLayout> sample_points() {
  std::vector<JudgedLayout> points = {
      sample_found({{3, 2, 3, 3}, {0.021, 0.015}, CountedFrom::both_anchors, BayStep::half_arm_span}, 7, {0.34, 0.36}),
      sample_found({{2, 3, 2, 2}, {0.016, 0.014, 0.022}, CountedFrom::near_anchor, BayStep::half_arm_span}, 9, {0.27, 0.3}),
      sample_found({{2, 2, 1, 2, 2}, {0.019}, CountedFrom::near_anchor, BayStep::half_arm_span}, 11, {0.25, 0.31, 9})};
  points.back().moved.each.push_back(-1.0);
  points.back().moved.without = 1;
  points.back().moved.over = {3};
  JudgedLayout& chosen = points[kSpaceChosen];
  chosen.moved_glance = 0.26;
  chosen.moved_as_taped = ReturnAsTaped{.mean = 0.28, .p95 = 0.33, .spread = 0.03, .samples = 20, .taut = 0};
  return points;
}

/// The layout planned and checked as any rig.
inline ProvenLayout sample_proven(const Layout& layout) {
  Planned taped = planned(with_layout(space_rig(), layout));
  std::vector<Check> checks = judge(taped.rig, taped.plan);
  return {std::move(taped.rig), std::move(taped.plan), std::move(checks), {}};
}

/// Drops and margins of its own plan, so that the two never contradict.
inline void show_as_planned(JudgedLayout& line, const Plan& plan) {
  for (std::size_t k = 0; k < plan.bays.size(); ++k) {
    line.drop[k] = plan.bays[k].drop;
    line.ankle_margin[k] = plan.bays[k].ankle_margin;
  }
  line.least_ankle_margin = plan.bays[plan.worst_ankle_bay].ankle_margin;
}

inline SpaceReport space_sample() {
  SpaceReport report;
  report.bounds = usual_bounds(space_planned().rig, space_plan());
  report.seed = 7;
  report.judged = 6000;
  report.glanced = 96;
  report.shaken = 13;
  report.judged_shakes = 10;
  report.own = sample_layout({}, layout_of(space_plan()), {0.52, 0.5});
  report.own.moved_glance = 0.5;
  report.own.moved_as_taped = ReturnAsTaped{.mean = 0.5, .p95 = 0.56, .spread = 0.03, .samples = 20, .taut = 1};
  report.own.moved.over = {2, 7};
  report.own.over_in_gust = {1, 2, 7, 8};
  report.own.backup_tension = 331.0;
  report.own.breaks = {"The backup carries 331 N while the main holds, more than 300 N."};
  report.points = sample_points();
  report.chosen = kSpaceChosen;
  const std::size_t bays = report.points[kSpaceChosen].layout.bays.size();
  const Layout even{std::vector<double>(bays, space_main_length() / double(bays)), std::vector<double>(bays, kSpaceSlack)};
  report.even = sample_layout({}, even, {0.58, 0.55});
  report.random = RandomLayouts{8, {0.41, 0.7}, {0.4, 0.66}, 0.05};
  static const ProvenLayout proven = sample_proven(report.points[kSpaceChosen].layout);
  report.proven = proven;
  show_as_planned(report.points[kSpaceChosen], proven.plan);
  report.practice = {"half to 2 arm spans on lines under 20 arm spans", true, {}};
  report.sentences = {"Taped so, 27 % of a shake comes back; of the line as it is 52 %.",
                      "Two more tapes bring the return down by 2 % of the shake."};
  report.notes = {"Returns are those of sideways shakes; upwards, tapes make no difference."};
  return report;
}

/// Stopped before anything was shaken.
inline SpaceReport stopped_space_sample() {
  SpaceReport report = space_sample();
  report.stopped = true;
  report.even.reset();
  report.random.reset();
  report.own.moved = {};
  report.own.moved_as_taped.reset();
  for (JudgedLayout& found : report.points) {
    found.moved = {};
    found.moved_as_taped.reset();
  }
  return report;
}

/// Nothing found that keeps the limits, and no even line beside the rig.
inline SpaceReport empty_space_sample() {
  SpaceReport report = space_sample();
  report.points.clear();
  report.chosen.reset();
  report.proven.reset();
  report.even.reset();
  report.why_no_even = "Nothing was found to compare it with.";
  report.random.reset();
  report.practice = {};
  report.sentences = {"No layout was found that keeps every limit."};
  return report;
}

}  // namespace spanloom::fixture
