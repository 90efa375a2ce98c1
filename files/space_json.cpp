#include "files/space_json.h"

#include <optional>
#include <vector>

#include "files/json_values.h"
#include "files/taping_json.h"
#include "files/space_parts.h"

namespace spanloom {
namespace {

/// Grows when a key changes its meaning.
constexpr int kSpaceFormat = 1;

Json small_json(const JudgedLayout& line) {
  const bool taped = line.small_as_taped.samples > 0;
  const auto if_taped = [&](double value) { return taped ? Json(finite(value)) : Json(nullptr); };
  return {{"mean", finite(line.small.mean)},
          {"worst", finite(line.small.worst)},
          {"taped_mean", if_taped(line.small_as_taped.mean)},
          {"taped_p95", if_taped(line.small_as_taped.p95)}};
}

/// Null where no crew's line stood.
std::optional<ReturnAsTaped> moved_as_taped(const JudgedLayout& line) {
  return line.moved_as_taped && line.moved_as_taped->samples > 0 ? line.moved_as_taped : std::nullopt;
}

/// Null of a shake that gave no number.
Json returns_of_shakes(const MovedReturn& moved) {
  Json out = Json::array();
  for (const double returned : moved.each) out.push_back(returned >= 0.0 ? Json(finite(returned)) : Json(nullptr));
  return out;
}

Json layout_json(const JudgedLayout& line) {
  const bool moved = line.moved.shakes > 0;
  const auto if_moved = [&](double value) { return moved ? Json(finite(value)) : Json(nullptr); };
  const std::optional<ReturnAsTaped> taped = moved_as_taped(line);
  return {{"tapes", line.tapes()},
          {"bays_m", numbers_of(line.layout.bays)},
          {"slack", numbers_of(line.layout.slack)},
          {"drop_m", numbers_of(line.drop)},
          {"ankle_margin_m", numbers_of(line.ankle_margin)},
          {"phrase", line.phrase ? phrase_json(*line.phrase) : Json(nullptr)},
          {"return_mean", if_moved(line.moved.mean)},
          {"return_worst", if_moved(line.moved.worst)},
          {"return_p95", taped ? Json(finite(taped->p95)) : Json(nullptr)},
          {"return_taped_mean", taped ? Json(finite(taped->mean)) : Json(nullptr)},
          {"return_glance", optional(line.moved_glance)},
          {"shakes", line.moved.shakes},
          {"shakes_left_out", line.moved.without},
          {"return_of_shakes", returns_of_shakes(line.moved)},
          {"small", small_json(line)},
          {"least_ankle_margin_m", finite(line.least_ankle_margin)},
          {"backup_tension_N", finite(line.backup_tension)},
          {"loops_over", line.moved.over},
          {"loops_over_in_gust", line.over_in_gust},
          {"taut_crews", line.taut_crews},
          {"touch", touch_json(line.touch)},
          {"breaks", line.breaks}};
}

Json layouts_json(const SpaceReport& report) {
  Json out = Json::array();
  if (report.chosen) out.push_back(layout_json(report.points[*report.chosen]));
  for (std::size_t i = 0; i < report.points.size(); ++i) {
    if (i != report.chosen) out.push_back(layout_json(report.points[i]));
  }
  return out;
}

Json random_json(const std::optional<RandomLayouts>& random) {
  if (!random) return nullptr;
  return {{"count", random->count},
          {"return_mean", finite(random->moved.mean)},
          {"return_worst", finite(random->moved.worst)},
          {"return_spread", finite(random->moved_spread)},
          {"small", {{"mean", finite(random->small.mean)}, {"worst", finite(random->small.worst)}}}};
}

Json bounds_json(const LayoutBounds& bounds, const Spacing& spacing) {
  const double step = length_of(bounds.step, spacing);
  return {{"step_m", finite(step)},
          {"shortest_m", finite(step * bounds.shortest)},
          {"longest_m", finite(step * bounds.longest)},
          {"most_tapes", bounds.most_tapes},
          {"least_slack", finite(bounds.least_slack)},
          {"most_slack", finite(bounds.most_slack)},
          {"slack_step", finite(bounds.slack_step)},
          {"most_drop_m", finite(bounds.most_drop)},
          {"most_backup_tension_N", finite(bounds.most_backup_tension)},
          {"longest_phrase", bounds.longest_phrase},
          {"longest_slack_phrase", bounds.longest_slack_phrase}};
}

Json practice_json(const Practice& practice) {
  return {{"words", practice.words}, {"agrees", practice.agrees}, {"outside_bays", practice.outside}};
}

}  // namespace

std::string space_json(const Rig& rig, const SpaceReport& report) {
  Json document = document_head("spanloom-space", kSpaceFormat, rig.title);
  Json& out = document["space"];
  out["complete"] = !report.stopped;
  out["quick"] = report.quick;
  out["seed"] = report.seed;
  out["errors"] = {{"arm_span", finite(report.errors.arm_span)}, {"loop", finite(report.errors.backup)}};
  out["judged"] = report.judged;
  out["glanced"] = report.glanced;
  out["shaken"] = report.shaken;
  out["judged_shakes"] = report.judged_shakes;
  out["chosen"] = report.chosen ? Json(0) : Json(nullptr);
  out["layouts"] = layouts_json(report);
  out["own"] = layout_json(report.own);
  out["even"] = report.even ? layout_json(*report.even) : Json(nullptr);
  out["why_no_even"] = report.even ? Json(nullptr) : Json(report.why_no_even);
  out["random"] = random_json(report.random);
  out["bounds"] = bounds_json(report.bounds, rig.spacing);
  out["practice"] = practice_json(report.practice);
  out["sentences"] = report.sentences;
  out["notes"] = report.notes;
  out["checks"] = report.proven ? checks_json(report.proven->checks) : Json(nullptr);
  return text_of(document);
}

}  // namespace spanloom
