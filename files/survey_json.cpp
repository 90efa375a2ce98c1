#include "files/survey_json.h"

#include <cmath>

#include <fmt/format.h>

#include "files/json_values.h"

namespace spanloom {
namespace {

/// Grows when a key changes its meaning.
constexpr int kSurveyFormat = 1;

Json gap_json(const GapRise& g) {
  return {{"gap_m", finite(g.gap)},
          {"gap_sd_m", finite(g.gap_sd())},
          {"rise_m", finite(g.rise)},
          {"rise_sd_m", finite(g.rise_sd())},
          {"gap_rise_covariance_m2", finite(g.covariance)}};
}

Json ways_json(const SurveyReport& report) {
  Json ways = Json::array();
  for (const WayResult& way : report.ways) {
    Json out = {{"way", name_of(way.way)}, {"words", way.words}};
    out.update(gap_json(way.found));
    out["part"] = finite(way.part);
    out["gap_off_sd"] = optional(way.gap_off);
    out["rise_off_sd"] = optional(way.rise_off);
    Json shares = Json::array();
    for (const Share& share : way.shares) {
      shares.push_back({{"of", share.of}, {"gap_sd_m", finite(share.gap_sd)}, {"rise_sd_m", finite(share.rise_sd)}});
    }
    out["doubt_from"] = shares;
    ways.push_back(out);
  }
  return ways;
}

Json length_json(const LengthInDoubt& d) {
  return {{"length_m", finite(d.length)},
          {"sd_m", finite(d.sd)},
          {"by_gap_m", finite(d.by_gap)},
          {"by_rise_m", finite(d.by_rise)}};
}

Json rig_json(const SurveyedRig& rig) {
  Json out = {{"title", rig.title}};
  if (!rig.outcome.effect) {
    out["why_not"] = rig.outcome.why;
    return out;
  }
  const GapEffect& effect = *rig.outcome.effect;
  out["main"] = length_json(effect.main);
  out["backup"] = length_json(effect.backup);
  out["tension_cut_as_planned"] = {{"tension_N", finite(effect.tension.planned)},
                                   {"gap_longer_N", optional(effect.tension.longer)},
                                   {"gap_shorter_N", optional(effect.tension.shorter)},
                                   {"far_higher_N", optional(effect.tension.higher)},
                                   {"far_lower_N", optional(effect.tension.lower)}};
  return out;
}

Json ground_json(const GroundProfile& ground) {
  Json points = Json::array();
  for (const GroundPoint& p : ground.points)
    points.push_back({{"distance_m", finite(p.distance)}, {"height_m", finite(p.height)}});
  return {{"from", ground.from}, {"points", points}};
}

}  // namespace

std::string survey_json(const Survey& survey, const SurveyReport& report, const std::optional<SurveyedRig>& rig) {
  Json document = document_head("spanloom-survey", kSurveyFormat, survey.title);
  Json& out = document["survey"];
  out = gap_json(report.found);
  const CutVerdict verdict = cut_verdict(report, rig, UnitSystem::metric);
  out["well_enough_to_cut"] = verdict.well_enough;
  out["verdict"] = verdict.words;
  out["contradiction"] = report.torn;
  out["ways"] = ways_json(report);
  out["rig"] = rig ? rig_json(*rig) : Json();
  out["ground"] = ground_json(report.ground);
  out["notes"] = report.notes;
  out["assumed"] = report.assumed;
  return text_of(document);
}

std::string toml_length(double si) { return fmt::format("\"{:.3f} m\"", si); }

std::string ground_csv(const GroundProfile& ground) {
  std::string out =
      "# Ground under the line, from a survey. distance: along the gap from the near anchor; height: above it\n";
  if (ground.height_sd > 0.0) out += "# " + track_caution(ground, UnitSystem::metric) + '\n';
  out += "distance [m],height [m]\n";
  for (const GroundPoint& p : ground.points) out += fmt::format("{:.3f},{:.3f}\n", p.distance, p.height);
  return out;
}

std::string site_toml(const SurveyReport& report) {
  const GapRise& g = report.found;
  std::string out = fmt::format(
      "# From a survey. One standard deviation: gap {:.3f} m, rise {:.3f} m.{}\n[site]\ngap = {}\nrise = {}\n",
      g.gap_sd(), g.rise_sd(), report.well_enough ? "" : " NOT known well enough to cut webbing.", toml_length(g.gap),
      toml_length(g.rise));
  if (!report.ground.points.empty()) out += fmt::format("ground = \"{}\"\n", kGroundName);
  return out;
}

}  // namespace spanloom
