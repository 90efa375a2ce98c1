#include "files/webbing_json.h"

#include "files/json_values.h"

namespace spanloom {
namespace {

/// Grows when a key changes its meaning.
constexpr int kWebbingFormat = 1;

Json webbing_json(const KnownWebbing& webbing) {
  Json out = {{"name", webbing.name},
              {"generic", webbing.generic},
              {"mass_kg_per_m", optional(webbing.mass_per_length)},
              {"width_m", optional(webbing.width)},
              {"thickness_m", optional(webbing.thickness)},
              {"strength_N", optional(webbing.strength)},
              {"wet_keeps", optional(webbing.wet_keeps)},
              {"loss", optional(webbing.loss)}};
  Json& curve = out["curve"] = Json::array();
  for (const CurvePoint& p : webbing.curve.points()) curve.push_back({{"tension_N", finite(p.tension)}, {"stretch", finite(p.stretch)}});
  return out;
}

Json cycles_json(const PullTest& test) {
  Json out = Json::array();
  for (const CycleFound& cycle : test.cycles) {
    out.push_back({{"full", cycle.full},
                   {"tension_greatest_N", finite(cycle.greatest_tension)},
                   {"stretch_greatest", finite(cycle.greatest_stretch)},
                   {"stretch_before", finite(cycle.stretch_before)},
                   {"stretch_after", optional(cycle.stretch_after)},
                   {"growth", optional(cycle.growth)},
                   {"loss", optional(cycle.loss)},
                   {"loss_of_loading", optional(cycle.loss_of_loading)}});
  }
  return out;
}

Json points_json(const PullTest& test) {
  Json out = Json::array();
  for (const PointFound& point : test.points) {
    out.push_back({{"tension_N", finite(point.at.tension)},
                   {"stretch", finite(point.at.stretch)},
                   {"settled_least_N", optional(point.least)},
                   {"settled_greatest_N", optional(point.greatest)}});
  }
  return out;
}

}  // namespace

std::string pull_test_json(const KnownWebbing& webbing, const PullTest& test, const std::string& file) {
  Json document = document_head("spanloom-webbing", kWebbingFormat, webbing.name);
  document["webbing"] = webbing_json(webbing);
  Json& out = document["pull_test"];
  out["file"] = file;
  out["cycles"] = cycles_json(test);
  out["curve_of_cycle"] = test.chosen + 1;
  out["lengthened"] = finite(test.lengthened);
  out["points"] = points_json(test);
  out["residual_rms_N"] = finite(test.residual_rms);
  out["miss_greatest_N"] = finite(test.greatest_miss);
  out["miss_greatest_at_stretch"] = finite(test.greatest_miss_at);
  out["from_isotonic_rms_N"] = finite(test.from_isotonic_rms);
  out["tension_lowest_N"] = finite(test.lowest_tension);
  out["loss"] = optional(test.loss);
  out["notes"] = test.notes;
  return text_of(document);
}

std::string fibre_json(const KnownWebbing& webbing, const Fibre& fibre) {
  Json document = document_head("spanloom-webbing", kWebbingFormat, webbing.name);
  document["webbing"] = webbing_json(webbing);
  document["fibre"] = {{"name", fibre.name},
                       {"modulus_N_m_per_kg", finite(fibre.modulus)},
                       {"strength_N_m_per_kg", finite(fibre.strength)},
                       {"break_stretch", finite(fibre.break_stretch)}};
  return text_of(document);
}

}  // namespace spanloom
