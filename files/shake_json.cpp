#include "files/shake_json.h"

#include <numbers>
#include <optional>
#include <vector>

#include "files/json_values.h"

namespace spanloom {
namespace {

/// Grows when a key changes its meaning.
constexpr int kShakeFormat = 1;

Json numbers_or_null(const std::optional<std::vector<double>>& values) {
  return values ? numbers_of(*values) : Json(nullptr);
}

/// What the ledger does not account for, as a share of the energy put in.
double drift_share(const EnergyLedger& ledger) { return ledger.put_in > 0.0 ? ledger.drift / ledger.put_in : 0.0; }

Json shakes_json(const ShakeReport& report) {
  Json out = Json::array();
  for (const ReportedShake& shake : report.shakes) {
    const ShakeResult& result = shake.result;
    out.push_back({{"line", name_of(shake.line)},
                   {"frequency_Hz", finite(result.shake.frequency)},
                   {"place_m", finite(result.place_m)},
                   {"place_share", finite(result.shake.place)},
                   {"direction", name_of(result.shake.direction)},
                   {"return", finite(result.returned)},
                   {"energy_share", finite(result.energy_share)},
                   {"settling_s", optional(shake.settling_time())},
                   {"force_N", finite(result.force)},
                   {"first_swing_m", finite(result.swing)},
                   {"round_trip_s", finite(result.round_trip)},
                   {"put_in_J", finite(result.ledger.put_in)},
                   {"drift", finite(drift_share(result.ledger))}});
  }
  return out;
}

Json ledger_json(const ShakeReport& report) {
  if (!report.worst) return nullptr;
  const EnergyLedger& ledger = report.shakes[*report.worst].result.ledger;
  return {{"put_in_J", finite(ledger.put_in)},
          {"lost_J", finite(ledger.lost_in_webbing + ledger.lost_to_air)},
          {"drift", finite(drift_share(ledger))},
          {"lost_in_webbing_J", finite(ledger.lost_in_webbing)},
          {"lost_to_air_J", finite(ledger.lost_to_air)}};
}

Json lines_json(const ShakeReport& report) {
  Json out = Json::array();
  for (const ComparedState& line : report.lines) {
    const auto if_there = [&](double value) { return line.there ? Json(finite(value)) : Json(nullptr); };
    out.push_back({{"line", name_of(line.line)},
                   {"computed", line.there},
                   {"why_not", line.there ? Json(nullptr) : Json(line.why_not)},
                   {"tension_N", if_there(line.tension)},
                   {"round_trip_s", if_there(line.round_trip)},
                   {"return_mean_sideways", if_there(line.mean_sideways)},
                   {"return_mean_up", if_there(line.mean_up)}});
  }
  return out;
}

Json swing_json(const ShakeReport& report) {
  constexpr double kDegrees = 180.0 / std::numbers::pi;
  Json out = Json::array();
  for (const SwingCase& swing : report.swings) {
    Json bays = Json::array();
    for (std::size_t i = 0; i < swing.loops.size(); ++i) {
      bays.push_back({{"bay", i + 1},
                      {"greatest_deg", finite(kDegrees * swing.loops[i].greatest)},
                      {"passes_over", swing.loops[i].passes_over}});
    }
    out.push_back({{"case", swing.name},
                   {"what", swing.what},
                   {"why_not", swing.why_not ? Json(*swing.why_not) : Json(nullptr)},
                   {"bays", std::move(bays)}});
  }
  return out;
}

}  // namespace

std::string shake_json(const Rig& rig, const ShakeReport& report) {
  Json document = document_head("spanloom-shake", kShakeFormat, rig.title);
  Json& out = document["shake"];
  out["complete"] = !report.stopped;
  out["quick"] = report.quick;
  out["modes"] = {{"lateral_Hz", numbers_or_null(report.lateral)}, {"in_plane_Hz", numbers_or_null(report.in_plane)}};
  out["shakes"] = shakes_json(report);
  out["worst"] = report.worst ? Json(*report.worst) : Json(nullptr);
  out["ledger"] = ledger_json(report);
  out["lines"] = lines_json(report);
  out["unevenness"] = {{"bays", finite(report.unevenness.bays)}, {"drops", finite(report.unevenness.drops)}};
  out["swing"] = swing_json(report);
  out["sentences"] = report.sentences;
  out["swing_sentences"] = report.swing_sentences;
  out["notes"] = report.notes;
  return text_of(document);
}

}  // namespace spanloom
