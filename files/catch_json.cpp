#include "files/catch_json.h"

#include <cmath>
#include <optional>
#include <vector>

#include "checks/catch_warnings.h"
#include "checks/catch_words.h"
#include "files/json_values.h"

namespace spanloom {
namespace {

/// Grows when a key changes its meaning.
constexpr int kCatchFormat = 1;

/// Null for tapes that never tear.
Json tape_strength(double strength) { return std::isfinite(strength) ? Json(strength) : Json(nullptr); }

void put_case(Json& out, const Rig& rig, const FallResult& fall) {
  out["walker_m"] = finite(fall.walker_m);
  out["in_anchor_zone"] = fall.in_anchor_zone;
  if (fall.what.kind == FallKind::main_failure) {
    out["cut_m"] = optional(fall.cut_m);
    out["cut_at"] = fall.cut_words;
    out["tapes"] = tapes_word(rig, fall);
    out["tape_strength_N"] = tape_strength(fall.what.tape_strength);
    out["tapes_torn"] = fall.torn;
  } else {
    out["step_off"] = name_of(fall.what.step_off);
  }
  out["posture"] = name_of(fall.what.posture);
  out["ring"] = name_of(fall.what.ring);
}

void put_body(Json& out, const FallResult& fall) {
  const auto if_held = [&](double value) { return fall.lost ? Json(nullptr) : Json(finite(value)); };
  out["lost"] = fall.lost;
  out["fall_m"] = if_held(fall.fall);
  out["body_N"] = if_held(fall.body);
  out["tight_s"] = fall.lost ? Json(nullptr) : optional(fall.tight);
  out["ring_run_m"] = if_held(fall.leash_ring_run);
  out["lowest_m"] = if_held(fall.lowest);
  out["lowest_at_m"] = if_held(fall.lowest_at);
  out["lowest_time_s"] = if_held(fall.lowest_time);
  out["clear_height_m"] = if_held(fall.clear_height);
  out["clearance_m"] = fall.lost ? Json(nullptr) : optional(fall.clearance);
  out["clearance_at_m"] = fall.lost ? Json(nullptr) : optional(fall.clearance_at);
  out["wall_m"] = fall.lost ? Json(nullptr) : optional(fall.wall);
  out["wall_speed_m_s"] = fall.lost || !fall.wall ? Json(nullptr) : Json(finite(fall.wall_speed));
}

void put_line(Json& out, const FallResult& fall) {
  out["backup_N"] = finite(fall.backup);
  out["main_N"] = finite(fall.main);
  out["near_N"] = finite(norm(fall.near));
  out["far_N"] = finite(norm(fall.far));
  out["near_vector_N"] = vector_of(fall.near);
  out["far_vector_N"] = vector_of(fall.far);
}

void put_certificate(Json& out, const FallResult& fall) {
  out["followed_s"] = finite(fall.time);
  out["step_s"] = finite(fall.step);
  out["energy_turned_over_J"] = finite(fall.turned_over);
  out["lost_in_webbing_J"] = finite(fall.ledger.lost_in_webbing);
  out["lost_to_air_J"] = finite(fall.ledger.lost_to_air);
  out["drift"] = fall.turned_over > 0.0 ? finite(fall.ledger.drift / fall.turned_over) : 0.0;
}

Json falls_json(const Rig& rig, const std::vector<FallResult>& falls) {
  Json out = Json::array();
  for (const FallResult& fall : falls) {
    Json one;
    put_case(one, rig, fall);
    put_body(one, fall);
    put_line(one, fall);
    put_certificate(one, fall);
    out.push_back(std::move(one));
  }
  return out;
}

Json worst_json(const std::vector<FallResult>& falls, const CatchReport::Worst& worst) {
  if (falls.empty()) return nullptr;
  return {{"body", worst.body}, {"fall", worst.fall}, {"clearance", worst.clearance}, {"wall", worst.wall},
          {"near", worst.near}, {"far", worst.far}, {"backup", worst.backup}};
}

Json legs_json(const std::optional<LegsUnderLoad>& legs) {
  if (!legs) return nullptr;
  Json loads = Json::array();
  for (const LegLoad& leg : legs->legs) loads.push_back(finite(leg.tension));
  return {{"points_N", std::move(loads)}, {"shift_m", vector_of(legs->shift)}, {"residual_N", finite(legs->residual)}};
}

Json states_json(const std::vector<AnchorState>& states) {
  Json out = Json::array();
  for (const AnchorState& state : states) {
    Json without = Json::array();
    for (const auto& legs : state.without) without.push_back(legs_json(legs));
    out.push_back({{"state", state.state},
                   {"cannot_hold", state.cannot_hold},
                   {"load_N", finite(norm(state.force))},
                   {"load_vector_N", vector_of(state.force)},
                   {"legs", legs_json(state.legs)},
                   {"why_not", state.why.empty() ? Json(nullptr) : Json(state.why)},
                   {"one_gone", std::move(without)}});
  }
  return out;
}

Json anchor_json(const AnchorSpec& anchor, const std::vector<AnchorState>& states) {
  Json points = Json::array();
  for (const AnchorPoint& point : anchor.points) {
    points.push_back({{"name", point.name}, {"at_m", vector_of(point.at)}, {"strength_N", optional(point.strength)}});
  }
  return {{"points", std::move(points)}, {"states", states_json(states)}};
}

Json search_json(const FallSearch& search) {
  return {{"events", search.events},
          {"failed", search.failed},
          {"lost", search.lost},
          {"told", search.told},
          {"mesh_change_body", finite(search.mesh_change_body)},
          {"mesh_change_fall", finite(search.mesh_change_fall)},
          {"words", search.words}};
}

Json costs_json(const CatchReport& report) {
  Json out = Json::array();
  for (const SlackCost& cost : report.costs) {
    const bool there = cost.why_not.empty();
    const auto if_there = [&](double value) { return there ? Json(finite(value)) : Json(nullptr); };
    out.push_back({{"factor", finite(cost.factor)},
                   {"slack", if_there(cost.slack)},
                   {"why_not", there ? Json(nullptr) : Json(cost.why_not)},
                   {"least_drop_m", if_there(cost.least_drop)},
                   {"mean_drop_m", if_there(cost.mean_drop)},
                   {"ankle_margin_m", if_there(cost.ankle_margin)},
                   {"backup_tension_N", if_there(cost.backup_tension)},
                   {"fall_m", if_there(cost.fall)},
                   {"body_N", if_there(cost.body)},
                   {"clear_height_m", if_there(cost.clear_height)},
                   {"return", report.cost_shakes > 0 ? if_there(cost.returned) : Json(nullptr)}});
  }
  return out;
}

}  // namespace

std::string catch_json(const Rig& rig, const CatchReport& report, const CatchVerdicts& verdicts) {
  Json document = document_head("spanloom-catch", kCatchFormat, rig.title, Falls::computed);
  Json& out = document["catch"];
  out["complete"] = !report.stopped;
  out["quick"] = report.quick;
  out["warnings"] = catch_warnings(rig, report, verdicts.falls, UnitSystem::metric);
  const std::optional<double> clear_height = clear_height_told(report);
  out["clear_height_needed_m"] = optional(clear_height);
  out["clear_height_at_m"] = clear_height ? Json(finite(report.clear_height_at)) : Json(nullptr);
  out["main_failure"] = falls_json(rig, report.main_failure);
  out["worst_main_failure"] = worst_json(report.main_failure, report.worst_failure);
  out["leash_fall"] = falls_json(rig, report.leash_fall);
  out["worst_leash_fall"] = worst_json(report.leash_fall, report.worst_leash_fall);
  out["tape_strength_known"] = report.tape_strength_known;
  out["search"] = search_json(report.search);
  out["anchors"] = {{"near", anchor_json(rig.near_anchor, report.near)}, {"far", anchor_json(rig.far_anchor, report.far)}};
  out["costs"] = costs_json(report);
  out["checks"] = checks_json(verdicts.falls);
  out["plan_checks"] = checks_json(verdicts.plan);
  out["notes"] = report.notes;
  return text_of(document);
}

}  // namespace spanloom
