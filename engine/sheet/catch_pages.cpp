#include "sheet/catch_pages.h"

#include <algorithm>
#include <optional>
#include <string>
#include <vector>

#include <fmt/format.h>

#include "checks/catch_warnings.h"
#include "checks/catch_words.h"
#include "sheet/catch_numbers.h"
#include "sheet/fall_picture.h"
#include "sheet/figures.h"

namespace spanloom {
namespace {

using Align = TextStyle::Align;

constexpr double kWordsSize = 10.0;      // [pt]
constexpr double kLine = 1.3;            // line distance over size
constexpr double kPictureHeight = 272.0; // [pt]
constexpr double kLabel = 104.0;         // room for labels [pt]
constexpr double kFailureX = kLeft + 112.0, kLeashX = kLeft + 322.0;  // where the columns begin
constexpr double kCell = 204.0;          // room for the words of a number [pt]

struct TableRow {
  FallNumber number;
  std::vector<std::string> label, failure_at, leash_at;
  double height;
};

std::vector<TableRow> rows_of(const Rig& rig, const CatchReport& report, UnitSystem units) {
  std::vector<TableRow> rows;
  for (FallNumber& number : fall_numbers(rig, report, units)) {
    if (number.failure == "-" && number.leash == "-") continue;
    TableRow row{std::move(number), {}, {}, {}, 0.0};
    row.label = wrap_text(row.number.label, kLabel, kSmallestText);
    row.failure_at = wrap_text(row.number.failure_at, kCell, kSmallestText);
    row.leash_at = wrap_text(row.number.leash_at, kCell, kSmallestText);
    const auto lines = static_cast<double>(std::max(row.failure_at.size(), row.leash_at.size()));
    row.height = 13.0 + lines * kSmallestText * kLine + 3.0;
    rows.push_back(std::move(row));
  }
  return rows;
}

void draw_head(PageStack& pages) {
  pages.drawing().text(kFailureX, pages.y() + 10.0, "main fails", {.size = kWordsSize, .weight = FontWeight::bold});
  pages.drawing().text(kLeashX, pages.y() + 10.0, "leash fall, main unbroken",
                       {.size = kWordsSize, .weight = FontWeight::bold});
  pages.advance(14.0);
  pages.drawing().line({kLeft, pages.y()}, {kRight, pages.y()}, {.width = 1.0});
}

void draw_row(PageStack& pages, const TableRow& row) {
  if (pages.reserve(row.height)) draw_head(pages);
  Drawing& drawing = pages.drawing();
  const double y = pages.y() + 12.0;
  double label_y = y;
  for (const std::string& words : row.label) {
    drawing.text(kLeft, label_y, words, {.size = kSmallestText});
    label_y += kSmallestText * kLine;
  }
  const auto cell = [&](double x, const std::string& number, const std::vector<std::string>& at) {
    drawing.text(x, y, number, {.size = 12.0, .weight = FontWeight::bold});
    double below = y;
    for (const std::string& words : at) drawing.text(x, below += kSmallestText * kLine, words, {.size = kSmallestText});
  };
  cell(kFailureX, row.number.failure, row.failure_at);
  cell(kLeashX, row.number.leash, row.leash_at);
  pages.advance(row.height);
  drawing.line({kLeft, pages.y()}, {kRight, pages.y()}, {.width = 0.35, .colour = "#777"});
}

// What a crew looks for first, set large.
void draw_clear_height(PageStack& pages, const Rig& rig, const CatchReport& report, const std::vector<Check>& checks) {
  constexpr double kHeight = 40.0;
  const UnitSystem units = pages.info().units;
  pages.reserve(kHeight + 6.0);
  Drawing& drawing = pages.drawing();
  const double y = pages.y() + 4.0;
  drawing.begin_group("clear-height-needed");
  drawing.rectangle(kLeft, y, kContentWidth, kHeight, "#fff", {.width = 1.2});
  drawing.text(kLeft + 10.0, y + 17.0, "Clear height needed", {.size = 11.0, .weight = FontWeight::bold});
  const std::optional<double> needed = clear_height_told(report);
  const bool lost = lost_falls(report) > 0;
  drawing.text(kRight - 10.0, y + 20.0,
               needed ? quantity_text(*needed, Measure::length, units) : lost ? "none is enough" : "not known",
               {.size = 18.0, .weight = FontWeight::bold, .align = Align::right});
  std::string words = lost ? "nothing holds the walker in some of the falls" : "";
  if (needed) {
    words = fmt::format("{}, reserve of {} included; most with the walker at {}",
                        any_breaks(checks) ? "only if nothing breaks: below the standing main"
                                           : "below the standing main with nobody on it",
                        quantity_text(rig.limits.reserve.value, Measure::length, units),
                        quantity_text(report.clear_height_at, Measure::length, units));
  }
  drawing.text(kLeft + 10.0, y + 33.0, fit_text(words, kContentWidth - 20.0, kSmallestText), {.size = kSmallestText});
  drawing.end_group();
  pages.advance(kHeight + 10.0);
}

void draw_picture(PageStack& pages, const Rig& rig, const CatchReport& report) {
  const FallResult* fall = pictured_fall(report.main_failure);
  if (fall == nullptr) fall = pictured_fall(report.leash_fall);
  if (fall == nullptr) return;
  const UnitSystem units = pages.info().units;
  const std::string heading = fall_heading(report, *fall) + ": " + event_words(rig, *fall, units) + ".";
  const std::string caption = fall_caption(rig, *fall, units);
  const auto height = [](const std::string& words, double size, FontWeight weight) {
    return kLine * size * static_cast<double>(wrap_text(words, kContentWidth, size, weight).size()) + 6.0;
  };
  const double words = height(heading, kWordsSize, FontWeight::bold) + height(caption, kSmallestText, FontWeight::regular);
  pages.reserve(kPictureHeight + words + 4.0);
  pages.advance(4.0);
  pages.paragraph(heading, {.size = kWordsSize, .weight = FontWeight::bold}, 0.0, 6.0);
  draw_fall(pages.drawing(), rig, *fall, {kLeft, pages.y(), kContentWidth, kPictureHeight, kSmallestText}, units);
  pages.advance(kPictureHeight + 4.0);
  pages.paragraph(caption, {.size = kSmallestText}, 0.0, 4.0);
}

}  // namespace

void add_catch(PageStack& pages, const Rig& rig, const CatchReport& report, const std::vector<Check>& checks) {
  const UnitSystem units = pages.info().units;
  pages.begin_part("Catch: main failure and leash fall");
  if (report.quick) pages.paragraph(quick_catch_words(), {.size = kWordsSize, .weight = FontWeight::bold}, 0.0, 4.0);
  for (const std::string& words : catch_warnings(rig, report, checks, units)) {
    pages.paragraph(words, {.size = kWordsSize, .weight = FontWeight::bold}, 0.0, 3.0);
  }
  draw_clear_height(pages, rig, report, checks);
  draw_picture(pages, rig, report);
  draw_head(pages);
  for (const TableRow& row : rows_of(rig, report, units)) draw_row(pages, row);
  pages.advance(4.0);
  for (const std::string& words : search_sentences(report)) pages.paragraph("- " + words, {.size = kSmallestText}, 0.0, 1.0);
  for (const std::string& words : report.notes) pages.paragraph("- " + words, {.size = kSmallestText}, 0.0, 1.0);
}

}  // namespace spanloom
