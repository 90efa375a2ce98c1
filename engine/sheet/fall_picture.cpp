#include "sheet/fall_picture.h"

#include <algorithm>
#include <cmath>
#include <optional>
#include <utility>
#include <vector>

#include <fmt/format.h>

#include "checks/catch_words.h"
#include "sheet/fall_view.h"
#include "sheet/text_width.h"

namespace spanloom {
namespace {

using Align = TextStyle::Align;

constexpr const char* kWidestTime = "88.88 s, lowest";

class Picture {
 public:
  Picture(Drawing& drawing, const Rig& rig, const FallResult& fall, const PictureBox& box, UnitSystem units)
      : drawing_(drawing), rig_(rig), fall_(fall), units_(units), size_(box.text_size), moments_(fall_moments(rig, fall)),
        until_(drawn_until(rig, fall)),
        leg_(rig.walker.foot_to_hip.value) {
    const double times = 2.0 * size_ + text_width(kWidestTime, size_, FontWeight::bold), below = 5.2 * size_;
    view_ = fall_view({box.x, box.y, box.width - times, box.height - below, size_}, rig, fall);
    words_x_ = view_.right + 1.4 * size_;
  }

  void draw() {
    drawing_.begin_group("fall");
    drawing_.begin_clip(view_.left, view_.top, view_.right - view_.left, view_.bottom - view_.top);
    draw_site();
    for (std::size_t i = 0; i < moments_.size(); ++i) draw_line_at(i);
    draw_path();
    for (std::size_t i = 0; i < moments_.size(); ++i) draw_body(i);
    drawing_.end_clip();
    drawing_.rectangle(view_.left, view_.top, view_.right - view_.left, view_.bottom - view_.top, "none", {.width = 0.8});
    if (!until_.hits_ground) draw_clear_height();
    draw_times();
    draw_place_axis(drawing_, {view_.left, view_.right, view_.bottom, view_.from, view_.to, size_}, units_);
    draw_scale_bar(drawing_, 0.5 * (view_.left + view_.right), view_.bottom + 4.0 * size_ + 6.0, view_.points_per_metre,
                   units_);
    drawing_.end_group();
  }

 private:
  bool is_first(std::size_t i) const { return i == 0; }
  bool is_last(std::size_t i) const { return i + 1 == moments_.size(); }

  void draw_site();
  std::optional<double> wall_top(double from, double to) const;
  void draw_line_at(std::size_t moment);
  void draw_strand(const std::vector<Vec3>& nodes, std::size_t first, std::size_t end, const Stroke& stroke);
  void draw_path();
  void draw_body(std::size_t moment);
  void draw_clear_height();
  void draw_times();

  Drawing& drawing_;
  const Rig& rig_;
  const FallResult& fall_;
  const UnitSystem units_;
  const double size_;
  const std::vector<const FallFrame*> moments_;
  const DrawnUntil until_;
  const double leg_;
  FallView view_;
  double words_x_ = 0.0;
};

void Picture::draw_site() {
  std::vector<PagePoint> surface;
  for (const GroundPoint& g : rig_.site.ground) surface.push_back(view_.at(g.distance, g.height));
  if (!surface.empty()) draw_ground(drawing_, surface);
  const double gap = rig_.site.gap, below = view_.bottom + 20.0;
  if (const auto& wall = rig_.near_anchor.wall) {
    const PagePoint top = view_.at(*wall, wall_top(0.0, *wall).value_or(0.0));
    draw_ground(drawing_, {top, {top.x, below}});
  }
  if (const auto& wall = rig_.far_anchor.wall) {
    const PagePoint top = view_.at(gap - *wall, wall_top(gap - *wall, gap).value_or(rig_.site.rise));
    draw_ground(drawing_, {{top.x, below}, top});
  }
  for (const PagePoint anchor : {view_.at(0.0, 0.0), view_.at(gap, rig_.site.rise)}) {
    drawing_.rectangle(anchor.x - 3.0, anchor.y - 3.0, 6.0, 6.0, "#000");
  }
}

// A face stands under the highest ground between its anchor and its foot; empty where no ground is given there.
std::optional<double> Picture::wall_top(double from, double to) const {
  std::optional<double> top;
  for (const GroundPoint& g : rig_.site.ground) {
    if (g.distance >= from && g.distance <= to) top = std::max(top.value_or(g.height), g.height);
  }
  return top;
}

void Picture::draw_strand(const std::vector<Vec3>& nodes, std::size_t first, std::size_t end, const Stroke& stroke) {
  std::vector<PagePoint> points;
  for (std::size_t i = first; i < std::min(end, nodes.size()); ++i) points.push_back(view_.at(nodes[i]));
  if (points.size() > 1) drawing_.polyline(points, stroke);
}

// Heavy main and light backup; a broken main is two strands that end in a dot each.
void Picture::draw_line_at(std::size_t moment) {
  const FallFrame& frame = *moments_[moment];
  const bool heavy = is_last(moment);
  Stroke main{.width = heavy ? 2.0 : 0.9,
              .dashes = is_first(moment) ? "6 3" : "",
              .colour = heavy || is_first(moment) ? "#000" : "#888"};
  Stroke backup = main;
  backup.width = heavy ? 0.9 : 0.45;
  draw_strand(frame.backup, 0, frame.backup.size(), backup);
  const std::size_t cut = frame.cut_after + 1;
  draw_strand(frame.main, 0, cut, main);
  draw_strand(frame.main, cut, frame.main.size(), main);
  if (cut >= frame.main.size() || is_first(moment)) return;
  for (const std::size_t end : {cut - 1, cut})
    drawing_.circle(view_.at(frame.main[end]), heavy ? 2.2 : 1.3, main.colour, {.width = 0.0});
}

void Picture::draw_path() {
  std::vector<PagePoint> way;
  for (const FallPoint& point : fall_.path) {
    if (point.time <= until_.time) way.push_back(view_.at(point.hip));
  }
  if (way.size() > 1) drawing_.polyline(way, {.width = 0.8, .dashes = "1.2 2.4"});
}

// The body upright with its hip where it is: how it turns in a fall is not computed.
void Picture::draw_body(std::size_t moment) {
  const FallFrame& frame = *moments_[moment];
  const PagePoint hip = view_.at(frame.hip), ring = view_.at(frame.ring);
  const double leg = leg_ * view_.points_per_metre;
  const bool whole = is_first(moment) || is_last(moment);
  const Stroke limb{.width = is_last(moment) ? 1.8 : 1.0, .colour = whole ? "#000" : "#555"};
  drawing_.line(ring, hip,
                {.width = is_last(moment) ? 1.2 : 0.7, .dashes = is_last(moment) ? "" : "2 1.5", .colour = limb.colour});
  drawing_.circle(ring, 2.6, "#fff", {.width = 1.1, .colour = limb.colour});
  if (is_first(moment) && fall_.what.posture == Posture::standing) {
    draw_standing_figure(drawing_, {hip.x, hip.y + leg}, {leg, leg});
  } else {
    const PagePoint shoulder{hip.x, hip.y - 0.55 * leg};
    drawing_.line({hip.x, hip.y + leg}, shoulder, limb);
    drawing_.circle({hip.x, hip.y - 0.75 * leg}, std::max(1.2, 0.15 * leg), whole ? "#000" : "#bbb", limb);
  }
  drawing_.circle(hip, 1.8, "#000", {.width = 0.0});
}

// From the standing main down to the lowest feet, on the side of the bodies that has more room.
void Picture::draw_clear_height() {
  double leftmost = view_.right, rightmost = view_.left;
  for (const FallFrame* frame : moments_) {
    leftmost = std::min({leftmost, view_.at(frame->hip).x, view_.at(frame->ring).x});
    rightmost = std::max({rightmost, view_.at(frame->hip).x, view_.at(frame->ring).x});
  }
  const std::string words = fmt::format("{} clear height", quantity_text(fall_.clear_height, Measure::length, units_));
  const double width = text_width(words, size_, FontWeight::bold) + 4.0;
  const double out = 1.2 * view_.points_per_metre;
  const bool at_left = leftmost - out - width > view_.left + 4.0;
  const double x = at_left ? leftmost - out : std::min(rightmost + out, view_.right - width - 6.0);
  const PagePoint top{x, view_.at(0.0, fall_.lowest + fall_.clear_height).y}, bottom{x, view_.at(0.0, fall_.lowest).y};
  const double feet = view_.at(fall_.lowest_at, 0.0).x;
  drawing_.begin_group("clear-height");
  for (const double y : {top.y, bottom.y}) drawing_.line({x, y}, {feet, y}, {.width = 0.5, .dashes = "3 2"});
  draw_dimension(drawing_, top, bottom);
  draw_label(drawing_, {at_left ? x - 5.0 : x + 5.0, 0.5 * (top.y + bottom.y)}, words,
             {.size = size_, .weight = FontWeight::bold, .align = at_left ? Align::right : Align::left});
  drawing_.end_group();
}

// Times stand in a column; thin lines lead to the hips, since early moments lie close together.
void Picture::draw_times() {
  const double line = 1.45 * size_;
  std::vector<double> ys;
  for (const FallFrame* frame : moments_) {
    const double wanted = view_.at(frame->hip).y + 0.36 * size_;
    ys.push_back(ys.empty() ? std::max(wanted, view_.top + size_) : std::max(wanted, ys.back() + line));
  }
  double most = view_.bottom - 2.0;
  for (std::size_t i = ys.size(); i-- > 0;) {
    ys[i] = std::min(ys[i], most);
    most = ys[i] - line;
  }
  drawing_.begin_group("times");
  for (std::size_t i = 0; i < moments_.size(); ++i) {
    const double y = ys[i] - 0.36 * size_;
    const PagePoint hip = view_.at(moments_[i]->hip);
    drawing_.line({hip.x + 3.0, hip.y}, {view_.right, y}, {.width = 0.4, .colour = "#888"});
    drawing_.line({view_.right, y}, {words_x_ - 3.0, y}, {.width = 0.4, .colour = "#888"});
    drawing_.text(words_x_, ys[i], fmt::format("{:.2f} s{}", moments_[i]->time, is_last(i) ? (until_.hits_ground ? ", ground" : ", lowest") : ""),
                  {.size = size_, .weight = is_last(i) ? FontWeight::bold : FontWeight::regular});
  }
  drawing_.end_group();
}

// The least height over the ground need not be where the body is lowest: it swings on.
std::string ground_words(const Rig& rig, const FallResult& fall, UnitSystem units) {
  if (rig.site.ground.empty()) return " No ground given.";
  if (!fall.clearance) return "";
  const std::string where = fall.clearance_at
      ? fmt::format(" at {} of the gap", quantity_text(*fall.clearance_at, Measure::length, units)) : "";
  return *fall.clearance < 0.0 ? fmt::format(" The feet reach the ground{}.", where)
                               : fmt::format(" At the least the feet are {} over the ground{}.",
                                             quantity_text(*fall.clearance, Measure::length, units), where);
}

std::string times_words(const Rig& rig, const FallResult& fall) {
  const std::vector<const FallFrame*> moments = fall_moments(rig, fall);
  if (moments.size() < 2) return "";
  return fmt::format("every {:.2f} s and {}", moments[1]->time - moments[0]->time,
                     drawn_until(rig, fall).hits_ground ? "when the feet reach the ground" : "at the lowest moment");
}

double farthest_sideways(const Rig& rig, const FallResult& fall) {
  double most = 0.0;
  for (const FallFrame* frame : fall_moments(rig, fall)) most = std::max(most, std::abs(frame->hip.y));
  return most;
}

}  // namespace

bool has_picture(const FallResult& fall) { return !fall.lost && fall.frames.size() > 1; }

const FallResult* pictured_fall(const std::vector<FallResult>& falls) {
  // From an anchor zone a body falls past the rim, which is not computed.
  auto kept = std::find_if(falls.begin(), falls.end(),
                           [](const FallResult& fall) { return has_picture(fall) && !fall.in_anchor_zone; });
  if (kept == falls.end()) kept = std::find_if(falls.begin(), falls.end(), has_picture);
  return kept == falls.end() ? nullptr : &*kept;
}

void draw_fall(Drawing& drawing, const Rig& rig, const FallResult& fall, const PictureBox& box, UnitSystem units) {
  Picture(drawing, rig, fall, box, units).draw();
}

std::string fall_caption(const Rig& rig, const FallResult& fall, UnitSystem units) {
  const bool hits = drawn_until(rig, fall).hits_ground;
  std::string caption = "Seen from the side in true proportions, " + times_words(rig, fall) +
                        (hits ? ". Heavy: the last moment; " : ". Heavy: the lowest moment; ") + "grey: on the way; "
                        "dashed: where it starts. Thick line main, thin line backup, dots the ends of a broken main, "
                        "small ring the leash ring, dotted the "
                        "way of the hip. The body is drawn upright; how it turns is not computed. ";
  caption += hits ? fmt::format("Drawn until the feet reach the ground; the numbers go on as if there were none, down to a clear "
                                "height of {}.", quantity_text(fall.clear_height, Measure::length, units))
                  : "The clear height counts from the main as it stands with nobody on it." + ground_words(rig, fall, units);
  if (const double sideways = farthest_sideways(rig, fall); sideways > 0.3) {
    caption += fmt::format(" It also swings up to {} to the side, which is not seen from here.",
                           quantity_text(sideways, Measure::length, units));
  }
  return caption;
}

std::string fall_heading(const CatchReport& report, const FallResult& fall) {
  const bool failure = fall.what.kind == FallKind::main_failure;
  const auto& falls = failure ? report.main_failure : report.leash_fall;
  const CatchReport::Worst& worst = failure ? report.worst_failure : report.worst_leash_fall;
  const std::string kind = failure ? "Main failure" : "Leash fall";
  std::string most;
  for (const auto& [index, words] : {std::pair{worst.body, "the greatest force on the body"},
                                     {worst.fall, "the deepest fall"},
                                     {worst.clearance, "the least height over the ground"}}) {
    if (fall_at(falls, index) == &fall) most += (most.empty() ? ", " : " and ") + std::string(words);
  }
  return kind + (most.empty() ? ", one of the worst" : most + " of all");
}

std::string fall_picture(const Rig& rig, const CatchReport& report, const FallResult& fall, UnitSystem units) {
  constexpr double kMargin = 30.0, kHeading = 17.0, kSubtitle = 12.0, kSize = 11.0;
  constexpr double kInside = kFallPictureWidth - 2.0 * kMargin;
  Drawing drawing;
  double y = kMargin + kHeading;
  drawing.text(kMargin, y, fit_text(rig.title, kInside, kHeading, FontWeight::bold),
               {.size = kHeading, .weight = FontWeight::bold});
  const std::string numbers = fmt::format("Falls {}, {} on the body, backup {}, near anchor {}, far anchor {}",
                                          quantity_text(fall.fall, Measure::length, units),
                                          quantity_text(fall.body, Measure::force, units),
                                          quantity_text(fall.backup, Measure::force, units),
                                          quantity_text(norm(fall.near), Measure::force, units),
                                          quantity_text(norm(fall.far), Measure::force, units));
  for (const std::string& words : {fall_heading(report, fall) + ": " + event_words(rig, fall, units), numbers}) {
    for (const std::string& line : wrap_text(words, kInside, kSubtitle)) {
      y += 1.4 * kSubtitle;
      drawing.text(kMargin, y, line, {.size = kSubtitle});
    }
  }
  const std::vector<std::string> lines = wrap_text(
      fall_caption(rig, fall, units) + " A planning aid, not a certificate.", kInside, kSize);
  const double caption_height = 1.3 * kSize * static_cast<double>(lines.size());
  y += 10.0;
  draw_fall(drawing, rig, fall, {kMargin, y, kInside, kFallPictureHeight - kMargin - caption_height - y, kSize}, units);
  double baseline = kFallPictureHeight - kMargin - caption_height + kSize;
  for (const std::string& line : lines) {
    drawing.text(kMargin, baseline, line, {.size = kSize});
    baseline += 1.3 * kSize;
  }
  return svg_document(kFallPictureWidth, kFallPictureHeight, rig.title, drawing.svg());
}

}  // namespace spanloom
