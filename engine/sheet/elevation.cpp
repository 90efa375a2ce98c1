#include "sheet/elevation.h"

#include <algorithm>
#include <cmath>

#include <fmt/format.h>

#include "sheet/elevation_view.h"
#include "sheet/figures.h"
#include "sheet/work_list.h"
#include "statics/loop_geometry.h"

namespace spanloom {
namespace {

constexpr double kRoomBelow = 36.0;  // gap dimension and scale bar below the picture [pt]

const WalkerPlace& worst_place(const Plan& plan) {
  return plan.walker[plan.worst_hang ? *plan.worst_hang : plan.worst_sag];
}

class Elevation {
 public:
  Elevation(Drawing& drawing, const Frame& frame, const Rig& rig, const Plan& plan, UnitSystem units)
      : drawing_(drawing), frame_(frame), rig_(rig), plan_(plan), units_(units),
        walker_(worst_place(plan)),
        foot_{walker_.position, 0.0, rig.site.rise * walker_.position / rig.site.gap - walker_.sag},
        view_(choose_view(frame, rig, plan, foot_)) {}

  ElevationNotes draw();

 private:
  PagePoint at(double x, double z) const { return view_.at(x, z); }
  PagePoint at(const Vec3& p) const { return view_.at(p.x, p.z); }
  PagePoint on_main(double s) const;
  // Whether the anchor zones leave something between them.
  bool has_middle() const {
    const double zone = rig_.limits.anchor_zone.value;
    return zone > 0.0 && 2.0 * zone < rig_.site.gap;
  }
  // Mean length of a bay on the page: where it is small, lines get thinner [pt].
  double bay_on_paper() const {
    const double line = std::hypot(rig_.site.gap, rig_.site.rise) * view_.points_per_metre;
    return line / static_cast<double>(plan_.bays.size());
  }
  void draw_site();
  void draw_loops();
  void draw_main();
  void draw_tapes();
  void draw_tape_numbers();
  void draw_walker();
  void draw_below();
  void draw_anchor_names(double near, double far, double dimension_y, double words_y);
  std::string length(double si) const { return quantity_text(si, Measure::length, units_); }
  std::vector<std::string> words() const;

  Drawing& drawing_;
  const Frame& frame_;
  const Rig& rig_;
  const Plan& plan_;
  const UnitSystem units_;
  const WalkerPlace& walker_;
  const Vec3 foot_;
  const ElevationView view_;
};

PagePoint Elevation::on_main(double s) const {
  for (const PlanBay& bay : plan_.bays) {
    if (s > bay.tape_s && &bay != &plan_.bays.back()) continue;
    const double share = std::clamp(1.0 - (bay.tape_s - s) / bay.main_natural, 0.0, 1.0);
    const double x = bay.from + share * (bay.to - bay.from);
    return at(x, height_at(plan_.standing.main_shape, x));
  }
  return at(plan_.standing.tapes.back());
}

void Elevation::draw_site() {
  if (!rig_.site.ground.empty()) {
    std::vector<PagePoint> surface;
    for (const GroundPoint& g : rig_.site.ground) surface.push_back(at(g.distance, g.height));
    draw_ground(drawing_, surface);
  }
  if (has_middle()) {
    const double zone = rig_.limits.anchor_zone.value;
    for (const double x : {zone, rig_.site.gap - zone}) {
      drawing_.line({at(x, 0.0).x, frame_.y}, {at(x, 0.0).x, view_.bottom_y},
                    {.width = 0.6, .dashes = "7 3 1 3"});
    }
  }
}

void Elevation::draw_loops() {
  drawing_.begin_group("loops");
  const std::vector<Vec3>& main = plan_.standing.main_shape;
  const double weight = std::clamp(0.15 * bay_on_paper(), 0.15, 0.7);
  for (const std::vector<Vec3>& loop : plan_.standing.loop_shapes) {
    std::vector<PagePoint> points;
    for (const Vec3& p : loop) {
      const double above = height_at(main, p.x);
      points.push_back(at(p.x, above + view_.exaggeration * (p.z - above)));
    }
    drawing_.polyline(points, {.width = weight});
  }
  drawing_.end_group();
}

void Elevation::draw_main() {
  drawing_.begin_group("main");
  drawing_.polyline({at(0.0, 0.0), at(foot_), at(rig_.site.gap, rig_.site.rise)},
                    {.width = 0.9, .dashes = "5 3"});
  std::vector<PagePoint> points;
  for (const Vec3& p : plan_.standing.main_shape) points.push_back(at(p));
  drawing_.polyline(points, {.width = 2.2});
  for (const LinkPlace& place : link_places(rig_, plan_)) {
    if (place.on_backup || place.at_anchor) continue;
    const PagePoint c = on_main(place.starts + 0.5 * place.link.length);
    constexpr double kHalf = 4.0;
    drawing_.polygon({{c.x - kHalf, c.y}, {c.x, c.y - kHalf}, {c.x + kHalf, c.y}, {c.x, c.y + kHalf}},
                     "#fff", {.width = 1.2});
  }
  for (const PagePoint& anchor : {at(0.0, 0.0), at(rig_.site.gap, rig_.site.rise)}) {
    drawing_.circle(anchor, 3.6, "#fff", {.width = 2.0});
    drawing_.circle(anchor, 1.0, "#000");
  }
  drawing_.end_group();
}

void Elevation::draw_tapes() {
  drawing_.begin_group("tapes");
  const double tick = std::clamp(0.5 * bay_on_paper(), 1.5, 3.2);
  const double weight = std::clamp(0.25 * bay_on_paper(), 0.2, 1.1);
  for (std::size_t i = 1; i + 1 < plan_.standing.tapes.size(); ++i) {
    const PagePoint p = at(plan_.standing.tapes[i]);
    if (rig_.backup.joint == Joint::ring) {
      drawing_.circle(p, 0.65 * tick, "#fff", {.width = 0.8 * weight});
    } else {
      drawing_.line({p.x, p.y - tick}, {p.x, p.y + tick}, {.width = weight});
    }
  }
  drawing_.end_group();
  draw_tape_numbers();
}

// Every tape has its mark; where they crowd, only every 2nd, 5th, 10th ... has its number.
void Elevation::draw_tape_numbers() {
  const std::size_t tapes = plan_.standing.tapes.size() - 2;
  if (tapes == 0) return;
  const double slope = rig_.site.rise / rig_.site.gap;
  const double along = std::hypot(1.0, slope);
  const double room = bay_on_paper();
  const double need = text_width(std::to_string(tapes), kSmallestText) + 4.0;
  std::size_t step = 1;
  for (std::size_t decade = 1; static_cast<double>(step) * room < need; decade *= 10) {
    for (const std::size_t factor : {1u, 2u, 5u}) {
      step = factor * decade;
      if (static_cast<double>(step) * room >= need) break;
    }
  }
  constexpr double kAway = 9.0;  // number's middle from the line [pt]
  const PagePoint person = at(foot_);
  const double person_height = 1.9 * rig_.walker.foot_to_hip.value * view_.points_per_metre;
  PagePoint last{-1e9, 0.0};
  for (std::size_t i = step; i <= tapes; i += step) {
    const PagePoint p = at(plan_.standing.tapes[i]);
    const PagePoint c{p.x - kAway * slope / along, p.y - kAway / along};
    const bool on_person = std::abs(c.x - person.x) < 0.5 * need + 8.0 && c.y < person.y + 4.0 &&
                           c.y > person.y - person_height - 8.0;
    if (std::hypot(c.x - last.x, c.y - last.y) < need || on_person) continue;
    draw_label(drawing_, {c.x, c.y + 3.0}, std::to_string(i),
               {.size = kSmallestText, .align = TextStyle::Align::middle});
    last = c;
  }
}

void Elevation::draw_walker() {
  const double drawn = view_.figures_to_scale ? view_.points_per_metre
                                         : 5.0 / rig_.walker.foot_to_hip.value;
  const FigureSize size{rig_.walker.foot_to_hip.value * drawn, rig_.walker.leash.value * drawn};
  const PagePoint foot = at(foot_);
  draw_standing_figure(drawing_, foot, size);
  draw_hanging_figure(drawing_, foot, size);
  if (!walker_.hang_clearance) return;
  const PagePoint feet{foot.x, foot.y + size.leash + size.foot_to_hip};
  const PagePoint ground = at(foot_.x, foot_.z - plan_.body_below_main - *walker_.hang_clearance);
  const double end = std::min(ground.y, view_.bottom_y);
  constexpr double kRoomForText = 14.0;
  if (end - feet.y < kRoomForText) return;
  draw_dimension(drawing_, feet, {feet.x, end});
  const bool near_right_edge = feet.x > frame_.x + 0.7 * frame_.width;
  draw_label(drawing_, {feet.x + (near_right_edge ? -5.0 : 5.0), 0.5 * (feet.y + end) + 3.5},
             length(*walker_.hang_clearance),
             {.size = 10.0, .weight = FontWeight::bold,
              .align = near_right_edge ? TextStyle::Align::right : TextStyle::Align::left});
}

// Gap, anchors and a scale bar that stays true when a printer does not print at full size.
void Elevation::draw_below() {
  const double near = at(0.0, 0.0).x, far = at(rig_.site.gap, 0.0).x;
  if (view_.ground_is_cut) {
    std::vector<PagePoint> edge;
    constexpr double kTooth = 6.0;
    for (int i = 0; frame_.x + i * kTooth <= frame_.x + frame_.width; ++i) {
      edge.push_back({frame_.x + i * kTooth, view_.bottom_y + (i % 2 == 0 ? 0.0 : 3.0)});
    }
    drawing_.polyline(edge, {.width = 0.7});
  }
  const double dimension_y = view_.bottom_y + 14.0;
  draw_dimension(drawing_, {near, dimension_y}, {far, dimension_y});
  draw_label(drawing_, {0.5 * (near + far), dimension_y + 3.5}, "gap " + length(rig_.site.gap),
             {.size = 11.0, .weight = FontWeight::bold, .align = TextStyle::Align::middle});
  const double words_y = view_.bottom_y + 30.0;
  draw_anchor_names(near, far, dimension_y, words_y);
  draw_scale_bar(drawing_, 0.5 * (near + far), words_y, view_.points_per_metre, units_);
}

// Below the gap dimension; beside it where a steep line makes the picture too narrow for that.
void Elevation::draw_anchor_names(double near, double far, double dimension_y, double words_y) {
  constexpr double kRoomForWords = 280.0;
  const bool beside = far - near < kRoomForWords;
  const double out = beside ? 8.0 : 10.0;  // beyond the anchors, or how far the names reach past them
  const double y = beside ? dimension_y + 3.5 : words_y;
  using Align = TextStyle::Align;
  TextStyle style{.size = 10.0, .weight = FontWeight::bold, .align = beside ? Align::right : Align::left};
  drawing_.text(near - out, y, "near anchor", style);
  style.align = beside ? Align::left : Align::right;
  drawing_.text(far + out, y, "far anchor", style);
}

std::vector<std::string> Elevation::words() const {
  std::string scale = fmt::format("Elevation 1:{:g} on A4.", view_.scale);
  scale += view_.exaggeration == 1.0
               ? " Loops to scale."
               : fmt::format(" Drops of the loops drawn {:g} times too large.", view_.exaggeration);
  if (!view_.figures_to_scale) scale += " People not to scale.";
  std::vector<std::string> out{scale};
  std::string walker = fmt::format("Walker drawn at {}, the place of {}: sag {}", length(walker_.position),
                                   plan_.worst_hang ? "least clearance of one walker" : "greatest sag",
                                   length(walker_.sag));
  if (walker_.hang_clearance) {
    walker += *walker_.hang_clearance >= 0.0
                  ? fmt::format(", feet of the body on the leash {} above the ground",
                                length(*walker_.hang_clearance))
                  : fmt::format(", the body on the leash would reach {} into the ground",
                                length(-*walker_.hang_clearance));
  }
  out.push_back(walker + ". Dashed: main with the walker, drawn straight to the anchors.");
  std::string signs = rig_.backup.joint == Joint::ring ? "Small rings: slider rings." : "Ticks: tapes.";
  if (rig_.main.run.segments.size() > 1) signs += " Diamonds: connectors of the main.";
  if (has_middle()) {
    signs += fmt::format(" Dash-dot uprights: anchor zones, {} from each anchor.",
                         length(rig_.limits.anchor_zone.value));
  }
  if (rig_.site.ground.empty()) signs += " No ground given.";
  out.push_back(signs);
  if (view_.ground_is_cut) {
    const auto deepest = std::min_element(
        rig_.site.ground.begin(), rig_.site.ground.end(),
        [](const GroundPoint& a, const GroundPoint& b) { return a.height < b.height; });
    out.push_back(fmt::format("Ground cut off at the lower edge; deepest {} below the near anchor, at {}.",
                              length(-deepest->height), length(deepest->distance)));
  }
  return out;
}

ElevationNotes Elevation::draw() {
  drawing_.begin_group("elevation");
  drawing_.begin_clip(frame_.x, frame_.y, frame_.width, view_.bottom_y - frame_.y + 3.0);
  draw_site();
  draw_loops();
  draw_main();
  draw_tapes();
  draw_walker();
  drawing_.end_clip();
  draw_below();
  drawing_.end_group();
  return {view_.bottom_y + kRoomBelow - frame_.y, words()};
}

}  // namespace

ElevationNotes draw_elevation(Drawing& drawing, const Frame& frame, const Rig& rig, const Plan& plan,
                              UnitSystem units) {
  return Elevation(drawing, frame, rig, plan, units).draw();
}

}  // namespace spanloom
