#include "sheet/tape_pages.h"

#include <array>

#include <fmt/format.h>

#include "sheet/work_list.h"

namespace spanloom {
namespace {

constexpr double kListText = 14.0;   // [pt]
constexpr double kRowHeight = 20.0;  // [pt]
constexpr double kHeadHeight = 40.0; // [pt]

// Right edges of the columns from kLeft; the box to tick and the number come before them. [pt]
constexpr double kNumberRight = 50.0;
constexpr double kMarkLeft = 56.0;
constexpr std::array<double, 6> kRight6 = {150.0, 222.0, 302.0, 382.0, 458.0, kContentWidth};

// A connector between two tapes is a line of its own, at its place in the order of work.
struct ConnectorLine {
  double s;
  std::string words;
};

std::vector<ConnectorLine> connector_lines(const Rig& rig, const Plan& plan, UnitSystem units) {
  std::vector<ConnectorLine> lines;
  for (const LinkPlace& place : link_places(rig, plan)) {
    if (place.at_anchor || place.on_backup) continue;
    lines.push_back({place.starts, fmt::format("main joint at {}: {}",
                                               quantity_text(place.starts, Measure::length, units), link_name(place))});
  }
  return lines;
}

void draw_head(PageStack& pages, const Rig& rig) {
  Drawing& drawing = pages.drawing();
  const UnitSystem units = pages.info().units;
  const std::string length = unit_text(Measure::length, units);
  const std::string small = unit_text(Measure::small_length, units);
  const double y = pages.y();
  drawing.begin_group("tape-head");
  const auto group = [&](double from, double to, std::string_view words) {
    drawing.text(kLeft + from, y + 11.0, words, {.size = 10.0, .weight = FontWeight::bold});
    drawing.line({kLeft + from, y + 15.0}, {kLeft + to, y + 15.0}, {.width = 0.8});
  };
  group(kMarkLeft + 32.0, kRight6[1], "along the main to here");
  group(kRight6[1] + 14.0, kRight6[5], "the bay before: unloaded pieces, drop standing");
  drawing.text(kLeft, y + 28.0, joint_word(rig), {.size = 10.0});
  const std::array<std::string, 6> heads = {length, "arm spans", "main " + length, "backup " + length,
                                            "extra " + small, "drop " + small};
  for (std::size_t i = 0; i < heads.size(); ++i) {
    drawing.text(kLeft + kRight6[i], y + 28.0, heads[i], {.size = 10.0, .align = TextStyle::Align::right});
  }
  drawing.line({kLeft, y + 33.0}, {kRight, y + 33.0}, {.width = 1.4});
  drawing.end_group();
  pages.advance(kHeadHeight - 7.0);
}

void rule_below(PageStack& pages, bool heavy) {
  pages.drawing().line({kLeft, pages.y()}, {kRight, pages.y()},
                       {.width = heavy ? 1.0 : 0.35, .colour = heavy ? "#000" : "#777"});
}

void draw_connector(PageStack& pages, const Rig& rig, const ConnectorLine& connector) {
  if (pages.reserve(kRowHeight)) draw_head(pages, rig);
  const double y = pages.y() + 14.5;
  pages.drawing().polygon({{kLeft + 1.0, y - 5.0}, {kLeft + 6.0, y - 10.0}, {kLeft + 11.0, y - 5.0},
                           {kLeft + 6.0, y}}, "#fff", {.width = 1.2});
  pages.drawing().text(kLeft + 22.0, y, fit_text(connector.words, kContentWidth - 22.0, kListText),
                       {.size = kListText});
  pages.advance(kRowHeight);
  rule_below(pages, false);
}

void draw_row(PageStack& pages, const Rig& rig, const TapeRow& row) {
  if (pages.reserve(kRowHeight)) draw_head(pages, rig);
  Drawing& drawing = pages.drawing();
  const UnitSystem units = pages.info().units;
  const double y = pages.y() + 15.0;
  const TextStyle number{.size = kListText, .align = TextStyle::Align::right};
  TextStyle bold = number;
  bold.weight = FontWeight::bold;
  drawing.begin_group("tape-row");
  if (!row.far_end) drawing.rectangle(kLeft + 0.5, y - 10.5, 11.0, 11.0, "#fff", {.width = 1.0});
  drawing.text(kLeft + kNumberRight, y, row.far_end ? "far" : std::to_string(row.bay), bold);
  drawing.text(kLeft + kMarkLeft, y, std::string(row.leftover ? "L" : "") + (row.close ? "C" : ""),
               {.size = kListText});
  const auto cell = [&](std::size_t column, double si, Measure measure, const TextStyle& style) {
    drawing.text(kLeft + kRight6[column], y, number_text(si, measure, units), style);
  };
  cell(0, row.running, Measure::length, bold);
  cell(1, row.running_arm_spans, Measure::arm_spans, number);
  cell(2, row.main_piece, Measure::length, number);
  cell(3, row.backup_piece, Measure::length, number);
  cell(4, row.extra_backup, Measure::small_length, bold);
  cell(5, row.drop, Measure::small_length, number);
  drawing.end_group();
  pages.advance(kRowHeight);
  rule_below(pages, row.bay % 5 == 0);
}

std::string legend(const Rig& rig, const std::vector<TapeRow>& rows, UnitSystem units) {
  const std::string joint = joint_word(rig);
  std::string words = fmt::format(
      "Lay the main out unloaded from the near connector and measure every {} from there; the pieces "
      "are to check. Lay the backup beside it: in each bay it is longer by 'extra'. Arm span {}.",
      joint, quantity_text(rig.spacing.arm_span.value, Measure::length, units));
  bool leftover = false, close = false;
  for (const TapeRow& row : rows) {
    leftover = leftover || row.leftover;
    close = close || row.close;
  }
  if (leftover) words += " L: this bay takes up what the spacing left over.";
  if (close) words += " C: close bay.";
  return words;
}

}  // namespace

void add_tape_list(PageStack& pages, const Rig& rig, const Plan& plan) {
  const std::vector<TapeRow> rows = tape_rows(rig, plan);
  pages.begin_part(rig.backup.joint == Joint::ring ? "Ring list, from the near anchor"
                                                   : "Tape list, from the near anchor");
  pages.paragraph(legend(rig, rows, pages.info().units), {.size = 11.0}, 0.0, 2.0);
  if (pages.info().units == UnitSystem::us) {
    pages.paragraph("Decimal feet in inches: .08 = 1, .17 = 2, .25 = 3, .33 = 4, .42 = 5, .50 = 6, .58 = 7, "
                    ".67 = 8, .75 = 9, .83 = 10, .92 = 11.", {.size = 11.0}, 0.0, 2.0);
  }
  pages.advance(6.0);
  draw_head(pages, rig);
  const std::vector<ConnectorLine> connectors = connector_lines(rig, plan, pages.info().units);
  std::size_t next = 0;
  for (const TapeRow& row : rows) {
    for (; next < connectors.size() && connectors[next].s < row.running; ++next) {
      draw_connector(pages, rig, connectors[next]);
    }
    draw_row(pages, rig, row);
  }
}

}  // namespace spanloom
