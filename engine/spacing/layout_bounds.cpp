#include "spacing/layout_bounds.h"

#include <algorithm>
#include <cmath>
#include <limits>

#include <fmt/format.h>

#include "base/input_error.h"

namespace spanloom {
namespace {

constexpr double kLongLine = 100.0;   // [m]
constexpr double kShortLine = 20.0;   // [arm spans]

struct ArmSpans { double least, most; };

ArmSpans practice_of(const Rig& rig) {
  if (rig.site.gap >= kLongLine) return {2.0, 4.0};
  if (rig.site.gap < kShortLine * rig.spacing.arm_span.value) return {0.5, 2.0};
  return {1.0, 3.0};
}

}  // namespace

LayoutBounds usual_bounds(const Rig& rig, const Plan& plan, BayStep step) {
  LayoutBounds bounds;
  bounds.step = step;
  const ArmSpans practice = practice_of(rig);
  const double in_steps = rig.spacing.arm_span.value / length_of(step, rig.spacing);
  bounds.shortest = int(std::lround(practice.least * in_steps));
  bounds.longest = int(std::lround(practice.most * in_steps));
  double least = INFINITY, most = 0.0;
  for (const PlanBay& bay : plan.bays) least = std::min(least, bay.slack), most = std::max(most, bay.slack);
  const auto rounded = [&](double slack) { return bounds.slack_step * std::round(slack / bounds.slack_step); };
  bounds.least_slack = std::max(bounds.slack_step, rounded(0.5 * least));
  bounds.most_slack = std::clamp(rounded(2.0 * most), bounds.least_slack, 1.0);
  bounds.most_backup_tension = rig.limits.backup_tension.value;
  return bounds;
}

void check_bounds(const LayoutBounds& bounds) {
  const auto refuse = [](const std::string& read, const std::string& expected) { throw InputError("bounds", read, expected); };
  constexpr int kLongest = 5000;
  const char* step = bounds.step == BayStep::centimetre ? "cm" : "half arm spans";
  if (bounds.shortest < 1 || bounds.longest < bounds.shortest) {
    refuse(fmt::format("bays from {} to {} {}", bounds.shortest, bounds.longest, step), "the shortest above 0, the longest no shorter");
  }
  if (bounds.longest > kLongest) refuse(fmt::format("bays of up to {} {}", bounds.longest, step), fmt::format("at most {}", kLongest));
  if (bounds.most_tapes < 1) refuse("no tapes", "one at the least");
  if (!(bounds.least_slack > 0.0) || !(bounds.most_slack >= bounds.least_slack) || !(bounds.most_slack <= 1.0)) {
    refuse(fmt::format("slack from {:g} to {:g} %", 100.0 * bounds.least_slack, 100.0 * bounds.most_slack),
           "the least above 0, the most no less and at most 100 %");
  }
  if (!(bounds.slack_step > 0.0) || !std::isfinite(bounds.slack_step)) refuse("a step of slack that is not above 0", "a share such as 0.1 %");
  if (!(bounds.most_drop > 0.0)) refuse(fmt::format("a most drop of {:g} m", bounds.most_drop), "more than 0 m");
  if (!(bounds.most_backup_tension > 0.0)) refuse(fmt::format("a backup tension of {:g} N", bounds.most_backup_tension), "more than 0 N");
  if (bounds.longest_phrase < 1 || bounds.longest_slack_phrase < 1) refuse("an empty phrase", "one bay at the least");
}

LimitRules::LimitRules(const Rig& rig, const Plan& plan, const LayoutBounds& bounds)
    : least_ankle_margin_(rig.limits.least_ankle_margin.value), least_drop_(rig.limits.least_drop.value), bounds_(bounds) {
  for (const WalkerPlace& place : plan.walker) {
    if (!place.ground_clearance || place.in_anchor_zone) continue;
    // Where the feet have no more than the reserve no layout helps; the loops may hang as they do now.
    const double now = std::max(0.0, plan.bays[std::size_t(place.bay - 1)].ankle_margin);
    room_.emplace_back(place.s, std::max(*place.ground_clearance - rig.limits.reserve.value, now));
  }
}

double LimitRules::room(double along) const {
  if (room_.empty() || along < room_.front().first || along > room_.back().first) return INFINITY;
  const auto after = std::lower_bound(room_.begin(), room_.end(), std::pair{along, -std::numeric_limits<double>::infinity()});
  if (after == room_.begin()) return after->second;
  const auto before = after - 1;
  const double width = after->first - before->first;
  const double t = width > 0.0 ? (along - before->first) / width : 0.0;
  return before->second + t * (after->second - before->second);
}

double LimitRules::broken(const Layout& layout, const LayoutScore& score) const {
  double broken = 0.0, at = 0.0;
  const auto at_least = [&](double value, double limit) { broken += std::max(0.0, limit - value); };
  for (std::size_t k = 0; k < score.drop.size(); ++k) {
    at_least(score.ankle_margin[k], least_ankle_margin_);
    at_least(score.drop[k], least_drop_);
    at_least(bounds_.most_drop, score.drop[k]);
    at_least(room(at + 0.5 * layout.bays[k]), score.ankle_margin[k]);
    at_least(1e-3 * bounds_.most_backup_tension, 1e-3 * score.backup_tension[k]);
    at += layout.bays[k];
  }
  return broken;
}

}  // namespace spanloom
