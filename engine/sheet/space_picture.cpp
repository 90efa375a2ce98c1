#include "sheet/space_picture.h"

#include <algorithm>
#include <cmath>
#include <numeric>
#include <vector>

#include <fmt/format.h>

#include "sheet/drawing.h"
#include "sheet/figures.h"
#include "sheet/shake_numbers.h"
#include "sheet/text_width.h"

namespace spanloom {
namespace {

using Align = TextStyle::Align;

constexpr double kBar = 2.0;   // standard errors
constexpr double kMargin = 30.0, kInside = kSpacePictureWidth - 2.0 * kMargin, kSize = 11.0;  // [pt]
constexpr double kLegendWidth = 190.0;  // [pt]

enum class Mark { found, chosen, own, even };

void draw_mark(Drawing& drawing, PagePoint c, Mark mark) {
  constexpr double kRadius = 6.5;
  const Stroke stroke{.width = 1.5};
  switch (mark) {
    case Mark::chosen: drawing.circle(c, kRadius, "none", stroke); [[fallthrough]];
    case Mark::found: return drawing.circle(c, 3.2, "#000");
    case Mark::own: return drawing.rectangle(c.x - kRadius, c.y - kRadius, 2.0 * kRadius, 2.0 * kRadius, "none", stroke);
    case Mark::even:
      return drawing.polygon({{c.x, c.y - 1.2 * kRadius}, {c.x + 1.1 * kRadius, c.y + 0.8 * kRadius},
                              {c.x - 1.1 * kRadius, c.y + 0.8 * kRadius}}, "none", stroke);
  }
}

const char* name_of(Mark mark) {
  switch (mark) {
    case Mark::found: return "found";
    case Mark::chosen: return "chosen";
    case Mark::own: return "the rig as it is";
    case Mark::even: return label_of(ComparedLine::even);
  }
  return "found";
}

std::string tapes_words(const JudgedLayout& layout) {
  return count_text(static_cast<long long>(layout.tapes()), "tape", "tapes");
}

const JudgedLayout* chosen_of(const SpaceReport& report) {
  return report.chosen ? &report.points[*report.chosen] : nullptr;
}

// The mean return over the number of tapes.
class TradeOff {
 public:
  TradeOff(Drawing& drawing, const SpaceReport& report, double top, double bottom)
      : drawing_(drawing), report_(report), top_(top), bottom_(bottom) {
    add(report.own, Mark::own);
    if (report.even) add(*report.even, Mark::even);
    for (const JudgedLayout& found : report.points) add(found, &found == chosen_of(report) ? Mark::chosen : Mark::found);
    if (report.random) greatest_ = std::max(greatest_, report.random->moved.mean + report.random->moved_spread);
    from_ -= 1.0;
    to_ += 1.0;
    greatest_ *= 1.04;   // so that no mark sits on the frame
    step_ = tick_step(std::max(greatest_, 0.01), 6);
    greatest_ = step_ * std::max(1.0, std::ceil(greatest_ / step_ * (1.0 - 1e-9)));
  }

  void draw() {
    drawing_.begin_group("trade-off");
    if (placed_.empty()) {
      drawing_.text(0.5 * (left_ + right_), 0.5 * (top_ + bottom_), "no full-size shake was run",
                    {.size = kSize, .align = Align::middle});
    } else {
      draw_axes();
      draw_random();
      draw_points();
    }
    drawing_.rectangle(left_, top_, right_ - left_, bottom_ - top_, "none", {.width = 0.8});
    drawing_.end_group();
    draw_legend();
  }

 private:
  struct Placed { const JudgedLayout* layout; Mark mark; };

  double x_of(double tapes) const { return left_ + (tapes - from_) / (to_ - from_) * (right_ - left_); }
  double y_of(double returned) const { return bottom_ - returned / greatest_ * (bottom_ - top_); }
  PagePoint at(const JudgedLayout& layout) const { return {x_of(static_cast<double>(layout.tapes())), y_of(layout.moved.mean)}; }

  void add(const JudgedLayout& layout, Mark mark) {
    if (layout.moved.shakes == 0) return;
    const double tapes = static_cast<double>(layout.tapes());
    from_ = placed_.empty() ? tapes : std::min(from_, tapes);
    to_ = std::max(to_, tapes);
    greatest_ = std::max(greatest_, layout.moved.mean + kBar * layout.moved.error);
    placed_.push_back({&layout, mark});
  }

  void draw_axes();
  void draw_random();
  void draw_points();
  void draw_legend();

  Drawing& drawing_;
  const SpaceReport& report_;
  const double left_ = kMargin + 4.0 * kSize, right_ = kMargin + kInside - kLegendWidth;
  const double top_, bottom_;
  std::vector<Placed> placed_;              // layouts that were shaken
  double from_ = 0.0, to_ = 0.0;            // tapes
  double greatest_ = 0.0, step_ = 0.1;      // of the return [-]
};

void TradeOff::draw_axes() {
  for (int i = 0; step_ * i <= greatest_ * 1.0001; ++i) {
    const double y = y_of(step_ * i);
    drawing_.line({left_, y}, {right_, y}, {.width = 0.4, .colour = "#999"});
    drawing_.text(left_ - 6.0, y + 0.36 * kSize, fmt::format("{:g}", 100.0 * step_ * i), {.size = kSize, .align = Align::right});
  }
  drawing_.text(kMargin, top_ - 0.9 * kSize, "comes back [%]", {.size = kSize});
  const double step = std::max(1.0, tick_step(to_ - from_, 10));
  for (double tapes = step * std::ceil(std::max(0.0, from_) / step); tapes <= to_; tapes += step) {
    const double x = x_of(tapes);
    drawing_.line({x, bottom_}, {x, bottom_ + 4.0});
    drawing_.text(x, bottom_ + 4.0 + kSize, fmt::format("{:g}", tapes), {.size = kSize, .align = Align::middle});
  }
  drawing_.text(0.5 * (left_ + right_), bottom_ + 5.0 + 2.3 * kSize, "number of tapes", {.size = kSize, .align = Align::middle});
}

void TradeOff::draw_random() {
  if (!report_.random) return;
  const double mean = report_.random->moved.mean, spread = report_.random->moved_spread;
  const double high = y_of(mean + spread), low = y_of(std::max(0.0, mean - spread));
  drawing_.begin_group("random");
  drawing_.rectangle(left_, high, right_ - left_, low - high, "#ddd", {.width = 0.0, .colour = "none"});
  drawing_.line({left_, y_of(mean)}, {right_, y_of(mean)}, {.width = 1.2, .dashes = "7 4"});
  drawing_.end_group();
}

void TradeOff::draw_points() {
  std::vector<PagePoint> joined;
  for (const JudgedLayout& found : report_.points) {
    if (found.moved.shakes > 0) joined.push_back(at(found));
  }
  if (joined.size() > 1) drawing_.polyline(joined, {.width = 1.0});
  for (const Placed& placed : placed_) {
    const MovedReturn& moved = placed.layout->moved;
    if (moved.error > 0.0) {   // how good the mean is
      const double x = at(*placed.layout).x;
      drawing_.line({x, y_of(moved.mean + kBar * moved.error)}, {x, y_of(std::max(0.0, moved.mean - kBar * moved.error))}, {.width = 0.8});
    }
    drawing_.begin_group("return-mark");
    draw_mark(drawing_, at(*placed.layout), placed.mark);
    drawing_.end_group();
  }
}

// Beside the plot, where no mark can run into it.
void TradeOff::draw_legend() {
  const double mark_x = right_ + 22.0, words_x = right_ + 38.0;
  double y = top_ + kSize;
  const auto words = [&](const std::string& name, const std::vector<std::string>& lines) {
    drawing_.text(words_x, y, name, {.size = kSize, .weight = FontWeight::bold});
    for (const std::string& line : lines) drawing_.text(words_x, y += 1.3 * kSize, line, {.size = kSize});
    y += 2.2 * kSize;
  };
  const auto entry = [&](Mark mark, const std::vector<std::string>& lines) {
    draw_mark(drawing_, {mark_x, y - 0.36 * kSize}, mark);
    words(name_of(mark), lines);
  };
  const auto of = [](const JudgedLayout& layout) {
    return fmt::format("{}, {}", tapes_words(layout),
                       layout.moved.shakes > 0 ? whole_percent(layout.moved.mean) + " %" : "not shaken");
  };
  drawing_.begin_group("legend");
  entry(Mark::own, {of(report_.own)});
  if (report_.even) entry(Mark::even, {of(*report_.even)});
  if (const auto& random = report_.random) {
    drawing_.rectangle(mark_x - 12.0, y - 0.36 * kSize - 6.0, 24.0, 12.0, "#ddd", {.width = 0.0, .colour = "none"});
    drawing_.line({mark_x - 12.0, y - 0.36 * kSize}, {mark_x + 12.0, y - 0.36 * kSize}, {.width = 1.2, .dashes = "7 4"});
    words("at random", {fmt::format("mean of {}: {} %", random->count, whole_percent(random->moved.mean)),
                        "typically +-" + count_text(std::lround(100.0 * random->moved_spread), "point", "points")});
  }
  if (const JudgedLayout* chosen = chosen_of(report_)) entry(Mark::chosen, {of(*chosen)});
  if (report_.points.empty()) words("nothing found", {"that keeps every limit"});
  else entry(Mark::found, {"the best for", "their numbers of tapes"});
  drawing_.end_group();
}

// Main, tapes and loops of a few layouts, one below the other.
class Strips {
 public:
  Strips(Drawing& drawing, const SpaceReport& report, double top, double height, UnitSystem units)
      : drawing_(drawing), units_(units), top_(top), row_(height / 3.0) {
    add(report.own, Mark::own);
    if (report.even) add(*report.even, Mark::even);
    if (const JudgedLayout* chosen = chosen_of(report)) add(*chosen, Mark::chosen);
    points_per_metre_ = (kInside - 2.0 * kAnchor) / std::max(longest_, 1e-9);
    const double to_scale = deepest_ * points_per_metre_;
    // The greatest of 1, 2, 5, 10, 20 ... that fits; of its inverse, the least.
    if (to_scale > 0.0) exaggeration_ = 1.0 / tick_step(to_scale / (row_ - kAbove - kBelow), 1);
  }

  void draw() {
    double y = top_;
    for (const Strip& strip : strips_) {
      drawing_.begin_group("strip");
      draw_strip(strip, y);
      drawing_.end_group();
      y += row_;
    }
    if (!strips_.empty()) draw_scale_bar(drawing_, kMargin + kInside - 80.0, top_ - 1.6 * kSize, points_per_metre_, units_);
  }

  std::string words() const {
    return fmt::format("Strips: the main from the near anchor at the left, unloaded; strokes are tapes, numbers are bays. Loops "
                       "hang as if standing, drawn {:g} times as deep as to scale, alike in all strips.", exaggeration_);
  }

 private:
  struct Strip { const JudgedLayout* layout; Mark mark; };
  static constexpr double kAnchor = 4.0, kAbove = 36.0, kBelow = 10.0;  // [pt]

  void add(const JudgedLayout& layout, Mark mark) {
    const std::vector<double>& bays = layout.layout.bays;
    longest_ = std::max(longest_, std::accumulate(bays.begin(), bays.end(), 0.0));
    for (const double drop : layout.drop) deepest_ = std::max(deepest_, drop);
    strips_.push_back({&layout, mark});
  }

  std::string title_of(const Strip& strip) const;
  void draw_strip(const Strip& strip, double top);
  void draw_loop(double from, double to, double y, double drop);
  void draw_bay_numbers(const std::vector<double>& bays, double y);

  Drawing& drawing_;
  const UnitSystem units_;
  const double top_, row_;
  std::vector<Strip> strips_;
  double longest_ = 0.0, deepest_ = 0.0;    // main, drop [m]
  double points_per_metre_ = 1.0, exaggeration_ = 1.0;
};

std::string Strips::title_of(const Strip& strip) const {
  const JudgedLayout& layout = *strip.layout;
  std::string title = fmt::format("{}: {}", name_of(strip.mark), tapes_words(layout));
  if (layout.moved.shakes > 0) title += fmt::format(", {} % comes back", whole_percent(layout.moved.mean));
  if (layout.drop.empty()) return title + ", no plan and so no drops";
  const auto [least, most] = std::minmax_element(layout.drop.begin(), layout.drop.end());
  const std::string from = number_text(*least, Measure::small_length, units_);
  const std::string to = number_text(*most, Measure::small_length, units_);
  return title + fmt::format(", drops {}{} {}", from == to ? "" : from + " to ", to, unit_text(Measure::small_length, units_));
}

void Strips::draw_loop(double from, double to, double y, double drop) {
  constexpr int kSteps = 24;
  std::vector<PagePoint> loop;
  for (int i = 0; i <= kSteps; ++i) {
    const double share = static_cast<double>(i) / kSteps;
    loop.push_back({from + share * (to - from), y + 4.0 * share * (1.0 - share) * drop * points_per_metre_ * exaggeration_});
  }
  drawing_.polyline(loop, {.width = 0.9});
}

// The first, every fifth and the last, as far as they have room.
void Strips::draw_bay_numbers(const std::vector<double>& bays, double y) {
  constexpr double kRoom = 18.0;
  double x = kMargin + kAnchor, last = -kRoom;
  for (std::size_t k = 0; k < bays.size(); ++k) {
    const std::size_t number = k + 1;
    const double middle = x + 0.5 * bays[k] * points_per_metre_;
    x += bays[k] * points_per_metre_;
    if (number != 1 && number % 5 != 0 && number != bays.size()) continue;
    if (middle - last < kRoom) continue;
    drawing_.text(middle, y, std::to_string(number), {.size = kSmallestText, .align = Align::middle});
    last = middle;
  }
}

void Strips::draw_strip(const Strip& strip, double top) {
  const std::vector<double>& bays = strip.layout->layout.bays;
  const double y = top + kAbove, left = kMargin + kAnchor;
  draw_mark(drawing_, {kMargin + 7.0, top + 0.6 * kSize}, strip.mark);
  drawing_.text(kMargin + 22.0, top + kSize, title_of(strip), {.size = kSize, .weight = FontWeight::bold});
  draw_bay_numbers(bays, y - 7.0);
  double x = left;
  for (std::size_t k = 0; k < bays.size(); ++k) {
    const double to = x + bays[k] * points_per_metre_;
    if (k < strip.layout->drop.size()) draw_loop(x, to, y, strip.layout->drop[k]);
    if (k + 1 < bays.size()) drawing_.line({to, y - 4.5}, {to, y + 4.5}, {.width = 1.1});
    x = to;
  }
  drawing_.line({left, y}, {x, y}, {.width = 2.0});
  for (const double end : {left, x}) drawing_.rectangle(end - kAnchor, y - kAnchor, 2.0 * kAnchor, 2.0 * kAnchor, "#000");
}

}  // namespace

std::string space_picture(const Rig& rig, const SpaceReport& report, UnitSystem units) {
  constexpr double kHeading = 17.0, kSubtitle = 12.0, kTop = 110.0, kBottom = 400.0, kStrips = 480.0;  // [pt]
  Drawing drawing;
  drawing.text(kMargin, kMargin + kHeading, fit_text(rig.title, kInside, kHeading, FontWeight::bold),
               {.size = kHeading, .weight = FontWeight::bold});
  const std::string subtitle =
      fmt::format("What comes back of a sideways shake: mean of {}, taped by as many crews; first swing about {}",
                  count_text(static_cast<long long>(report.judged_shakes), "shake", "shakes"),
                  quantity_text(rig.shake.swing.value, Measure::small_length, units));
  drawing.text(kMargin, kMargin + kHeading + 20.0, fit_text(subtitle, kInside, kSubtitle), {.size = kSubtitle});
  if (report.stopped) {
    drawing.text(kMargin, kMargin + kHeading + 36.0, "STOPPED BEFORE THE END: not complete",
                 {.size = kSubtitle, .weight = FontWeight::bold});
  }
  TradeOff(drawing, report, kTop, kBottom).draw();
  constexpr double kCaption = 4.0 * 1.3 * kSize;
  Strips strips(drawing, report, kStrips, kSpacePictureHeight - kMargin - kCaption - kStrips, units);
  strips.draw();
  double baseline = kSpacePictureHeight - kMargin - kCaption + kSize;
  const std::string caption = strips.words() + " What comes back: how much of the swing is still on the main two round trips "
                              "later; bars: two standard errors. A planning aid, not a certificate; flutter and twist of the webbing "
                              "are not computed.";
  for (const std::string& line : wrap_text(caption, kInside, kSize)) {
    drawing.text(kMargin, baseline, line, {.size = kSize});
    baseline += 1.3 * kSize;
  }
  return svg_document(kSpacePictureWidth, kSpacePictureHeight, rig.title, drawing.svg());
}

}  // namespace spanloom
