#include "sheet/shake_pages.h"

#include <algorithm>
#include <cmath>
#include <optional>
#include <string>
#include <vector>

#include <fmt/format.h>

#include "sheet/figures.h"
#include "sheet/shake_numbers.h"

namespace spanloom {
namespace {

using Align = TextStyle::Align;

constexpr double kAxisText = 9.0;      // [pt]
constexpr double kFigureHeight = 132.0;
constexpr double kWordsSize = 10.0;

struct Curve {
  ComparedLine line;
  std::vector<std::optional<double>> returned;  // at each frequency [-]
};

std::vector<Curve> curves_of(const ShakeReport& report) {
  std::vector<Curve> curves;
  for (const ComparedLine line : lines_shaken(report, ShakeDirection::sideways)) {
    Curve curve{line, {}};
    for (const double frequency : report.frequencies) {
      const auto over = report.over_places(line, frequency, ShakeDirection::sideways);
      curve.returned.push_back(over ? std::optional(over->mean) : std::nullopt);
    }
    curves.push_back(std::move(curve));
  }
  return curves;
}

Stroke stroke_of(ComparedLine line) {
  switch (line) {
    case ComparedLine::rig: return {.width = 1.8};
    case ComparedLine::even: return {.width = 1.0, .dashes = "6 3"};
    case ComparedLine::bare: return {.width = 1.0, .dashes = "1.5 2.5"};
  }
  return {};
}

void draw_mark(Drawing& drawing, ComparedLine line, PagePoint p) {
  constexpr double r = 3.0;
  switch (line) {
    case ComparedLine::rig: return drawing.circle(p, r, "#000", {.width = 0.8});
    case ComparedLine::even: return drawing.rectangle(p.x - r, p.y - r, 2.0 * r, 2.0 * r, "#fff", {.width = 1.0});
    case ComparedLine::bare:
      return drawing.polygon({{p.x, p.y - 1.2 * r}, {p.x + 1.1 * r, p.y + r}, {p.x - 1.1 * r, p.y + r}}, "#fff",
                             {.width = 1.0});
  }
}

class Figure {
 public:
  Figure(PageStack& pages, const ShakeReport& report, std::vector<Curve> curves)
      : drawing_(pages.drawing()), report_(report), curves_(std::move(curves)), top_(pages.y() + 26.0),
        bottom_(pages.y() + kFigureHeight - 26.0) {
    double greatest = 0.2;
    for (const Curve& curve : curves_) {
      for (const auto& value : curve.returned) greatest = std::max(greatest, value.value_or(0.0));
    }
    step_ = tick_step(greatest, 6);
    most_ = step_ * std::ceil(greatest / step_ - 1e-9);
  }

  void draw() {
    drawing_.begin_group("shake-figure");
    draw_legend();
    draw_axes();
    for (const Curve& curve : curves_) draw_curve(curve);
    drawing_.end_group();
  }

 private:
  static constexpr double kAxisX = kLeft + 30.0;

  double x_of(std::size_t i) const {
    const double steps = std::max<double>(1.0, static_cast<double>(report_.frequencies.size()) - 1.0);
    return kAxisX + 14.0 + static_cast<double>(i) / steps * (kRight - kAxisX - 34.0);
  }
  double y_of(double share) const { return bottom_ - share / most_ * (bottom_ - top_); }

  void draw_legend() {
    drawing_.text(kLeft, top_ - 13.0, "return [%]", {.size = kAxisText});
    double x = kLeft + 110.0;
    for (const Curve& curve : curves_) {
      const double y = top_ - 16.0;
      drawing_.line({x, y}, {x + 34.0, y}, stroke_of(curve.line));
      draw_mark(drawing_, curve.line, {x + 17.0, y});
      drawing_.text(x + 40.0, y + 3.0, label_of(curve.line), {.size = kWordsSize});
      x += 130.0;
    }
  }

  void draw_axes() {
    for (int i = 0; step_ * i <= most_ + 1e-9; ++i) {
      const double y = y_of(step_ * i);
      drawing_.line({kAxisX, y}, {kRight, y}, {.width = i == 0 ? 1.0 : 0.3, .colour = i == 0 ? "#000" : "#777"});
      drawing_.text(kAxisX - 5.0, y + 3.2, whole_percent(step_ * i), {.size = kAxisText, .align = Align::right});
    }
    for (std::size_t i = 0; i < report_.frequencies.size(); ++i) {
      drawing_.line({x_of(i), bottom_}, {x_of(i), bottom_ + 3.0});
      drawing_.text(x_of(i), bottom_ + 13.0, hertz(report_.frequencies[i]),
                    {.size = kAxisText, .align = Align::middle});
    }
    drawing_.text(0.5 * (kAxisX + kRight), bottom_ + 25.0, "frequency of the shake [Hz], sideways, mean over the places",
                  {.size = kAxisText, .align = Align::middle});
  }

  void draw_curve(const Curve& curve) {
    std::vector<PagePoint> run;
    const auto end_run = [&] {
      if (run.size() > 1) drawing_.polyline(run, stroke_of(curve.line));
      for (const PagePoint& p : run) draw_mark(drawing_, curve.line, p);
      run.clear();
    };
    for (std::size_t i = 0; i < curve.returned.size(); ++i) {
      if (curve.returned[i]) {
        run.push_back({x_of(i), y_of(*curve.returned[i])});
      } else {
        end_run();  // a shake without a number leaves a gap
      }
    }
    end_run();
  }

  Drawing& drawing_;
  const ShakeReport& report_;
  std::vector<Curve> curves_;
  double top_, bottom_, step_ = 0.1, most_ = 0.2;
};

struct Paragraph {
  std::string words;
  TextStyle style;
  double gap_after;
};

// What stands under the figure.
std::vector<Paragraph> words_of(const ShakeReport& report) {
  const TextStyle plain{.size = kWordsSize}, bold{.size = kWordsSize, .weight = FontWeight::bold};
  constexpr double kClose = 2.0, kApart = 4.0;
  std::vector<Paragraph> all;
  const auto add = [&all](const std::string& words, const TextStyle& style, double gap) {
    if (!words.empty()) all.push_back({words, style, gap});
  };
  add(report.headline, bold, kApart);
  for (const std::string& words : report.sentences) {
    if (words != report.headline) add(words, plain, kClose);
  }
  for (const std::string& words : report.swing_sentences) add(words, plain, kClose);
  if (report.quick) add("Gust and bounce: not computed in a quick look.", plain, kClose);
  add(after_a_shake(report), bold, kApart);
  for (const std::string& words : report.notes) add("- " + words, {.size = kSmallestText}, 0.0);
  return all;
}

double height_of(const std::vector<Paragraph>& paragraphs) {
  constexpr double kLine = 1.35;  // a little more than a line takes, over its size
  double height = 0.0;
  for (const Paragraph& p : paragraphs) {
    const auto lines = wrap_text(p.words, kContentWidth, p.style.size, p.style.weight).size();
    height += kLine * p.style.size * static_cast<double>(lines) + p.gap_after;
  }
  return height;
}

}  // namespace

// Kept together where a page has room for it; else it starts a page and runs on.
void add_shake(PageStack& pages, const ShakeReport& report) {
  std::vector<Curve> curves = curves_of(report);
  if (curves.empty()) return;
  std::vector<Paragraph> above;
  if (report.quick) above.push_back({quick_look_words(), {.size = kWordsSize, .weight = FontWeight::bold}, 4.0});
  const std::vector<Paragraph> below = words_of(report);
  const auto write = [&pages](const std::vector<Paragraph>& paragraphs) {
    for (const Paragraph& p : paragraphs) pages.paragraph(p.words, p.style, 0.0, p.gap_after);
  };
  pages.begin_part_within("Shake: how much comes back", height_of(above) + kFigureHeight + height_of(below));
  write(above);
  Figure(pages, report, std::move(curves)).draw();
  pages.advance(kFigureHeight + 6.0);
  write(below);
}

}  // namespace spanloom
