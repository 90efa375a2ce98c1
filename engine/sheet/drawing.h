// Lines and texts of one page as SVG, in points: a font-size of 14 is 14 pt on paper.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "sheet/text_width.h"

namespace spanloom {

/// A place on the page, y downwards [pt].
struct PagePoint {
  double x = 0.0;
  double y = 0.0;
};

inline constexpr double kPageWidth = 210.0 * 72.0 / 25.4;   ///< A4 [pt]
inline constexpr double kPageHeight = 297.0 * 72.0 / 25.4;  ///< [pt]
/// Nothing on a sheet is set smaller: it is read outdoors, on paper, at arm's length. [pt]
inline constexpr double kSmallestText = 9.0;

struct TextStyle {
  enum class Align { left, middle, right };
  double size = 10.0;                ///< [pt], >= kSmallestText
  FontWeight weight = FontWeight::regular;
  Align align = Align::left;
  const char* fill = "#000";
};

/// A stroke is told from others by weight and dashes, never by colour alone.
struct Stroke {
  double width = 0.8;                ///< [pt]
  const char* dashes = "";           ///< SVG dash list, "" for a full line
  const char* colour = "#000";
};

/// Collects the elements of one page. Coordinates are finite, texts are escaped here.
class Drawing {
 public:
  void text(double x, double y, std::string_view words, const TextStyle& style = {});
  void line(PagePoint from, PagePoint to, const Stroke& stroke = {});
  /// Points closer than the eye can part are left out.
  void polyline(const std::vector<PagePoint>& points, const Stroke& stroke = {});
  void rectangle(double x, double y, double width, double height, const char* fill,
                 const Stroke& stroke = {});
  void polygon(const std::vector<PagePoint>& points, const char* fill, const Stroke& stroke = {});
  void circle(PagePoint centre, double radius, const char* fill, const Stroke& stroke = {});

  /// Everything drawn until end_clip() shows inside the rectangle only.
  void begin_clip(double x, double y, double width, double height);
  void end_clip();
  /// A named group, so that tests and the page find the parts of a sheet again.
  void begin_group(std::string_view css_class);
  void end_group();

  const std::string& svg() const { return svg_; }

 private:
  std::string svg_;
  int clips_ = 0;
};

/// A complete SVG document around what was drawn, on white, in points.
/// @param width, height  of the page [pt]
std::string svg_document(double width, double height, std::string_view title, std::string_view elements);

/// The text with &, <, >, quotes and what XML cannot hold made harmless.
std::string xml_escaped(std::string_view text);

}  // namespace spanloom
