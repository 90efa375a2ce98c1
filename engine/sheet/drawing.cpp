#include "sheet/drawing.h"

#include <cassert>
#include <cmath>
#include <iterator>

#include <fmt/format.h>

namespace spanloom {
namespace {

std::string number(double value) {
  assert(std::isfinite(value));
  std::string text = fmt::format("{:.2f}", value);
  while (text.back() == '0') text.pop_back();
  if (text.back() == '.') text.pop_back();
  return text == "-0" ? "0" : text;
}

std::string stroke_attributes(const Stroke& stroke) {
  std::string text = fmt::format("stroke=\"{}\" stroke-width=\"{}\"", stroke.colour, number(stroke.width));
  if (*stroke.dashes != '\0') text += fmt::format(" stroke-dasharray=\"{}\"", stroke.dashes);
  return text;
}

std::string point_list(const std::vector<PagePoint>& points) {
  std::string text;
  for (const PagePoint& p : points) {
    if (!text.empty()) text += ' ';
    text += number(p.x) + "," + number(p.y);
  }
  return text;
}

std::vector<PagePoint> thinned(const std::vector<PagePoint>& points) {
  constexpr double kEyeParts = 0.25;  // [pt]
  std::vector<PagePoint> kept;
  for (std::size_t i = 0; i < points.size(); ++i) {
    const bool is_last = i + 1 == points.size();
    if (kept.empty() || is_last ||
        std::hypot(points[i].x - kept.back().x, points[i].y - kept.back().y) >= kEyeParts) {
      kept.push_back(points[i]);
    }
  }
  return kept;
}

}  // namespace

std::string svg_document(double width, double height, std::string_view title, std::string_view elements) {
  // The view box is in points and the page in millimetres, so one user unit is one point.
  constexpr double kMillimetres = 25.4 / 72.0;
  return fmt::format(
      "<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n"
      "<svg xmlns=\"http://www.w3.org/2000/svg\" width=\"{:.6g}mm\" height=\"{:.6g}mm\" "
      "viewBox=\"0 0 {:.3f} {:.3f}\" font-family=\"'DejaVu Sans', sans-serif\" "
      "fill=\"#000\">\n<title>{}</title>\n"
      "<rect width=\"100%\" height=\"100%\" fill=\"#fff\"/>\n{}</svg>\n",
      width * kMillimetres, height * kMillimetres, width, height, xml_escaped(title), elements);
}

std::string xml_escaped(std::string_view text) {
  std::string out;
  for (const char c : utf8(code_points(text))) {
    switch (c) {
      case '&': out += "&amp;"; break;
      case '<': out += "&lt;"; break;
      case '>': out += "&gt;"; break;
      case '"': out += "&quot;"; break;
      case '\'': out += "&apos;"; break;
      default: out += c;
    }
  }
  return out;
}

void Drawing::text(double x, double y, std::string_view words, const TextStyle& style) {
  assert(style.size >= kSmallestText);
  if (words.empty()) return;
  svg_ += fmt::format("<text x=\"{}\" y=\"{}\" font-size=\"{}\"", number(x), number(y),
                      number(style.size));
  if (style.weight == FontWeight::bold) svg_ += " font-weight=\"bold\"";
  if (style.align == TextStyle::Align::middle) svg_ += " text-anchor=\"middle\"";
  if (style.align == TextStyle::Align::right) svg_ += " text-anchor=\"end\"";
  if (std::string_view(style.fill) != "#000") svg_ += fmt::format(" fill=\"{}\"", style.fill);
  svg_ += fmt::format(">{}</text>\n", xml_escaped(words));
}

void Drawing::line(PagePoint from, PagePoint to, const Stroke& stroke) {
  svg_ += fmt::format("<line x1=\"{}\" y1=\"{}\" x2=\"{}\" y2=\"{}\" {}/>\n", number(from.x),
                      number(from.y), number(to.x), number(to.y), stroke_attributes(stroke));
}

void Drawing::polyline(const std::vector<PagePoint>& points, const Stroke& stroke) {
  svg_ += fmt::format("<polyline points=\"{}\" fill=\"none\" {}/>\n", point_list(thinned(points)),
                      stroke_attributes(stroke));
}

void Drawing::rectangle(double x, double y, double width, double height, const char* fill,
                        const Stroke& stroke) {
  svg_ += fmt::format("<rect x=\"{}\" y=\"{}\" width=\"{}\" height=\"{}\" fill=\"{}\" {}/>\n",
                      number(x), number(y), number(width), number(height), fill,
                      stroke_attributes(stroke));
}

void Drawing::polygon(const std::vector<PagePoint>& points, const char* fill, const Stroke& stroke) {
  svg_ += fmt::format("<polygon points=\"{}\" fill=\"{}\" {}/>\n", point_list(points), fill,
                      stroke_attributes(stroke));
}

void Drawing::circle(PagePoint centre, double radius, const char* fill, const Stroke& stroke) {
  svg_ += fmt::format("<circle cx=\"{}\" cy=\"{}\" r=\"{}\" fill=\"{}\" {}/>\n", number(centre.x),
                      number(centre.y), number(radius), fill, stroke_attributes(stroke));
}

void Drawing::begin_clip(double x, double y, double width, double height) {
  ++clips_;
  svg_ += fmt::format(
      "<clipPath id=\"window{0}\"><rect x=\"{1}\" y=\"{2}\" width=\"{3}\" height=\"{4}\"/></clipPath>\n"
      "<g clip-path=\"url(#window{0})\">\n",
      clips_, number(x), number(y), number(width), number(height));
}

void Drawing::end_clip() { svg_ += "</g>\n"; }

void Drawing::begin_group(std::string_view css_class) {
  svg_ += fmt::format("<g class=\"{}\">\n", xml_escaped(css_class));
}

void Drawing::end_group() { svg_ += "</g>\n"; }

}  // namespace spanloom
