#include "files/layouts_csv.h"

#include <fmt/format.h>

namespace spanloom {
namespace {

constexpr double kMillimetres = 1e3, kPercent = 100.0;

/// One of a list, or nothing: margins and touch may not be known.
std::string cell(const std::vector<double>& of_bay, std::size_t bay) {
  return bay < of_bay.size() ? fmt::format("{:.1f}", kMillimetres * of_bay[bay]) : "";
}

std::string touch_cells(const JudgedLayout& line, std::size_t bay) {
  if (bay >= line.touch.size()) return ",,";
  const BayTouch& touch = line.touch[bay];
  return fmt::format("{:.1f},{:.1f},{:.4f}", kMillimetres * touch.drop, kMillimetres * touch.ankle_margin, touch.returned);
}

void add_rows(const std::string& name, const JudgedLayout& line, std::string& out) {
  for (std::size_t k = 0; k < line.layout.bays.size(); ++k) {
    out += fmt::format("{},{},{:.3f},{:.3f},{},{},{}\n", name, k + 1, line.layout.bays[k], kPercent * line.layout.slack[k],
                       cell(line.drop, k), cell(line.ankle_margin, k), touch_cells(line, k));
  }
}

}  // namespace

std::string layouts_csv(const SpaceReport& report) {
  std::string out =
      "layout,bay,main [m],slack [%],drop [mm],ankle margin [mm],drop per 10 mm backup [mm],"
      "ankle margin per 10 mm backup [mm],return per 10 mm backup [-]\n";
  add_rows("as it is", report.own, out);
  if (report.even) add_rows("even", *report.even, out);
  for (std::size_t i = 0; i < report.points.size(); ++i) {
    const JudgedLayout& point = report.points[i];
    const char* unit = point.tapes() == 1 ? "tape" : "tapes";
    add_rows(fmt::format("{} {}{}", point.tapes(), unit, i == report.chosen ? " (chosen)" : ""), point, out);
  }
  return out;
}

}  // namespace spanloom
