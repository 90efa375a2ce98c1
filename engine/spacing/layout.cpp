#include "spacing/layout.h"

#include <cmath>
#include <string>

#include "base/input_error.h"

namespace spanloom {

double main_length_of(const Plan& plan) {
  double length = 0.0;
  for (const PlanBay& bay : plan.bays) length += bay.main_natural;
  return length;
}

Layout layout_of(const Plan& plan) {
  Layout layout;
  for (const PlanBay& bay : plan.bays) {
    layout.bays.push_back(bay.main_natural);
    layout.slack.push_back(bay.slack);
  }
  return layout;
}

Rig with_layout(const Rig& rig, const Layout& layout) {
  if (layout.bays.empty() || layout.bays.size() != layout.slack.size()) {
    throw InputError("layout", std::to_string(layout.bays.size()) + " bays and " + std::to_string(layout.slack.size()) + " slacks",
                     "as many of both, one at the least");
  }
  TapesAt tapes;
  double at = 0.0;
  for (std::size_t k = 0; k < layout.bays.size(); ++k) {
    if (!(layout.bays[k] > 0.0) || !std::isfinite(layout.bays[k])) throw InputError("layout", std::to_string(layout.bays[k]) + " m", "bays longer than nothing");
    at += layout.bays[k];
    if (k + 1 < layout.bays.size()) tapes.positions.push_back(at);
  }
  Rig taped = rig;
  taped.spacing.pattern = std::move(tapes);
  taped.backup.amount = SlackShare{layout.slack};
  return taped;
}

}  // namespace spanloom
