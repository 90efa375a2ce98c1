#include "rig/find_problems.h"

#include <cmath>
#include <string>

#include <fmt/format.h>

namespace spanloom {
namespace {

constexpr double kLongestGap = 5000.0;   // beyond any line ever walked; keeps sizes of work sane
constexpr std::size_t kMostBays = 5000;
constexpr double kGreatestLoss = 0.5;    // what the motion can follow [-]
constexpr double kWildestWind = 60.0;    // [m/s]
constexpr double kLongestGust = 60.0;  // [s]
constexpr double kLevel = 1e-9;          // |sine| of a leg that goes neither back nor ahead [-]
constexpr double kLongestLeg = 200.0;    // from where the line is tied in to a tree far behind [m]
constexpr double kStiffestLeg = 1e9;     // a steel bar as thick as an arm [N]
constexpr std::size_t kMostPoints = 8;
constexpr double kSwingOfGap = 0.1;      // beyond it a swing is no shake of a line [-]

class Finder {
 public:
  std::vector<Problem> problems;

  void add(std::string key, std::string read, std::string expected, std::string cure = "") {
    problems.push_back({std::move(key), std::move(read), std::move(expected), std::move(cure)});
  }
  // Written so that NaN fails too.
  void above(const std::string& key, double value, double least, const char* unit) {
    if (!(value > least) || !std::isfinite(value)) {
      add(key, fmt::format("{:g} {}", value, unit), fmt::format("more than {:g} {}", least, unit));
    }
  }
  void at_least(const std::string& key, double value, double least, const char* unit) {
    if (!(value >= least) || !std::isfinite(value)) {
      add(key, fmt::format("{:g} {}", value, unit), fmt::format("at least {:g} {}", least, unit));
    }
  }
  void friction(const std::string& key, double value) {
    if (!(value >= 0.0 && value <= 1.0)) add(key, fmt::format("{:g}", value), "at least 0 and at most 1");
  }
  void share(const std::string& key, double value) {
    if (!(value > 0.0 && value <= 1.0)) {
      add(key, fmt::format("{:g} %", 100.0 * value), "more than 0 % and at most 100 %");
    }
  }
};

void check_site(const Site& site, Finder& find) {
  find.above("site.gap", site.gap, 0.0, "m");
  if (site.gap > kLongestGap) find.add("site.gap", fmt::format("{:g} m", site.gap), "at most 5000 m");
  if (!(std::abs(site.rise) <= 2.0 * site.gap)) {
    find.add("site.rise", fmt::format("{:g} m", site.rise), "at most twice the gap, up or down");
  }
  for (std::size_t i = 0; i < site.ground.size(); ++i) {
    const GroundPoint& p = site.ground[i];
    const std::string key = fmt::format("site.ground[{}]", i);
    if (!std::isfinite(p.distance) || !std::isfinite(p.height)) find.add(key, "not a number", "two lengths");
    if (i > 0 && !(p.distance >= site.ground[i - 1].distance)) {
      find.add(key, fmt::format("{:g} m after {:g} m", p.distance, site.ground[i - 1].distance),
               "distances that rise from the near anchor");
    }
  }
  if (site.ground.size() == 1) find.add("site.ground", "1 point", "at least two points, or none");
  if (site.ground.size() > 1 &&
      (site.ground.front().distance > 0.0 || site.ground.back().distance < site.gap)) {
    find.add("site.ground", fmt::format("{:g} m to {:g} m", site.ground.front().distance,
                                        site.ground.back().distance),
             fmt::format("the whole gap, 0 m to {:g} m", site.gap),
             "add the ground at both anchors, or the clearance there stays unknown");
  }
}

void check_webbing(const Webbing& w, Finder& find) {
  const std::string key = "webbing." + w.name + ".";
  find.above(key + "mass", w.mass_per_length, 0.0, "kg/m");
  find.above(key + "width", w.width.value, 0.0, "m");
  find.above(key + "thickness", w.thickness.value, 0.0, "m");
  find.above(key + "strength", w.strength, 0.0, "N");
  find.share(key + "wet_keeps", w.wet_keeps.value);
  if (w.loss && !(*w.loss >= 0.0 && *w.loss <= kGreatestLoss)) {
    find.add(key + "loss", fmt::format("{:g} %", 100.0 * *w.loss), "at least 0 % and at most 50 %",
             "the share of the energy of one loading that does not come back; webbing loses some percent");
  }
}

void check_link(const Link& link, const std::string& key, Finder& find) {
  find.at_least(key + ".mass", link.mass, 0.0, "kg");
  find.at_least(key + ".length", link.length, 0.0, "m");
  if (link.strength) find.above(key + ".strength", *link.strength, 0.0, "N");
}

void check_run(const WebbingRun& run, const std::string& key, std::size_t webbings, bool last_is_found,
               Finder& find) {
  if (run.segments.empty()) find.add(key + ".segments", "none", "at least one webbing");
  for (std::size_t i = 0; i < run.segments.size(); ++i) {
    const Segment& segment = run.segments[i];
    const std::string at = fmt::format("{}.segments[{}]", key, i);
    if (segment.webbing >= webbings) find.add(at + ".webbing", "an unknown webbing", "one of [webbing.*]");
    const bool last = i + 1 == run.segments.size();
    if (segment.natural_length) {
      find.above(at + ".length", *segment.natural_length, 0.0, "m");
      if (last && last_is_found) {
        find.add(at + ".length", fmt::format("{:g} m", *segment.natural_length),
                 "no length: this one is what the plan finds", "leave it out");
      }
    } else if (!(last && last_is_found)) {
      find.add(at + ".length", "nothing", "a natural length",
               "only the last segment of a line with a wanted tension may be left open");
    }
  }
  if (!run.segments.empty() && run.connectors.size() + 1 != run.segments.size()) {
    find.add(key + ".connectors", fmt::format("{} for {} segments", run.connectors.size(), run.segments.size()),
             fmt::format("{}, one between each two segments", run.segments.size() - 1));
  }
  for (std::size_t i = 0; i < run.connectors.size(); ++i) {
    check_link(run.connectors[i], fmt::format("{}.connectors[{}]", key, i), find);
  }
  check_link(run.near_hardware, key + ".near_hardware", find);
  check_link(run.far_hardware, key + ".far_hardware", find);
  find.share(key + ".near_end.keeps", run.near_end.keeps.value);
  find.share(key + ".far_end.keeps", run.far_end.keeps.value);
  find.share(key + ".joints.keeps", run.joint_end.keeps.value);
  find.at_least(key + ".near_tail", run.near_tail.value, 0.0, "m");
  find.at_least(key + ".far_tail", run.far_tail.value, 0.0, "m");
}

void check_backup(const BackupSpec& backup, Finder& find) {
  const auto each = [&](const char* key, const std::vector<double>& values, double least, const char* unit) {
    if (values.empty()) find.add(fmt::format("backup.{}", key), "nothing", "one value, or one per bay");
    for (std::size_t i = 0; i < values.size(); ++i) {
      const std::string at =
          values.size() == 1 ? fmt::format("backup.{}", key) : fmt::format("backup.{}[{}]", key, i);
      find.above(at, values[i], least, unit);
    }
  };
  if (const auto* slack = std::get_if<SlackShare>(&backup.amount)) {
    each("slack", slack->of_bay, -0.5, "(share)");
    for (double s : slack->of_bay) {
      if (s > 2.0) find.add("backup.slack", fmt::format("{:g} %", 100.0 * s), "at most 200 %");
    }
  }
  if (const auto* drop = std::get_if<LoopDrop>(&backup.amount)) each("drop", drop->of_bay, 0.0, "m");
  if (const auto* length = std::get_if<LoopLength>(&backup.amount)) each("length", length->of_bay, 0.0, "m");
  if (backup.joint == Joint::ring && backup.run.segments.size() > 1) {
    find.add("backup.segments", fmt::format("{} segments", backup.run.segments.size()),
             "one segment where the backup runs through rings", "a connector does not pass a ring");
  }
  if (backup.tape_strength) find.at_least("backup.tape_strength", *backup.tape_strength, 0.0, "N");
  find.friction("backup.ring_friction", backup.ring_friction.value);
  find.at_least("backup.tape_mass", backup.tape_mass, 0.0, "kg");
  if (!is_finite(backup.near_offset)) find.add("backup.near_offset", "not finite", "three lengths");
  if (!is_finite(backup.far_offset)) find.add("backup.far_offset", "not finite", "three lengths");
}

void check_spacing(const Spacing& spacing, Finder& find) {
  find.above("spacing.arm_span", spacing.arm_span.value, 0.5, "m");
  if (spacing.arm_span.value > 3.0) find.add("spacing.arm_span", fmt::format("{:g} m", spacing.arm_span.value), "at most 3 m");
  if (const auto* repeat = std::get_if<RepeatArmSpans>(&spacing.pattern)) {
    if (repeat->arm_spans.empty()) find.add("spacing.repeat", "nothing", "arm spans, such as [1, 2, 1.5]");
    for (std::size_t i = 0; i < repeat->arm_spans.size(); ++i) {
      find.at_least(fmt::format("spacing.repeat[{}]", i), repeat->arm_spans[i], 0.1, "arm spans");
    }
  } else if (const auto* at = std::get_if<TapesAt>(&spacing.pattern)) {
    for (std::size_t i = 0; i < at->positions.size(); ++i) {
      const double before = i == 0 ? 0.0 : at->positions[i - 1];
      if (!(at->positions[i] >= before + 0.01)) {
        find.add(fmt::format("spacing.at[{}]", i), fmt::format("{:g} m after {:g} m", at->positions[i], before),
                 "tapes in order from the near anchor, at least 10 mm apart");
      }
    }
    if (at->positions.size() >= kMostBays) find.add("spacing.at", "too many tapes", "at most 4999");
  } else if (const auto* even = std::get_if<EvenBays>(&spacing.pattern)) {
    find.at_least("spacing.even", even->length, 0.1, "m");
  }
  if (spacing.close) {
    find.above("spacing.close.centre", spacing.close->centre, 0.0, "m");
    find.above("spacing.close.length", spacing.close->length, 0.0, "m");
    find.at_least("spacing.close.spacing", spacing.close->arm_spans, 0.1, "arm spans");
  }
}

void check_limits(const Limits& limits, Finder& find) {
  find.at_least("limits.ratio", limits.ratio.value, 1.0, "");
  find.at_least("limits.anchor_ratio", limits.anchor_ratio.value, 1.0, "");
  find.at_least("limits.least_drop", limits.least_drop.value, 0.0, "m");
  find.at_least("limits.reserve", limits.reserve.value, 0.0, "m");
  find.at_least("limits.anchor_zone", limits.anchor_zone.value, 0.0, "m");
  find.at_least("limits.edge_distance", limits.edge_distance.value, 0.0, "m");
  find.at_least("limits.wall_reserve", limits.wall_reserve.value, 0.0, "m");
  find.above("limits.backup_tension", limits.backup_tension.value, 0.0, "N");
  find.above("limits.body_force", limits.body_force.value, 0.0, "N");
  if (!std::isfinite(limits.least_ankle_margin.value)) {
    find.add("limits.least_ankle_margin", "not finite", "a length");
  }
}

void check_leash(const Walker& walker, std::size_t webbings, Finder& find) {
  find.at_least("walker.leash", walker.leash.value, 0.0, "m");
  if (walker.leash_webbing && *walker.leash_webbing >= webbings) {
    find.add("walker.leash_webbing", "an unknown webbing", "one of [webbing.*]");
  }
  find.share("walker.leash_keeps", walker.leash_keeps.value);
  constexpr double kLightestRing = 0.010, kHeaviestRing = 5.0;  // [kg]
  if (!(walker.leash_ring_mass.value >= kLightestRing && walker.leash_ring_mass.value <= kHeaviestRing)) {
    find.add("walker.leash_ring_mass", fmt::format("{:.4g} kg", walker.leash_ring_mass.value), "a mass from 10 g to 5 kg");
  }
  find.friction("walker.leash_ring_friction", walker.leash_ring_friction.value);
}

void check_people(const Rig& rig, Finder& find) {
  find.above("walker.mass", rig.walker.mass, 0.0, "kg");
  if (rig.walker.mass > 500.0) find.add("walker.mass", fmt::format("{:g} kg", rig.walker.mass), "at most 500 kg");
  check_leash(rig.walker, rig.webbings.size(), find);
  find.at_least("walker.foot_to_hip", rig.walker.foot_to_hip.value, 0.0, "m");
  find.at_least("walker.rescuer_mass", rig.walker.rescuer_mass.value, 0.0, "kg");
  find.at_least("walker.drag_area", rig.walker.drag_area.value, 0.0, "m2");
}

/// @param back  which way along the gap is back from the line: -1 at the near anchor, 1 at the far one
void check_points(const AnchorSpec& anchor, const std::string& key, double back, Finder& find) {
  if (anchor.points.size() > kMostPoints) {
    find.add(key, fmt::format("{} points", anchor.points.size()), fmt::format("at most {}", kMostPoints));
  }
  int holding = 0;
  for (std::size_t i = 0; i < anchor.points.size(); ++i) {
    const AnchorPoint& point = anchor.points[i];
    const std::string at = fmt::format("{}[{}]", key, i);
    if (point.strength) find.above(at + ".strength", *point.strength, 0.0, "N");
    const double length = norm(point.at), behind = back * point.at.x;
    holding += behind > kLevel * length;
    if (!(length > 0.0 && length <= kLongestLeg)) {
      find.add(at, fmt::format("{:g} m from where the line is tied in", length),
               fmt::format("more than 0 m and at most {:g} m", kLongestLeg));
    } else if (behind < -kLevel * length) {
      find.add(at, fmt::format("{:g} m towards the gap", -behind), "a point behind the anchor",
               "its leg cannot pull back against the line; lengths along the gap count towards the far side");
    }
  }
  if (!anchor.points.empty() && holding == 0) {
    find.add(key, "no point behind the anchor", "at least one leg that pulls back against the line");
  }
}

void check_anchor(const AnchorSpec& anchor, const std::string& key, double back, double gap, Finder& find) {
  if (anchor.strength) find.above(key + ".strength", *anchor.strength, 0.0, "N");
  for (const auto& [distance, name] : {std::pair{&anchor.edge, ".edge"}, {&anchor.wall, ".wall"}}) {
    if (!*distance) continue;
    find.at_least(key + name, **distance, 0.0, "m");
    if (!(**distance < gap)) find.add(key + name, fmt::format("{:g} m", **distance), "less than the gap");
  }
  check_points(anchor, key + ".points", back, find);
  if (anchor.points.empty() && anchor.leg_stiffness.assumed) return;
  find.above(key + ".leg_stiffness", anchor.leg_stiffness.value, 0.0, "N");
  if (anchor.leg_stiffness.value > kStiffestLeg) {
    find.add(key + ".leg_stiffness", fmt::format("{:g} kN", 1e-3 * anchor.leg_stiffness.value),
             fmt::format("at most {:g} kN", 1e-3 * kStiffestLeg));
  }
}

void check_wind(const Wind& wind, Finder& find) {
  const auto at_most_wildest = [&](const std::string& key, double speed) {
    if (speed > kWildestWind) {
      find.add(key, fmt::format("{:g} m/s", speed), fmt::format("at most {:g} m/s", kWildestWind));
    }
  };
  find.at_least("wind.speed", wind.speed, 0.0, "m/s");
  at_most_wildest("wind.speed", wind.speed);
  if (wind.gust) {
    if (!(*wind.gust >= wind.speed) || !std::isfinite(*wind.gust)) {
      find.add("wind.gust", fmt::format("{:g} m/s", *wind.gust),
               fmt::format("at least the steady {:g} m/s", wind.speed), "a gust is the greatest speed, steady wind included");
    }
    at_most_wildest("wind.gust", *wind.gust);
  }
  if (wind.gust || !wind.gust_time.assumed) find.above("wind.gust_time", wind.gust_time.value, 0.0, "s");
  if (wind.gust_time.value > kLongestGust) {
    find.add("wind.gust_time", fmt::format("{:g} s", wind.gust_time.value), fmt::format("at most {:g} s", kLongestGust),
             "what blows longer is steady wind: see speed");
  }
}

void check_shake(const Rig& rig, Finder& find) {
  for (const auto& [swing, key] : {std::pair{&rig.shake.swing, "shake.swing"}, {&rig.shake.bounce, "shake.bounce"}}) {
    find.above(key, swing->value, 0.0, "m");
    // Our default is no fault of the file, however short the line.
    if (!swing->assumed && rig.site.gap > 0.0 && swing->value >= kSwingOfGap * rig.site.gap) {
      find.add(key, fmt::format("{:g} m", swing->value),
               fmt::format("less than a tenth of the gap, {:g} m", kSwingOfGap * rig.site.gap));
    }
  }
}

}  // namespace

std::vector<Problem> find_problems(const Rig& rig) {
  Finder find;
  check_site(rig.site, find);
  if (rig.webbings.empty()) find.add("webbing", "none", "at least one [webbing.NAME]");
  for (const Webbing& webbing : rig.webbings) check_webbing(webbing, find);
  check_run(rig.main.run, "main", rig.webbings.size(), rig.main.tension.has_value(), find);
  if (rig.main.tension) find.above("main.tension", *rig.main.tension, 0.0, "N");
  find.above("main.hand_tight", rig.main.hand_tight.value, 0.0, "N");
  check_run(rig.backup.run, "backup", rig.webbings.size(), true, find);
  check_backup(rig.backup, find);
  check_spacing(rig.spacing, find);
  check_people(rig, find);
  check_anchor(rig.near_anchor, "anchor.near", -1.0, rig.site.gap, find);
  check_anchor(rig.far_anchor, "anchor.far", 1.0, rig.site.gap, find);
  if (rig.wind) check_wind(*rig.wind, find);
  check_shake(rig, find);
  check_limits(rig.limits, find);
  const double hardware = rig.main.run.near_hardware.length + rig.main.run.far_hardware.length;
  if (rig.site.gap > 0.0 && !(hardware < rig.site.gap)) {
    find.add("main.near_hardware", fmt::format("{:g} m of end hardware", hardware), "less than the gap");
  }
  return find.problems;
}

}  // namespace spanloom
