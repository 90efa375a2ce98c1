#include "files/taping_json.h"


namespace spanloom {
namespace {

/// Grows when a key changes its meaning.
constexpr int kTapingFormat = 1;

Json crews_json(const ReturnAsTaped& taped) {
  if (taped.samples == 0) return {{"lines", 0}, {"lines_without", taped.taut}, {"mean", nullptr}, {"p95", nullptr}, {"spread", nullptr}};
  return {{"lines", taped.samples},
          {"lines_without", taped.taut},
          {"mean", finite(taped.mean)},
          {"p95", finite(taped.p95)},
          {"spread", finite(taped.spread)}};
}

}  // namespace

Json touch_json(const std::vector<BayTouch>& touches) {
  Json out = Json::array();
  for (std::size_t k = 0; k < touches.size(); ++k) {
    out.push_back({{"bay", k + 1},
                   {"drop_m", finite(touches[k].drop)},
                   {"ankle_margin_m", finite(touches[k].ankle_margin)},
                   {"return", finite(touches[k].returned)}});
  }
  return out;
}

std::string taping_json(const Rig& rig, const TapingErrors& errors, const TapingStudy& study, const std::vector<BayTouch>& touch) {
  Json document = document_head("spanloom-taping", kTapingFormat, rig.title);
  Json& out = document["taping"];
  out["complete"] = !study.stopped;
  out["crews"] = study.crews.size();
  out["errors"] = {{"arm_span", finite(errors.arm_span)}, {"loop", finite(errors.backup)}};
  out["return_full_size"] = crews_json(study.glanced());
  out["return_small"] = crews_json(study.small());
  out["touch"] = touch_json(touch);
  return text_of(document);
}

}  // namespace spanloom
