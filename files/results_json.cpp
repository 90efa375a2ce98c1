#include "files/results_json.h"

#include <optional>

#include "files/json_values.h"
#include "files/place_json.h"
#include "sheet/work_list.h"

namespace spanloom {
namespace {

/// Grows when a key changes its meaning.
constexpr int kPlanFormat = 1;

Json standing_json(const StandingLine& line) {
  Json out = {{"tension_near_N", finite(line.tension_near)},
              {"tension_far_N", finite(line.tension_far)},
              {"sag_m", finite(line.sag)},
              {"sag_at_m", finite(line.sag_at)},
              {"main_natural_length_m", finite(line.main_natural_length)},
              {"backup_natural_length_m", finite(line.backup_natural_length)},
              {"round_trip_s", finite(line.round_trip)},
              {"backup_tension_max_N", finite(line.backup_tension_max)},
              {"ground_clearance_m", optional(line.ground_clearance)},
              {"ground_clearance_at_m", optional(line.ground_clearance_at)},
              {"zone_distance_m", optional(line.zone_distance)},
              {"zone_distance_at_m", optional(line.zone_distance_at)}};
  put_anchor(out, "near", line.near);
  put_anchor(out, "far", line.far);
  out["certificate"] = certificate_json(line.certificate);
  return out;
}

Json bays_json(const Rig& rig, const Plan& plan) {
  Json out = Json::array();
  const std::vector<TapeRow> rows = tape_rows(rig, plan);
  for (std::size_t i = 0; i < plan.bays.size(); ++i) {
    const PlanBay& bay = plan.bays[i];
    out.push_back({{"number", bay.number},
                   {"from_m", finite(bay.from)},
                   {"to_m", finite(bay.to)},
                   {"running_length_m", finite(bay.tape_s)},
                   {"main_natural_m", finite(bay.main_natural)},
                   {"backup_natural_m", finite(bay.backup_natural)},
                   {"main_standing_m", finite(bay.main_standing)},
                   {"arm_spans", finite(bay.arm_spans)},
                   {"drop_m", finite(bay.drop)},
                   {"slack", finite(bay.slack)},
                   {"ankle_margin_m", finite(bay.ankle_margin)},
                   {"left_over", bay.ends_leftover},
                   {"close", rows[i].close}});
  }
  return out;
}

Json places_json(const std::vector<WalkerPlace>& places) {
  Json out = Json::array();
  for (const WalkerPlace& place : places) out.push_back(place_json(place));
  return out;
}

Json wind_json(const std::optional<WindState>& wind) {
  if (!wind) return nullptr;
  return {{"speed_m_s", finite(wind->speed)},
          {"blow_out_m", finite(wind->blow_out)},
          {"loop_blow_out_m", finite(wind->loop_blow_out)},
          {"tension_max_N", finite(wind->tension_max)},
          {"hang_clearance_m", optional(wind->hang_clearance)},
          {"line_clearance_m", optional(wind->line_clearance)},
          {"worst", place_json(wind->worst)}};
}

Json pull_through_json(const std::optional<PullThrough>& pull) {
  if (!pull) return nullptr;
  return {{"hand_tight_N", finite(pull->hand_tight)},
          {"length_m", finite(pull->length)},
          {"sag_m", finite(pull->sag)}};
}

const char* run_name(bool on_backup) { return on_backup ? "backup" : "main"; }

Json lengths_json(const Rig& rig, const Plan& plan) {
  Json out = Json::array();
  for (const CutPiece& piece : cut_pieces(rig, plan)) {
    out.push_back({{"run", run_name(piece.on_backup)},
                   {"segment", piece.segment},
                   {"webbing", piece.webbing},
                   {"solved", piece.solved},
                   {"starts_m", finite(piece.starts)},
                   {"natural_length_m", finite(piece.natural_length)},
                   {"near_tail_m", finite(piece.near_tail)},
                   {"pull_room_m", finite(piece.pull_room)},
                   {"far_tail_m", finite(piece.far_tail)},
                   {"cut_length_m", finite(piece.cut_length())},
                   {"mass_kg", finite(piece.mass())}});
  }
  return out;
}

Json links_json(const Rig& rig, const Plan& plan) {
  Json out = Json::array();
  for (const LinkPlace& place : link_places(rig, plan)) {
    out.push_back({{"run", run_name(place.on_backup)},
                   {"name", place.link.name},
                   {"at_anchor", place.at_anchor},
                   {"starts_m", finite(place.starts)},
                   {"length_m", finite(place.link.length)},
                   {"mass_kg", finite(place.link.mass)},
                   {"strength_N", optional(place.link.strength)}});
  }
  return out;
}

Json forces_json(const std::vector<PieceForce>& forces) {
  Json out = Json::array();
  for (const PieceForce& piece : forces) {
    out.push_back({{"name", piece.name},
                   {"run", run_name(piece.on_backup)},
                   {"tension_N", finite(piece.tension)},
                   {"state", piece.state}});
  }
  return out;
}

}  // namespace

std::string plan_json(const Rig& rig, const Plan& plan, const std::vector<Check>& checks) {
  Json document = document_head("spanloom-plan", kPlanFormat, rig.title);
  Json& out = document["plan"];
  out["standing"] = standing_json(plan.standing);
  out["bays"] = bays_json(rig, plan);
  out["walker"] = places_json(plan.walker);
  out["checks"] = checks_json(checks);
  out["lengths"] = lengths_json(rig, plan);
  out["links"] = links_json(rig, plan);
  out["pull_through"] = pull_through_json(plan.pull_through);
  out["forces"] = forces_json(plan.forces);
  out["asked"] = places_json(plan.extra);
  out["rescue"] = places_json(plan.rescue);
  out["walker_rings_locked"] = places_json(plan.walker_other_joint);
  out["wind"] = wind_json(plan.wind);
  out["notes"] = plan.notes;
  return text_of(document);
}

}  // namespace spanloom
