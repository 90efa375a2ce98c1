#include "sheet/figures.h"

#include <algorithm>
#include <cmath>

#include <fmt/format.h>

#include "base/units.h"

namespace spanloom {
namespace {

// Shares of the height foot to hip; a picture of a person, not a measurement.
constexpr double kShoulder = 1.55;
constexpr double kHead = 1.75;
constexpr double kHeadRadius = 0.15;
constexpr double kArm = 0.75;
constexpr double kStance = 0.12;

}  // namespace

void draw_standing_figure(Drawing& drawing, PagePoint foot, const FigureSize& size) {
  const double h = size.foot_to_hip;
  const Stroke body{.width = 1.3};
  const PagePoint hip{foot.x, foot.y - h};
  const PagePoint shoulder{foot.x, foot.y - kShoulder * h};
  drawing.begin_group("walker-standing");
  drawing.polyline({{foot.x - kStance * h, foot.y}, hip, {foot.x + kStance * h, foot.y}}, body);
  drawing.line(hip, shoulder, body);
  drawing.polyline({{foot.x - kArm * h, shoulder.y - 0.2 * h}, shoulder,
                    {foot.x + kArm * h, shoulder.y - 0.2 * h}}, body);
  drawing.circle({foot.x, foot.y - kHead * h}, std::max(1.2, kHeadRadius * h), "#000", {.width = 0.5});
  drawing.end_group();
}

void draw_hanging_figure(Drawing& drawing, PagePoint ring, const FigureSize& size) {
  const double h = size.foot_to_hip;
  const Stroke body{.width = 1.0};
  const PagePoint hip{ring.x, ring.y + size.leash};
  const PagePoint shoulder{hip.x + 0.35 * h, hip.y - 0.42 * h};
  drawing.begin_group("walker-hanging");
  drawing.line(ring, hip, {.width = 0.7, .dashes = "1.5 1.5"});
  drawing.line(hip, {ring.x, hip.y + h}, body);
  drawing.line(hip, shoulder, body);
  drawing.line(shoulder, {ring.x, hip.y - 0.75 * std::min(size.leash, h)}, body);
  drawing.circle({shoulder.x + 0.12 * h, shoulder.y - 0.16 * h}, std::max(1.2, kHeadRadius * h), "#fff",
                 body);
  drawing.end_group();
}

void draw_ground(Drawing& drawing, const std::vector<PagePoint>& surface) {
  constexpr double kEvery = 7.0, kDepth = 5.0, kLean = 4.0;  // [pt]
  drawing.begin_group("ground");
  drawing.polyline(surface, {.width = 1.6});
  double next = 0.5 * kEvery;
  for (std::size_t i = 1; i < surface.size(); ++i) {
    const PagePoint a = surface[i - 1], b = surface[i];
    const double length = std::hypot(b.x - a.x, b.y - a.y);
    for (; next < length; next += kEvery) {
      const PagePoint along{(b.x - a.x) / length, (b.y - a.y) / length};
      const PagePoint p{a.x + next * along.x, a.y + next * along.y};
      drawing.line(p, {p.x - along.y * kDepth - along.x * kLean, p.y + along.x * kDepth - along.y * kLean},
                   {.width = 0.6});
    }
    next -= length;
  }
  drawing.end_group();
}

void draw_dimension(Drawing& drawing, PagePoint from, PagePoint to) {
  const double length = std::hypot(to.x - from.x, to.y - from.y);
  if (length <= 0.0) return;
  constexpr double kTick = 3.0;
  const PagePoint side{-(to.y - from.y) / length * kTick, (to.x - from.x) / length * kTick};
  drawing.line(from, to, {.width = 0.6});
  for (const PagePoint& end : {from, to}) {
    drawing.line({end.x - side.x, end.y - side.y}, {end.x + side.x, end.y + side.y}, {.width = 1.0});
  }
}

void draw_label(Drawing& drawing, PagePoint at, std::string_view words, const TextStyle& style) {
  const double width = text_width(words, style.size, style.weight);
  double left = at.x;
  if (style.align == TextStyle::Align::middle) left -= 0.5 * width;
  if (style.align == TextStyle::Align::right) left -= width;
  drawing.rectangle(left - 1.5, at.y - 0.82 * style.size, width + 3.0, 1.05 * style.size, "#fff",
                    {.width = 0.0, .colour = "none"});
  drawing.text(at.x, at.y, words, style);
}

double tick_step(double range, int most) {
  const double least = range / most;
  const double decade = std::pow(10.0, std::floor(std::log10(least)));
  for (const double factor : {1.0, 2.0, 5.0}) {
    if (factor * decade >= least) return factor * decade;
  }
  return 10.0 * decade;
}

void draw_scale_bar(Drawing& drawing, double middle, double y, double points_per_metre, UnitSystem units) {
  constexpr double kLongest = 110.0;  // [pt]
  const double unit = units == UnitSystem::us ? units::kFoot : 1.0;
  double bar = std::pow(10.0, std::floor(std::log10(kLongest / points_per_metre / unit)));
  for (const double more : {5.0, 2.0}) {
    if (more * bar * unit * points_per_metre > kLongest) continue;
    bar *= more;
    break;
  }
  const double width = bar * unit * points_per_metre;
  const double x = middle - 0.5 * width - 12.0;
  drawing.rectangle(x, y - 5.0, 0.5 * width, 4.0, "#000");
  drawing.rectangle(x + 0.5 * width, y - 5.0, 0.5 * width, 4.0, "#fff");
  drawing.text(x + width + 6.0, y, fmt::format("{:g} {}", bar, unit_text(Measure::length, units)),
               {.size = kSmallestText});
}

void draw_place_axis(Drawing& drawing, const PlaceAxis& axis, UnitSystem units) {
  const double unit = units == UnitSystem::us ? 1.0 / units::kFoot : 1.0;  // of them in a metre
  const double from = axis.from * unit, range = (axis.to - axis.from) * unit, step = tick_step(range, 8);
  constexpr double kHair = 1e-4;  // a last tick at the very end counts
  for (double i = std::ceil(from / step - kHair); i * step <= from + range * (1.0 + kHair); ++i) {
    const double x = axis.left + (i * step - from) / range * (axis.right - axis.left);
    drawing.line({x, axis.y}, {x, axis.y + 4.0});
    drawing.text(x, axis.y + 4.0 + axis.text_size, fmt::format("{:g}", i * step + 0.0),  // not -0
                 {.size = axis.text_size, .align = TextStyle::Align::middle});
  }
  drawing.text(0.5 * (axis.left + axis.right), axis.y + 5.0 + 2.3 * axis.text_size,
               fmt::format("along the gap from the near anchor [{}]", unit_text(Measure::length, units)),
               {.size = axis.text_size, .align = TextStyle::Align::middle});
}

void draw_verdict_mark(Drawing& drawing, PagePoint c, double size, Verdict verdict) {
  const double r = 0.5 * size;
  drawing.begin_group(std::string("mark-") + (verdict == Verdict::ok        ? "ok"
                                              : verdict == Verdict::caution ? "caution"
                                                                            : "stop"));
  if (verdict == Verdict::stop) {
    drawing.rectangle(c.x - r, c.y - r, size, size, "#000", {.width = 1.4});
    drawing.line({c.x - 0.6 * r, c.y - 0.6 * r}, {c.x + 0.6 * r, c.y + 0.6 * r}, {2.0, "", "#fff"});
    drawing.line({c.x - 0.6 * r, c.y + 0.6 * r}, {c.x + 0.6 * r, c.y - 0.6 * r}, {2.0, "", "#fff"});
  } else {
    drawing.circle(c, r, "#fff", {.width = 1.4});
    if (verdict == Verdict::caution) {
      std::vector<PagePoint> half;
      constexpr int kSteps = 16;
      constexpr double kPi = 3.14159265358979323846;
      for (int i = 0; i <= kSteps; ++i) {
        half.push_back({c.x + r * std::cos(kPi * i / kSteps), c.y + r * std::sin(kPi * i / kSteps)});
      }
      drawing.polygon(half, "#000", {.width = 0.5});
    }
  }
  drawing.end_group();
}

}  // namespace spanloom
