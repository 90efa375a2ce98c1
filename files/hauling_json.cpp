#include "files/hauling_json.h"

#include <fmt/format.h>

#include "files/json_values.h"

namespace spanloom {
namespace {

/// Grows when a key changes its meaning.
constexpr int kTensionFormat = 1;

Json step_json(const PullStep& step) {
  return {{"tension_near_N", finite(step.tension_near)}, {"tension_far_N", finite(step.tension_far)},
          {"pulled_m", finite(step.pulled)},             {"travel_m", finite(step.travel)},
          {"sag_m", finite(step.sag)},                   {"ground_clearance_m", optional(step.ground_clearance)}};
}

Json set_json(const SetAtWork& at) {
  return {{"parts", at.set.parts},
          {"rope_leaves", at.set.leaves == RopeLeaves::fixed_block ? "fixed" : "moving"},
          {"load_over_hand", finite(at.ratio)},
          {"hand_N", finite(at.hand)},
          {"hand_on_bushings_N", finite(at.hand_on_bushings)},
          {"people", at.people},
          {"rope_m", finite(at.rope)},
          {"anchor_N", finite(at.anchor)},
          {"holding_N", finite(at.holding)},
          {"holding_at_most_N", finite(at.holding_at_most)}};
}

Json settled_json(const Settled& at) {
  return {{"time_s", finite(at.time)}, {"creep", finite(at.creep)}, {"tension_N", finite(at.tension)},
          {"sag_m", finite(at.sag)},   {"pull_in_m", finite(at.pull_in)}};
}

template <class T, class ToJson>
Json list_of(const std::vector<T>& values, ToJson to_json) {
  Json out = Json::array();
  for (const T& value : values) out.push_back(to_json(value));
  return out;
}

Json stated(const Stated<double>& value, const char* key) {
  return {{key, finite(value.value)}, {"assumed", value.assumed}};
}

Json inputs_json(const Rig& rig, const HaulingOptions& options) {
  Json out = {{"hand_tight", stated(rig.main.hand_tight, "value_N")},
              {"sheave_efficiency", stated(options.efficiency, "value")},
              {"person_force", stated(options.person_force, "value_N")},
              {"sets_assumed", options.sets.empty()},
              {"reach_m", optional(options.reach)},
              {"creep_per_decade", optional(options.creep)},
              {"bend", nullptr}};
  if (options.bend)
    out["bend"] = {{"angle_rad", finite(options.bend->angle)}, {"friction", stated(options.bend->friction, "value")}};
  return out;
}

}  // namespace

std::string hauling_json(const Rig& rig, const HaulingReport& report, const HaulingOptions& options,
                         const std::vector<Check>& checks) {
  Json document = document_head("spanloom-tension", kTensionFormat, rig.title);
  Json& out = document["tension"];
  out["inputs"] = inputs_json(rig, options);
  out["hand_tight_N"] = finite(report.hand_tight);
  out["standing_N"] = finite(report.standing);
  out["steps"] = list_of(report.steps, step_json);
  out["load_N"] = finite(report.load);
  out["hauls"] = report.hauls ? Json(*report.hauls) : Json(nullptr);
  out["sets"] = list_of(report.sets, set_json);
  out["settling"] = list_of(report.settling, settled_json);
  out["letting_down"] = {{"let_out_m", finite(report.down.let_out)},
                         {"travel_m", finite(report.down.travel)},
                         {"stretch_m", finite(report.down.stretch)},
                         {"stored_J", finite(report.down.stored)},
                         {"same_fall_m", finite(report.down.same_fall)}};
  out["notes"] = report.notes;
  document["checks"] = checks_json(checks);
  return text_of(document);
}

std::string pull_steps_csv(const HaulingReport& report) {
  std::string out = "tension near [N],tension far [N],pulled [m],at the clamp [m],sag [m],ground clearance [m]";
  for (const SetAtWork& at : report.sets) {
    std::string parts;
    for (const int part : at.set.parts) parts += (parts.empty() ? "" : " x ") + std::to_string(part);
    out += fmt::format(",hand {} parts [N]", parts);
  }
  out += '\n';
  for (const PullStep& step : report.steps) {
    out +=
        fmt::format("{:.1f},{:.1f},{:.4f},{:.4f},{:.4f},{}", step.tension_near, step.tension_far, step.pulled,
                    step.travel, step.sag, step.ground_clearance ? fmt::format("{:.4f}", *step.ground_clearance) : "");
    for (const SetAtWork& at : report.sets)
      out += fmt::format(",{:.1f}", at.hand * step.tension_near / report.standing);
    out += '\n';
  }
  return out;
}

}  // namespace spanloom
