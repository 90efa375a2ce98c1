// The pages of a sheet as they fill up: heads that repeat, a foot on every page, the count at the end.
#pragma once

#include <string>
#include <vector>

#include "sheet/drawing.h"
#include "base/quantity_text.h"

namespace spanloom {

/// What the caller knows and the rig does not.
struct SheetInfo {
  std::string file_name;             ///< of the rig file, for the foot of every page
  std::string version;
  std::string date;                  ///< as it is to be printed, "2026-05-01"
  UnitSystem units = UnitSystem::metric;
};

/// Where page content may stand.
inline constexpr double kLeft = 34.0;                        ///< [pt]
inline constexpr double kRight = kPageWidth - 34.0;          ///< [pt]
inline constexpr double kTop = 34.0;                         ///< [pt]
inline constexpr double kBottom = kPageHeight - 82.0;        ///< above the foot [pt]
inline constexpr double kContentWidth = kRight - kLeft;      ///< [pt]

/// Hands out vertical room from the top of a page down. Other parts of the sheet (a shake figure, a
/// catch block) add themselves by calling begin_part() and drawing.
class PageStack {
 public:
  /// @param cautions  for the foot of every page: as many, from the first on, as find room there
  PageStack(std::string title, SheetInfo info, const std::vector<std::string>& cautions);

  /// Starts a page without a head; the caller draws its own from kTop down.
  void begin_bare_page();
  /// Starts a page with the part's heading; pages it runs on to repeat it with "continued".
  void begin_part(std::string heading);
  /// Starts a part on this page if `height` is still free below, on a new page if not.
  void begin_part_within(std::string heading, double height);
  /// Makes sure of `height` on this page, turning to the next one if need be.
  /// @return true if a page was turned, so that a table repeats its head
  bool reserve(double height);

  Drawing& drawing() { return pages_.back(); }
  const SheetInfo& info() const { return info_; }
  double y() const { return y_; }
  void advance(double height) { y_ += height; }
  /// A paragraph over the whole width below y(), page after page, then `gap_after` [pt].
  void paragraph(std::string_view text, const TextStyle& style, double indent = 0.0,
                 double gap_after = 4.0);

  /// The finished pages, feet with "page n of m" included.
  std::vector<std::string> finish() const;

 private:
  void begin_page_with(const std::string& heading);
  void draw_heading(const std::string& heading);
  std::string foot(std::size_t page) const;

  std::string title_;
  SheetInfo info_;
  std::vector<std::string> foot_words_;  // lines
  std::string heading_;
  std::vector<Drawing> pages_;
  double y_ = kTop;
};

}  // namespace spanloom
