#include "sheet/hauling_picture.h"

#include <algorithm>
#include <cmath>
#include <vector>

#include <fmt/format.h>

#include "base/units.h"
#include "sheet/drawing.h"
#include "sheet/figures.h"
#include "sheet/text_width.h"

namespace spanloom {
namespace {

using Align = TextStyle::Align;

constexpr double kMargin = 30.0, kInside = kHaulingPictureWidth - 2.0 * kMargin, kSize = 11.0;  // [pt]
constexpr double kLeft = kMargin + 4.0 * kSize, kRight = kMargin + kInside - 10.0;

double force_unit(UnitSystem units) { return units == UnitSystem::us ? units::kPoundForce : 1000.0; }
double length_unit(UnitSystem units) { return units == UnitSystem::us ? units::kFoot : 1.0; }

// From 0 to a round number that is not below the greatest value, in the units of the page.
struct Scale {
  double unit, step, end;

  Scale(double greatest, double unit_si, int most)
      : unit(unit_si), step(tick_step(std::max(greatest / unit, 1e-6), most)) {
    end = step * std::ceil(greatest / unit / step * (1.0 - 1e-9));
  }
  double share(double si) const { return si / unit / end; }
};

// Tension grows upwards, sag hangs downwards.
enum class Grows { up, down };

struct Panel {
  double top, bottom;
  Grows grows;
  Scale scale;

  double y_of(double si) const {
    return grows == Grows::up ? bottom - scale.share(si) * (bottom - top) : top + scale.share(si) * (bottom - top);
  }
};

class Picture {
 public:
  Picture(Drawing& drawing, const HaulingReport& report, UnitSystem units)
      : drawing_(drawing),
        report_(report),
        units_(units),
        pulled_(report.steps.back().pulled, length_unit(units), 10) {}

  void draw(double top, double bottom) {
    const double between = 3.0 * kSize, half = 0.5 * (bottom - top - between);
    double deepest = 0.0;
    for (const PullStep& step : report_.steps) deepest = std::max(deepest, step.sag);
    const Panel tension{top, top + half, Grows::up, Scale(1.05 * report_.standing, force_unit(units_), 6)};
    const Panel sag{bottom - half, bottom, Grows::down, Scale(1.05 * deepest, length_unit(units_), 6)};
    drawing_.begin_group("tension-panel");
    draw_panel(tension, fmt::format("tension at the near anchor [{}]", unit_text(Measure::force, units_)),
               &PullStep::tension_near);
    draw_ends(tension);
    drawing_.end_group();
    drawing_.begin_group("sag-panel");
    draw_panel(sag, fmt::format("sag at the middle [{}]", unit_text(Measure::length, units_)), &PullStep::sag);
    drawing_.end_group();
    draw_pulled_axis(bottom);
  }

 private:
  double x_of(double pulled) const { return kLeft + pulled_.share(pulled) * (kRight - kLeft); }
  void draw_panel(const Panel& panel, const std::string& what, double PullStep::*value);
  void draw_ends(const Panel& panel);
  void draw_pulled_axis(double y);

  Drawing& drawing_;
  const HaulingReport& report_;
  UnitSystem units_;
  Scale pulled_;
};

void Picture::draw_panel(const Panel& panel, const std::string& what, double PullStep::*value) {
  const Scale& scale = panel.scale;
  for (int i = 0; scale.step * i <= scale.end * 1.0001; ++i) {
    const double y = panel.y_of(scale.step * i * scale.unit);
    drawing_.line({kLeft, y}, {kRight, y}, {.width = 0.4, .colour = "#999"});
    drawing_.text(kLeft - 6.0, y + 0.36 * kSize, fmt::format("{:g}", scale.step * i),
                  {.size = kSize, .align = Align::right});
  }
  drawing_.text(kMargin, panel.top - 0.9 * kSize, what, {.size = kSize});
  std::vector<PagePoint> curve;
  for (const PullStep& step : report_.steps) curve.push_back({x_of(step.pulled), panel.y_of(step.*value)});
  drawing_.polyline(curve, {.width = 1.6});
  for (const PagePoint& at : curve) drawing_.circle(at, 3.0, "#000", {.width = 0.5});
  drawing_.rectangle(kLeft, panel.top, kRight - kLeft, panel.bottom - panel.top, "none", {.width = 0.8});
}

void Picture::draw_ends(const Panel& panel) {
  const auto force = [&](double value) { return quantity_text(value, Measure::force, units_); };
  const PullStep &first = report_.steps.front(), &last = report_.steps.back();
  const std::string words = "hand-tight " + force(first.tension_near);
  const double x = x_of(first.pulled) + 10.0, end = x + text_width(words, kSize);
  double highest = last.tension_near;  // of the curve below the words: where it has left them behind
  for (auto step = report_.steps.rbegin(); step != report_.steps.rend() && x_of(step->pulled) >= end; ++step)
    highest = step->tension_near;
  draw_label(drawing_, {x, panel.y_of(highest) - 8.0}, words, {.size = kSize});
  draw_label(drawing_, {x_of(last.pulled) - 10.0, panel.y_of(last.tension_near) - 4.0},
             "standing " + force(last.tension_near), {.size = kSize, .align = Align::right});
}

void Picture::draw_pulled_axis(double y) {
  for (int i = 0; pulled_.step * i <= pulled_.end * 1.0001; ++i) {
    const double x = x_of(pulled_.step * i * pulled_.unit);
    drawing_.line({x, y}, {x, y + 4.0});
    drawing_.text(x, y + 4.0 + kSize, fmt::format("{:g}", pulled_.step * i), {.size = kSize, .align = Align::middle});
  }
  drawing_.text(0.5 * (kLeft + kRight), y + 5.0 + 2.3 * kSize,
                fmt::format("main pulled through, as on the unloaded webbing [{}]", unit_text(Measure::length, units_)),
                {.size = kSize, .align = Align::middle});
}

}  // namespace

std::string hauling_picture(const Rig& rig, const HaulingReport& report, UnitSystem units) {
  constexpr double kHeading = 17.0, kSubtitle = 12.0, kTop = kMargin + kHeading + 54.0;
  Drawing drawing;
  drawing.text(kMargin, kMargin + kHeading, fit_text(rig.title, kInside, kHeading, FontWeight::bold),
               {.size = kHeading, .weight = FontWeight::bold});
  const std::string subtitle = fmt::format("Pulling the main up with the backup hung: {} from {} to {}",
                                           quantity_text(report.steps.back().pulled, Measure::length, units),
                                           quantity_text(report.hand_tight, Measure::force, units),
                                           quantity_text(report.standing, Measure::force, units));
  drawing.text(kMargin, kMargin + kHeading + 20.0, fit_text(subtitle, kInside, kSubtitle), {.size = kSubtitle});
  const std::vector<std::string> caption = wrap_text(
      "Dots: lines at rest, each solved by itself. Sag: below the straight line between the anchors. A planning aid, "
      "not a "
      "certificate: measure the tension, do not count on the length.",
      kInside, kSize);
  const double caption_height = 1.3 * kSize * static_cast<double>(caption.size());
  Picture(drawing, report, units).draw(kTop, kHaulingPictureHeight - kMargin - caption_height - 46.0);
  double baseline = kHaulingPictureHeight - kMargin - caption_height + kSize;
  for (const std::string& line : caption) {
    drawing.text(kMargin, baseline, line, {.size = kSize});
    baseline += 1.3 * kSize;
  }
  return svg_document(kHaulingPictureWidth, kHaulingPictureHeight, rig.title, drawing.svg());
}

}  // namespace spanloom
