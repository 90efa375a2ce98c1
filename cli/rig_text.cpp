#include "rig_text.h"

#include <fmt/format.h>

#include <algorithm>
#include <optional>
#include <string_view>
#include <variant>
#include <vector>

#include "checks/verdicts.h"
#include "sheet/words.h"

namespace spanloom {
namespace {

constexpr std::size_t kColumns = 80;
constexpr std::size_t kLabelColumns = 28;

/// The lines of the report, and what had to be assumed or was left out on the way.
class Text {
 public:
  explicit Text(UnitSystem units) : units_(units) {}

  std::string quantity(double si, Measure measure) const { return quantity_text(si, measure, units_); }

  void section(std::string_view title) { text_ += fmt::format("\n{}\n", title); }

  void row(std::string_view label, std::string_view value) {
    const std::size_t room = kColumns - kLabelColumns;
    const auto fits = [room](std::string_view part) { return code_points(part).size() <= room; };
    for (const std::string& line : wrap_words(value, fits)) {
      text_ += fmt::format("  {:<{}}{}\n", label, kLabelColumns - 2, line);
      label = "";
    }
  }
  void row(std::string_view label, double si, Measure measure) { row(label, quantity(si, measure)); }
  void row(std::string_view label, const Stated<double>& value, Measure measure) {
    row(label, quantity(value.value, measure) + mark(value.assumed));
  }
  void row(std::string_view label, const std::optional<double>& value, Measure measure,
           std::string_view consequence) {
    if (value) return row(label, *value, measure);
    row(label, "not stated");
    note(fmt::format("{}: {}", label, consequence));
  }

  std::string mark(bool assumed) {
    if (assumed) ++assumed_;
    return assumed ? "  (our default)" : "";
  }

  void note(std::string_view sentence) { notes_.emplace_back(sentence); }

  std::string finished() {
    section("Notes");
    if (assumed_ > 0) {
      note(fmt::format("{} assumed. A check that needs one is never green; state them to change that.",
                       count_text(assumed_, "value is", "values are")));
    }
    for (const std::string& sentence : notes_) bullet(sentence);
    if (notes_.empty()) bullet("Everything is stated.");
    section("Cautions");
    for (const std::string& sentence : cautions()) bullet(sentence);
    return text_;
  }

 private:
  void bullet(const std::string& sentence) {
    const auto fits = [](std::string_view part) { return code_points(part).size() <= kColumns - 4; };
    std::string_view lead = "  - ";
    for (const std::string& line : wrap_words(sentence, fits)) {
      text_ += fmt::format("{}{}\n", lead, line);
      lead = "    ";
    }
  }

  UnitSystem units_;
  std::string text_;
  std::vector<std::string> notes_;
  int assumed_ = 0;
};

std::string range(const Text& text, double low, double high, Measure measure) {
  return text.quantity(low, measure) + " to " + text.quantity(high, measure);
}

/// "120 mm", or "9 values, 100 mm to 130 mm".
std::string values(const Text& text, const std::vector<double>& all, Measure measure) {
  if (all.size() == 1) return text.quantity(all[0], measure) + " in every bay";
  const auto [low, high] = std::minmax_element(all.begin(), all.end());
  return fmt::format("{} values, {}", all.size(), range(text, *low, *high, measure));
}

std::string offset_words(const Text& text, const Vec3& offset) {
  return fmt::format("{} along, {} left, {} up", text.quantity(offset.x, Measure::length),
                     text.quantity(offset.y, Measure::length), text.quantity(offset.z, Measure::length));
}

void point_rows(const AnchorSpec& anchor, std::string_view name, Text& text) {
  if (anchor.points.empty()) {
    text.row(fmt::format("{}, points", name), "not stated");
    text.note(fmt::format("{}: taken as one; what its points carry is not computed.", name));
    return;
  }
  for (std::size_t i = 0; i < anchor.points.size(); ++i) {
    const AnchorPoint& point = anchor.points[i];
    std::string words = fmt::format("{}, {}", point.name, offset_words(text, point.at));
    if (point.strength) {
      words += ", holds " + text.quantity(*point.strength, Measure::force);
    } else {
      text.note(fmt::format("{}, {}: strength not stated, it cannot be judged.", name, point.name));
    }
    text.row(fmt::format("{}, point {}", name, i + 1), words);
  }
  text.row(fmt::format("{}, legs", name),
           fmt::format("{}, EA {}{}", anchor.legs.value == LegKind::fixed ? "fixed" : "equalising",
                       text.quantity(anchor.leg_stiffness.value, Measure::force),
                       text.mark(anchor.legs.assumed || anchor.leg_stiffness.assumed)));
}

void site_rows(const Rig& rig, Text& text) {
  text.section("Site");
  text.row("gap", rig.site.gap, Measure::length);
  text.row("rise of the far anchor", rig.site.rise, Measure::length);
  if (rig.site.ground.empty()) {
    text.row("ground", "not stated");
    text.note("ground: no clearance over the ground can be checked.");
  } else {
    const auto [low, high] =
        std::minmax_element(rig.site.ground.begin(), rig.site.ground.end(),
                            [](const GroundPoint& a, const GroundPoint& b) { return a.height < b.height; });
    text.row("ground", fmt::format("{} points, height {}", rig.site.ground.size(),
                                   range(text, low->height, high->height, Measure::length)));
  }
  for (const auto& [anchor, name] : {std::pair{&rig.near_anchor, "near anchor"}, {&rig.far_anchor, "far anchor"}}) {
    text.row(fmt::format("{}, strength", name), anchor->strength, Measure::force,
             "the load on it cannot be judged.");
    text.row(fmt::format("{}, edge at", name), anchor->edge, Measure::length,
             "the distance to that edge is not checked.");
    text.row(fmt::format("{}, wall at", name), anchor->wall, Measure::length,
             "whether a fall reaches that wall is not checked.");
    point_rows(*anchor, name, text);
  }
}

void webbing_rows(const Webbing& webbing, Text& text) {
  text.section("Webbing " + webbing.name);
  if (webbing.generic) text.row("values", "generic handbook data, not of this webbing: no check on them is green");
  text.row("mass", webbing.mass_per_length, Measure::line_mass);
  text.row("width", webbing.width, Measure::fine_length);
  text.row("thickness", webbing.thickness, Measure::fine_length);
  text.row("strength", webbing.strength, Measure::force);
  text.row("keeps when wet", webbing.wet_keeps, Measure::share);
  const std::vector<CurvePoint>& points = webbing.curve.points();
  text.row("stretch curve", fmt::format("{} points, to {} at {}", points.size(),
                                        text.quantity(points.back().stretch, Measure::share),
                                        text.quantity(points.back().tension, Measure::force)));
  text.row("loss in one load cycle", webbing.loss, Measure::share,
           fmt::format("none is computed in webbing {}, so that it gives back more than it would.", webbing.name));
}

void link_row(std::string_view label, const Link& link, Text& text) {
  if (link.length == 0.0 && link.mass == 0.0) return text.row(label, "none");
  std::string words = fmt::format("{}, {}, {}", link.name, text.quantity(link.length, Measure::length),
                                  text.quantity(link.mass, Measure::small_mass));
  if (link.strength) {
    words += ", holds " + text.quantity(*link.strength, Measure::force);
  } else {
    text.note(fmt::format("{} \"{}\": strength not stated, it cannot be judged.", label, link.name));
  }
  text.row(label, words);
}

void end_row(std::string_view label, const WebbingEnd& end, Text& text) {
  constexpr const char* kNames[] = {"knot", "clamp", "sewn"};
  text.row(label, fmt::format("{}, keeps {} of the strength{}", kNames[static_cast<int>(end.kind.value)],
                              text.quantity(end.keeps.value, Measure::share),
                              text.mark(end.kind.assumed || end.keeps.assumed)));
}

void run_rows(const Rig& rig, const WebbingRun& run, std::string_view open_words, Text& text) {
  link_row("near hardware", run.near_hardware, text);
  for (std::size_t i = 0; i < run.segments.size(); ++i) {
    const Segment& segment = run.segments[i];
    const std::string length = segment.natural_length
                                   ? text.quantity(*segment.natural_length, Measure::length)
                                   : std::string(open_words);
    text.row(fmt::format("segment {}", i + 1),
             fmt::format("{}, {}", rig.webbings[segment.webbing].name, length));
    if (i < run.connectors.size()) link_row(fmt::format("connector {}", i + 1), run.connectors[i], text);
  }
  link_row("far hardware", run.far_hardware, text);
  end_row("near end", run.near_end, text);
  end_row("far end", run.far_end, text);
  if (run.segments.size() > 1) end_row("joints", run.joint_end, text);
  text.row("tail at the near end", run.near_tail, Measure::length);
  text.row("tail at the far end", run.far_tail, Measure::length);
}

void main_rows(const Rig& rig, Text& text) {
  text.section("Main");
  run_rows(rig, rig.main.run, "length found from the tension", text);
  if (rig.main.tension) {
    text.row("standing tension, near", *rig.main.tension, Measure::force);
  } else {
    text.row("standing tension", "found from the lengths");
  }
  text.row("hand-tight at", rig.main.hand_tight, Measure::force);
}

void backup_rows(const Rig& rig, Text& text) {
  const BackupSpec& backup = rig.backup;
  text.section("Backup");
  run_rows(rig, backup.run, "length found from the loops", text);
  if (const auto* slack = std::get_if<SlackShare>(&backup.amount)) {
    text.row("slack of the loops", values(text, slack->of_bay, Measure::share));
  } else if (const auto* drop = std::get_if<LoopDrop>(&backup.amount)) {
    text.row("drop of the loops", values(text, drop->of_bay, Measure::small_length));
  } else {
    text.row("natural length of loops", values(text, std::get<LoopLength>(backup.amount).of_bay, Measure::length));
  }
  text.row("joint", backup.joint == Joint::taped ? "taped" : "slider rings, the backup runs through");
  for (const auto& [offset, label] :
       {std::pair{&backup.near_offset, "near anchor of the backup"}, {&backup.far_offset, "far anchor of the backup"}}) {
    if (*offset != Vec3{}) text.row(label, offset_words(text, *offset));
  }
  text.row("mass of one tape or ring", backup.tape_mass, Measure::small_mass);
  if (backup.joint == Joint::ring) {
    text.row("friction in the rings", backup.ring_friction, Measure::ratio);
  }
  if (backup.joint == Joint::taped || backup.tape_strength) {
    text.row("tape tears at", backup.tape_strength, Measure::small_force,
             "whether tapes tear when the main fails is not known.");
  }
}

void spacing_rows(const Rig& rig, Text& text) {
  const Spacing& spacing = rig.spacing;
  text.section("Spacing");
  text.row("arm span", spacing.arm_span, Measure::length);
  if (const auto* repeat = std::get_if<RepeatArmSpans>(&spacing.pattern)) {
    const std::vector<double>& bays = repeat->arm_spans;
    text.row("bays, repeated", fmt::format("{:g} arm spans", fmt::join(bays, ", ")));
  } else if (const auto* at = std::get_if<TapesAt>(&spacing.pattern)) {
    text.row("tapes at", fmt::format("{} places, {}", at->positions.size(),
                                     range(text, at->positions.front(), at->positions.back(), Measure::length)));
  } else {
    text.row("even bays of", std::get<EvenBays>(spacing.pattern).length, Measure::length);
  }
  if (!spacing.close) return;
  text.row("close bays", fmt::format("{:g} arm spans each, over {} around {}", spacing.close->arm_spans,
                                     text.quantity(spacing.close->length, Measure::length),
                                     text.quantity(spacing.close->centre, Measure::length)));
}

void gust_rows(const Wind& wind, Text& text) {
  text.row("gust", wind.gust, Measure::speed, "whether loops swing over in a gust is not computed.");
  if (wind.gust) text.row("gust comes and goes in", wind.gust_time, Measure::duration);
}

void shake_rows(const ShakeSpec& shake, Text& text) {
  text.section("Shake");
  text.row("first swing of a shake", shake.swing, Measure::length);
  text.row("first swing of a bounce", shake.bounce, Measure::length);
}

void leash_rows(const Rig& rig, Text& text) {
  const Walker& walker = rig.walker;
  const Webbing& webbing = walker.leash_webbing ? rig.webbings[*walker.leash_webbing] : generic_leash();
  text.row("leash", walker.leash, Measure::length);
  text.row("leash of", webbing.name + text.mark(!walker.leash_webbing));
  text.row("ends of the leash keep", walker.leash_keeps, Measure::share);
  text.row("leash ring around",
           std::string(walker.leash_ring.value == LeashRing::around_both ? "main and backup" : "the main alone") +
               text.mark(walker.leash_ring.assumed));
  text.row("leash ring, mass", walker.leash_ring_mass, Measure::small_mass);
  text.row("leash ring, friction", walker.leash_ring_friction, Measure::ratio);
}

void people_rows(const Rig& rig, Text& text) {
  text.section("Walker");
  text.row("mass", rig.walker.mass, Measure::mass);
  leash_rows(rig, text);
  text.row("foot to hip", rig.walker.foot_to_hip, Measure::length);
  text.row("body in a catch", std::string(rig.walker.body.value == BodyModel::one_mass ? "one mass" : "two masses") +
                                  text.mark(rig.walker.body.assumed));
  text.row("rescuer", rig.walker.rescuer_mass, Measure::mass);
  text.row("drag area", rig.walker.drag_area, Measure::area);
  if (rig.wind) {
    text.row("side wind", rig.wind->speed, Measure::speed);
    gust_rows(*rig.wind, text);
  } else {
    text.row("side wind", "not stated");
    text.note("wind: the line is not computed in wind.");
  }
  if (rig.extra_places.empty()) return;
  std::string places;
  for (double place : rig.extra_places) {
    places += (places.empty() ? "" : ", ") + text.quantity(place, Measure::length);
  }
  text.row("also asked for at", places);
}

void limit_rows(const Limits& limits, Text& text) {
  text.section("Limits");
  text.row("strength / force", limits.ratio, Measure::ratio);
  text.row("strength / force, anchors", limits.anchor_ratio, Measure::ratio);
  text.row("least drop", limits.least_drop, Measure::small_length);
  text.row("least ankle margin", limits.least_ankle_margin, Measure::small_length);
  text.row("reserve over the ground", limits.reserve, Measure::length);
  text.row("anchor zone", limits.anchor_zone, Measure::length);
  text.row("edge distance", limits.edge_distance, Measure::length);
  text.row("most on the backup", limits.backup_tension, Measure::force);
  text.row("most on a body in a catch", limits.body_force, Measure::force);
  text.row("fall, distance to walls", limits.wall_reserve, Measure::length);
}

}  // namespace

std::string rig_text(const Rig& rig, UnitSystem units) {
  Text text(units);
  site_rows(rig, text);
  for (const Webbing& webbing : rig.webbings) webbing_rows(webbing, text);
  main_rows(rig, text);
  backup_rows(rig, text);
  spacing_rows(rig, text);
  people_rows(rig, text);
  shake_rows(rig.shake, text);
  limit_rows(rig.limits, text);
  return rig.title + '\n' + text.finished();
}

}  // namespace spanloom
