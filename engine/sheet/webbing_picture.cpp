#include "sheet/webbing_picture.h"

#include <algorithm>
#include <cmath>

#include <fmt/format.h>

#include "base/units.h"
#include "sheet/text_width.h"

namespace spanloom {
namespace {

using Align = TextStyle::Align;

class Picture {
 public:
  Picture(Drawing& drawing, const std::vector<PullSample>& samples, const PullTest& test, const PictureBox& box, UnitSystem units)
      : drawing_(drawing), samples_(samples), test_(test), units_(units), size_(box.text_size) {
    left_ = box.x + 4.2 * size_;
    right_ = box.x + box.width - size_;
    top_ = box.y + 2.2 * size_;
    bottom_ = box.y + box.height - 3.6 * size_;
    for (const PullSample& s : samples_) {
      from_ = std::min(from_, of_new(s.stretch));
      to_ = std::max(to_, of_new(s.stretch));
      greatest_ = std::max(greatest_, s.tension);
    }
    to_ += 0.03 * (to_ - from_);
    greatest_ *= 1.05;
  }

  void draw() {
    draw_axes();
    draw_readings();
    draw_curve();
    draw_key();
  }

 private:
  double of_new(double read) const { return (1.0 + read) / (1.0 + test_.read_without_load) - 1.0; }
  double of_curve(double stretch) const { return (1.0 + stretch) * (1.0 + test_.lengthened) - 1.0; }
  double x_of(double stretch) const { return left_ + (stretch - from_) / (to_ - from_) * (right_ - left_); }
  double y_of(double tension) const { return bottom_ - tension / greatest_ * (bottom_ - top_); }

  void draw_axes();
  void draw_readings();
  void draw_curve();
  void draw_key();

  Drawing& drawing_;
  const std::vector<PullSample>& samples_;
  const PullTest& test_;
  UnitSystem units_;
  double size_, left_, right_, top_, bottom_;
  double from_ = 0.0, to_ = 1e-6;  // stretch [-]
  double greatest_ = 1e-6;         // tension [N]
};

void Picture::draw_axes() {
  constexpr Stroke kGrid{.width = 0.4, .colour = "#ddd"};
  const double unit = units_ == UnitSystem::us ? units::kPoundForce : 1e3;
  const double rise = tick_step(greatest_ / unit, 8), step = tick_step(100.0 * (to_ - from_), 9);
  drawing_.begin_group("axes");
  for (int i = 0; i * rise * unit <= greatest_; ++i) {
    const double y = y_of(i * rise * unit);
    drawing_.line({left_, y}, {right_, y}, kGrid);
    drawing_.text(left_ - 5.0, y + 0.36 * size_, fmt::format("{:g}", i * rise), {.size = size_, .align = Align::right});
  }
  for (double i = std::ceil(100.0 * from_ / step); i * step <= 100.0 * to_; ++i) {
    const double x = x_of(0.01 * i * step);
    drawing_.line({x, top_}, {x, bottom_}, kGrid);
    drawing_.text(x, bottom_ + 1.3 * size_, fmt::format("{:g}", i * step + 0.0), {.size = size_, .align = Align::middle});  // not -0
  }
  drawing_.rectangle(left_, top_, right_ - left_, bottom_ - top_, "none", {.width = 0.8});
  drawing_.text(left_ - 5.0, top_ - 0.9 * size_, fmt::format("tension [{}]", unit_text(Measure::force, units_)), {.size = size_});
  drawing_.text(0.5 * (left_ + right_), bottom_ + 2.9 * size_, "stretch, of the length without load before the first pull [%]",
                {.size = size_, .align = Align::middle});
  drawing_.end_group();
}

void Picture::draw_readings() {
  std::vector<PagePoint> way;
  for (const PullSample& s : samples_) way.push_back({x_of(of_new(s.stretch)), y_of(std::max(s.tension, 0.0))});
  drawing_.begin_group("readings");
  drawing_.begin_clip(left_, top_, right_ - left_, bottom_ - top_);
  drawing_.polyline(way, {.width = 0.5, .colour = "#666"});
  drawing_.end_clip();
  drawing_.end_group();
}

void Picture::draw_curve() {
  constexpr int kParts = 200;
  const double last = test_.points.back().at.stretch;
  std::vector<PagePoint> curve;
  for (int i = 0; i <= kParts; ++i) {
    const double stretch = last * i / kParts;
    curve.push_back({x_of(of_curve(stretch)), y_of(test_.curve.tension(stretch))});
  }
  drawing_.begin_group("curve");
  drawing_.polyline(curve, {.width = 4.2, .colour = "#fff"});  // a rim to show on the readings
  drawing_.polyline(curve, {.width = 2.2});
  for (const PointFound& p : test_.points) {
    drawing_.circle({x_of(of_curve(p.at.stretch)), y_of(p.at.tension)}, 3.6, "#fff", {.width = 1.4});
  }
  drawing_.end_group();
}

// In the upper left, where a rising curve leaves room.
void Picture::draw_key() {
  const double x = left_ + size_, words = x + 3.4 * size_;
  double y = top_ + 1.8 * size_;
  drawing_.begin_group("key");
  const auto row = [&](const std::string& text, const Stroke& stroke) {
    drawing_.line({x, y - 0.35 * size_}, {x + 2.6 * size_, y - 0.35 * size_}, stroke);
    draw_label(drawing_, {words, y}, text, {.size = size_});
    y += 1.5 * size_;
  };
  row(fmt::format("readings, {} cycles", test_.cycles.size()), {.width = 0.5, .colour = "#666"});
  row(fmt::format("the curve: loading of cycle {}", test_.chosen + 1), {.width = 2.2});
  drawing_.circle({x + 1.3 * size_, y - 0.35 * size_}, 3.6, "#fff", {.width = 1.4});
  draw_label(drawing_, {words, y}, fmt::format("its {} points in the rig file", test_.points.size()), {.size = size_});
  drawing_.end_group();
}

std::string caption_of(const PullTest& test, UnitSystem units) {
  std::string words = fmt::format("The curve misses the readings by {} rms. ", quantity_text(test.residual_rms, Measure::small_force, units));
  if (test.loss) words += fmt::format("One load cycle loses {} of its energy. ", quantity_text(*test.loss, Measure::share, units));
  if (test.chosen > 0) {
    words += fmt::format("Without load the webbing is {:.2f} % longer at the start of that cycle than before the first; the rig file counts "
                         "stretch from there. ", 100.0 * test.lengthened);
  }
  return words + "A planning aid, not a certificate.";
}

}  // namespace

void draw_pull_test(Drawing& drawing, const std::vector<PullSample>& samples, const PullTest& test, const PictureBox& box,
                    UnitSystem units) {
  Picture(drawing, samples, test, box, units).draw();
}

std::string pull_test_picture(const std::vector<PullSample>& samples, const PullTest& test, const std::string& name, UnitSystem units) {
  constexpr double kMargin = 30.0, kHeading = 17.0, kSize = 11.0;
  constexpr double kInside = kPullPictureWidth - 2.0 * kMargin;
  const std::string title = "Pull test of webbing " + name;
  Drawing drawing;
  drawing.text(kMargin, kMargin + kHeading, fit_text(title, kInside, kHeading, FontWeight::bold),
               {.size = kHeading, .weight = FontWeight::bold});
  const std::vector<std::string> lines = wrap_text(caption_of(test, units), kInside, kSize);
  const double caption_height = 1.3 * kSize * static_cast<double>(lines.size());
  const double y = kMargin + kHeading + 10.0;
  draw_pull_test(drawing, samples, test, {kMargin, y, kInside, kPullPictureHeight - kMargin - caption_height - 8.0 - y, kSize}, units);
  double baseline = kPullPictureHeight - kMargin - caption_height + kSize;
  for (const std::string& line : lines) {
    drawing.text(kMargin, baseline, line, {.size = kSize});
    baseline += 1.3 * kSize;
  }
  return svg_document(kPullPictureWidth, kPullPictureHeight, title, drawing.svg());
}

}  // namespace spanloom
