#include "sheet/return_picture.h"

#include <algorithm>
#include <cmath>

#include <fmt/format.h>

#include "sheet/shake_numbers.h"
#include "sheet/text_width.h"

namespace spanloom {
namespace {

using Align = TextStyle::Align;

// Where the line was shaken; the node at the place asked for, if the shake is in the report [m].
double shaken_place(const ShakeReport& report) {
  const ShakeResult* result = pictured_result(report);
  return result != nullptr ? result->place_m : report.pictured.place * report.history.along.back();
}

constexpr double kRow = 5.0;                  // between two curves [pt]
constexpr double kHighest = 2.0 * kRow;       // greatest swing [pt]

class Picture {
 public:
  Picture(Drawing& drawing, const ShakeReport& report, const PictureBox& box, UnitSystem units)
      : drawing_(drawing), report_(report), units_(units), size_(box.text_size) {
    left_ = box.x + 4.8 * size_;
    right_ = box.x + box.width - 11.0 * size_;
    top_ = box.y + 3.2 * size_;
    bottom_ = box.y + box.height - 3.4 * size_;
    gap_ = std::max(report.history.along.back(), 1e-9);
    for (const auto& moved : report.history.displacement) {
      for (const double value : moved) greatest_ = std::max(greatest_, std::abs(value));
    }
    end_ = std::max(report.history.time.back(), 1e-9);
    if (const ShakeResult* result = pictured_result(report)) {
      end_ = std::min(end_, result->late_from() + result->late_window() + result->round_trip);  // so that the stripes stay wide
    }
  }

  void draw() {
    draw_curves();
    drawing_.rectangle(left_, top_, right_ - left_, bottom_ - top_, "none", {.width = 0.8});
    draw_place_axis(drawing_, {left_, right_, bottom_, 0.0, gap_, size_}, units_);
    draw_time_axis();
    draw_shaken_place();
    draw_moments();
    draw_scale();
  }

 private:
  double x_of(double along) const { return left_ + along / gap_ * (right_ - left_); }
  double y_of(double time) const { return top_ + time / end_ * (bottom_ - top_); }

  void draw_curves();
  void draw_curve(std::size_t moment, double y);
  void draw_side(const std::vector<PagePoint>& curve, double y, double sign, const char* fill);
  void draw_time_axis();
  void draw_shaken_place();
  void draw_moments();
  void draw_moment(double time, const std::vector<std::string>& words, double from_y);
  void draw_scale();

  Drawing& drawing_;
  const ShakeReport& report_;
  UnitSystem units_;
  double size_, left_, right_, top_, bottom_, gap_, end_;
  double greatest_ = 0.0;  // how far the main moves [m]
};

// Fills what lies above (sign +1) or below (-1) the level of rest.
void Picture::draw_side(const std::vector<PagePoint>& curve, double y, double sign, const char* fill) {
  constexpr double kInvisible = 0.12;  // [pt]
  std::vector<PagePoint> side;
  const auto close = [&] {
    if (side.size() > 1) {
      side.insert(side.begin(), {side.front().x, y});
      side.push_back({side.back().x, y});
      drawing_.polygon(side, fill, {.width = 0.0, .colour = "none"});
    }
    side.clear();
  };
  for (const PagePoint& p : curve) {
    if (sign * (y - p.y) > kInvisible) {
      side.push_back(p);
    } else {
      close();
    }
  }
  close();
}

void Picture::draw_curve(std::size_t moment, double y) {
  const std::vector<double>& moved = report_.history.displacement[moment];
  std::vector<PagePoint> curve;
  for (std::size_t i = 0; i < moved.size(); ++i) {
    curve.push_back({x_of(report_.history.along[i]), greatest_ > 0.0 ? y - kHighest * moved[i] / greatest_ : y});
  }
  draw_side(curve, y, -1.0, "#bbb");
  draw_side(curve, y, 1.0, "#000");
  drawing_.polyline(curve, {.width = 0.35, .colour = "#777"});
}

void Picture::draw_curves() {
  const ShakeHistory& history = report_.history;
  const int rows = std::max(2, static_cast<int>((bottom_ - top_) / kRow));
  drawing_.begin_group("return-curves");
  drawing_.begin_clip(left_, top_, right_ - left_, bottom_ - top_);
  for (int row = 1; row <= rows; ++row) {
    const double time = end_ * row / rows;
    const auto at = std::lower_bound(history.time.begin(), history.time.end(), time);
    const auto moment = std::min<std::ptrdiff_t>(at - history.time.begin(), std::ssize(history.time) - 1);
    draw_curve(static_cast<std::size_t>(moment), y_of(time));
  }
  drawing_.end_clip();
  drawing_.end_group();
}

void Picture::draw_time_axis() {
  const double step = tick_step(end_, std::max(2, static_cast<int>((bottom_ - top_) / (4.0 * size_))));
  for (int i = 0; step * i <= end_ * 1.0001; ++i) {
    const double y = y_of(step * i);
    drawing_.line({left_ - 4.0, y}, {left_, y});
    drawing_.text(left_ - 6.0, y + 0.36 * size_, fmt::format("{:g}", step * i), {.size = size_, .align = Align::right});
  }
  drawing_.text(left_ - 6.0, top_ - 1.1 * size_, "time [s]", {.size = size_, .align = Align::right});
}

void Picture::draw_shaken_place() {
  const double x = x_of(shaken_place(report_)), r = 0.35 * size_;
  drawing_.begin_group("shaken-place");
  drawing_.polygon({{x - r, top_ - 2.0 * r - 1.0}, {x + r, top_ - 2.0 * r - 1.0}, {x, top_ - 1.0}}, "#000",
                   {.width = 0.0, .colour = "none"});
  const double half = 0.5 * text_width("shaken here", size_);
  drawing_.text(std::clamp(x, left_ + half, right_ - half), top_ - 1.1 * size_, "shaken here",
                {.size = size_, .align = Align::middle});
  drawing_.end_group();
}

void Picture::draw_moment(double time, const std::vector<std::string>& words, double from_y) {
  const double y = y_of(time);
  drawing_.line({left_, y}, {right_ + 0.6 * size_, y}, {.width = 2.4, .colour = "#fff"});  // a rim to show on dark
  drawing_.line({left_, y}, {right_ + 0.6 * size_, y}, {.width = 1.0, .dashes = "5 3"});
  double baseline = std::max(y + 0.36 * size_, from_y);
  for (const std::string& line : words) {
    drawing_.text(right_ + size_, baseline, line, {.size = size_});
    baseline += 1.25 * size_;
  }
}

void Picture::draw_moments() {
  const ShakeResult* result = pictured_result(report_);
  if (result == nullptr) return;
  const double period = 1.0 / result->shake.frequency;
  const double from = result->late_from(), to = from + result->late_window();
  drawing_.begin_group("moments");
  draw_moment(period, {"the shake ends"}, 0.0);
  const double below_first = y_of(period) + 2.0 * size_;
  if (from <= end_) {
    draw_moment(from, {"two round trips", "later: from here"}, below_first);
  }
  const double below_second = std::max(y_of(from), below_first) + 3.3 * size_;
  if (to <= end_ * 1.0001) {
    draw_moment(std::min(to, end_), {"to here.", "What still swings", fmt::format("in this time: {} %", whole_percent(result->returned))},
                below_second);
    drawing_.line({right_ + 0.6 * size_, y_of(from)}, {right_ + 0.6 * size_, y_of(std::min(to, end_))}, {.width = 2.0});
  }
  drawing_.end_group();
}

// How much movement is how high, under the words at the right.
void Picture::draw_scale() {
  if (greatest_ <= 0.0) return;
  const double x = right_ + 1.4 * size_, from = bottom_ + 1.8 * size_, to = from + kHighest, half = 0.25 * size_;
  drawing_.begin_group("scale");
  drawing_.line({x, from}, {x, to}, {.width = 1.2});
  for (const double y : {from, to}) drawing_.line({x - half, y}, {x + half, y}, {.width = 1.2});
  drawing_.text(x + 0.7 * size_, 0.5 * (from + to) + 0.36 * size_,
                fmt::format("{} of swing", quantity_text(greatest_, Measure::small_length, units_)), {.size = size_});
  drawing_.end_group();
}

std::string shake_words(const Shake& shake) {
  return fmt::format("{} Hz {} at {} % of the gap", hertz(shake.frequency),
                     shake.direction == ShakeDirection::sideways ? "sideways" : "upwards", whole_percent(shake.place));
}

// The picture shows one and the same shake for every line, which is seldom the worst.
std::string what_is_shown(const ShakeReport& report) {
  const std::string shown = "Shown for comparison, alike for every line";
  if (report.quick) return shown + ". A quick look: the worst is not known.";
  if (!report.worst) return shown + "; it need not be the worst.";
  const ShakeResult& worst = report.shakes[*report.worst].result;
  if (&worst == pictured_result(report)) return shown + "; here it is the worst too.";
  return fmt::format("{}; not the worst ({}: {} %).", shown, shake_words(worst.shake), whole_percent(worst.returned));
}

std::string caption_of(const ShakeReport& report) {
  const bool sideways = report.pictured.direction == ShakeDirection::sideways;
  std::string caption = fmt::format(
      "Each curve is the main at one moment, time runs downwards. Dark: the main {} of where it stands still; grey: to "
      "the other side. A swing that travels draws a slanting stripe; what the ends throw back changes sides. ",
      sideways ? "to the left (seen from the near anchor)" : "above");
  const ShakeResult* result = pictured_result(report);
  if (result != nullptr && result->round_trip * result->shake.frequency < 1.0) {
    caption += fmt::format("This line is short for such a shake: a swing crosses it in {}, while a cycle takes {}, so that "
                           "stripes are nearly level. ",
                           quantity_text(0.5 * result->round_trip, Measure::duration, UnitSystem::metric),
                           quantity_text(1.0 / result->shake.frequency, Measure::duration, UnitSystem::metric));
  }
  return caption + "A planning aid, not a certificate; flutter and twist of the webbing are not computed.";
}

}  // namespace

bool has_picture(const ShakeReport& report) {
  const ShakeHistory& history = report.history;
  return history.along.size() > 1 && history.time.size() > 1 && history.displacement.size() == history.time.size();
}

void draw_return(Drawing& drawing, const ShakeReport& report, const PictureBox& box, UnitSystem units) {
  Picture(drawing, report, box, units).draw();
}

std::string return_picture(const ShakeReport& report, const std::string& title, UnitSystem units) {
  constexpr double kMargin = 30.0, kHeading = 17.0, kSubtitle = 12.0, kSize = 11.0;
  constexpr double kInside = kPictureWidth - 2.0 * kMargin;
  Drawing drawing;
  drawing.text(kMargin, kMargin + kHeading, fit_text(title, kInside, kHeading, FontWeight::bold),
               {.size = kHeading, .weight = FontWeight::bold});
  drawing.text(kMargin, kMargin + kHeading + 20.0,
               fmt::format("One shake of {} ({} from the near anchor), first swing {}", shake_words(report.pictured),
                           quantity_text(shaken_place(report), Measure::length, units),
                           quantity_text(report.pictured.first_swing, Measure::small_length, units)),
               {.size = kSubtitle});
  drawing.text(kMargin, kMargin + kHeading + 37.0, fit_text(what_is_shown(report), kInside, kSubtitle), {.size = kSubtitle});
  const std::vector<std::string> lines = wrap_text(caption_of(report), kInside, kSize);
  const double caption_height = 1.3 * kSize * static_cast<double>(lines.size());
  const double y = kMargin + kHeading + 50.0;
  draw_return(drawing, report, {kMargin, y, kInside, kPictureHeight - kMargin - caption_height - 8.0 - y, kSize}, units);
  double baseline = kPictureHeight - kMargin - caption_height + kSize;
  for (const std::string& line : lines) {
    drawing.text(kMargin, baseline, line, {.size = kSize});
    baseline += 1.3 * kSize;
  }
  return svg_document(kPictureWidth, kPictureHeight, title, drawing.svg());
}

}  // namespace spanloom
