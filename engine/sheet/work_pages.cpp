#include "sheet/work_pages.h"

#include <array>

#include <fmt/format.h>

#include "sheet/work_list.h"

namespace spanloom {
namespace {

constexpr double kText = 13.0;         // [pt]
constexpr double kRowHeight = 20.0;    // [pt]
constexpr double kGearText = 12.0;     // [pt]
constexpr double kGearHeight = 17.0;   // [pt]
constexpr std::array<double, 4> kRights = {300.0, 370.0, 440.0, kContentWidth};

using Align = TextStyle::Align;

std::string run_name(bool on_backup) { return on_backup ? "Backup" : "Main"; }

void draw_head(PageStack& pages, const std::string& run) {
  const std::string unit = unit_text(Measure::length, pages.info().units);
  const double y = pages.y() + 14.0;
  pages.drawing().text(kLeft, y, run, {.size = 13.0, .weight = FontWeight::bold});
  const std::array<std::string, 4> heads = {"end to end " + unit, "near tail", "far tail", "cut " + unit};
  for (std::size_t i = 0; i < heads.size(); ++i) {
    pages.drawing().text(kLeft + kRights[i], y, heads[i], {.size = 10.0, .align = Align::right});
  }
  pages.advance(kRowHeight);
  pages.drawing().line({kLeft, pages.y()}, {kRight, pages.y()}, {.width = 1.0});
}

void rule_below(PageStack& pages) {
  pages.drawing().line({kLeft, pages.y()}, {kRight, pages.y()}, {.width = 0.35, .colour = "#777"});
}

void draw_piece(PageStack& pages, const CutPiece& piece) {
  if (pages.reserve(kRowHeight)) draw_head(pages, run_name(piece.on_backup));
  const UnitSystem units = pages.info().units;
  const double y = pages.y() + 14.0;
  const auto number = [&](double si) { return number_text(si, Measure::length, units); };
  const std::string name = fmt::format("{} {}{}", piece.segment, piece.webbing, piece.solved ? " *" : "");
  Drawing& drawing = pages.drawing();
  drawing.text(kLeft, y, fit_text(name, 200.0, kText, FontWeight::bold),
               {.size = kText, .weight = FontWeight::bold});
  const TextStyle plain{.size = kText, .align = Align::right};
  TextStyle bold = plain;
  bold.weight = FontWeight::bold;
  drawing.text(kLeft + kRights[0], y, number(piece.natural_length), bold);
  drawing.text(kLeft + kRights[1], y, piece.beyond_near_end() > 0.0 ? number(piece.beyond_near_end()) : "-", plain);
  drawing.text(kLeft + kRights[2], y, piece.far_tail > 0.0 ? number(piece.far_tail) : "-", plain);
  drawing.text(kLeft + kRights[3], y, number(piece.cut_length()), bold);
  pages.advance(kRowHeight);
  rule_below(pages);
}

void draw_link(PageStack& pages, const LinkPlace& place) {
  if (pages.reserve(kRowHeight)) draw_head(pages, run_name(place.on_backup));
  const UnitSystem units = pages.info().units;
  const auto length = [&](double si) { return quantity_text(si, Measure::length, units); };
  std::string words = link_name(place);
  if (place.at_anchor) {
    words += fmt::format(", at the {} anchor, takes {} of the gap", place.at_far_end ? "far" : "near",
                         length(place.link.length));
  } else {
    words += fmt::format(", at {}", length(place.starts));
    if (place.link.length > 0.0) words += fmt::format(", {} long", length(place.link.length));
  }
  pages.drawing().text(kLeft + 14.0, pages.y() + 14.0, fit_text(words, kContentWidth - 14.0, 11.0),
                       {.size = 11.0});
  pages.advance(kRowHeight);
  rule_below(pages);
}

void draw_run(PageStack& pages, bool on_backup, const std::vector<CutPiece>& pieces,
              const std::vector<LinkPlace>& links) {
  pages.reserve(3.0 * kRowHeight);
  draw_head(pages, run_name(on_backup));
  std::vector<LinkPlace> mine;
  for (const LinkPlace& place : links) {
    if (place.on_backup == on_backup) mine.push_back(place);
  }
  std::size_t next = 0;
  for (const CutPiece& piece : pieces) {
    if (piece.on_backup != on_backup) continue;
    for (; next < mine.size() && mine[next].starts <= piece.starts; ++next) draw_link(pages, mine[next]);
    draw_piece(pages, piece);
  }
  for (; next < mine.size(); ++next) draw_link(pages, mine[next]);
  pages.advance(8.0);
}

std::string tail_words(const Rig& rig, const Plan& plan) {
  std::string words = "End to end is unloaded, from where the webbing leaves its end or connector.";
  for (const CutPiece& piece : cut_pieces(rig, plan)) {
    if (!piece.solved) continue;
    words += " * length found by the plan.";
    break;
  }
  const bool assumed = rig.main.run.near_tail.assumed || rig.main.run.far_tail.assumed ||
                       rig.backup.run.near_tail.assumed || rig.backup.run.far_tail.assumed;
  if (assumed) words += " Tails not given in the file are our default: measure what your ends take.";
  return words;
}

void add_pull(PageStack& pages, const Rig& rig, const Plan& plan) {
  const UnitSystem units = pages.info().units;
  const std::string mark =
      fmt::format("Mark the main at {} from the near connector, unloaded: the mark comes to the far end.",
                  quantity_text(plan.standing.main_natural_length, Measure::length, units));
  pages.paragraph(mark, {.size = 12.0, .weight = FontWeight::bold}, 0.0, 3.0);
  if (!plan.pull_through) return;
  const PullThrough& pull = *plan.pull_through;
  pages.paragraph(
      fmt::format("Hand-tight, at {}{}, the line with its loops sags {}. Then pull {} of main, measured "
                  "unloaded, through at the near anchor to stand at {}.",
                  quantity_text(pull.hand_tight, Measure::force, units),
                  rig.main.hand_tight.assumed ? " (our default)" : "",
                  quantity_text(pull.sag, Measure::length, units),
                  quantity_text(pull.length, Measure::length, units),
                  quantity_text(plan.standing.tension_near, Measure::force, units)),
      {.size = 12.0}, 0.0, 3.0);
  const bool cut_longer = cut_pieces(rig, plan).front().pull_room > 0.0;
  pages.paragraph(pull_room_words(rig, plan, units), {.size = cut_longer ? 12.0 : 10.0}, 0.0, cut_longer ? 3.0 : 0.0);
}

void draw_gear_row(PageStack& pages, const std::string& count, const std::string& what,
                   const std::string& mass, FontWeight weight) {
  pages.reserve(kGearHeight);
  const double y = pages.y() + 13.0;
  Drawing& drawing = pages.drawing();
  if (!count.empty()) drawing.rectangle(kLeft + 0.5, y - 9.5, 10.0, 10.0, "#fff", {.width = 0.9});
  drawing.text(kLeft + 50.0, y, count,
               {.size = kGearText, .weight = FontWeight::bold, .align = Align::right});
  const std::string fitted = fit_text(what, 350.0, kGearText, weight);
  drawing.text(kLeft + 62.0, y, fitted, {.size = kGearText, .weight = weight});
  drawing.text(kRight, y, mass, {.size = kGearText, .weight = weight, .align = Align::right});
  pages.advance(kGearHeight);
  rule_below(pages);
}

}  // namespace

void add_lengths(PageStack& pages, const Rig& rig, const Plan& plan) {
  const std::vector<CutPiece> pieces = cut_pieces(rig, plan);
  const std::vector<LinkPlace> links = link_places(rig, plan);
  const double rows = static_cast<double>(pieces.size() + links.size()) + 2.0;
  pages.begin_part_within("Lengths to cut, mark and pull", rows * kRowHeight + 170.0);
  draw_run(pages, false, pieces, links);
  draw_run(pages, true, pieces, links);
  add_pull(pages, rig, plan);
  pages.paragraph(tail_words(rig, plan), {.size = 10.0});
}

void add_gear(PageStack& pages, const Rig& rig, const Plan& plan) {
  const GearList list = gear_list(rig, plan);
  const double rows = static_cast<double>(list.items.size()) + 2.0;
  pages.begin_part_within("Gear to carry", rows * kGearHeight + 17.0);
  const UnitSystem units = pages.info().units;
  const auto mass = [&](const std::optional<double>& si) {
    return quantity_or(si, Measure::mass, units, "mass not given");
  };
  for (const GearItem& item : list.items) {
    draw_gear_row(pages, std::to_string(item.count), item.what, mass(item.mass), FontWeight::regular);
  }
  draw_gear_row(pages, "1",
                fmt::format("leash and leash ring, {} long",
                            quantity_text(rig.walker.leash.value, Measure::length, units)),
                "mass not given", FontWeight::regular);
  draw_gear_row(pages, "", "together, without what has no mass given", mass(list.mass), FontWeight::bold);
  pages.advance(4.0);
  pages.paragraph("What the rig file does not name comes on top: anchors, harness, rescue gear.",
                  {.size = 10.0});
}

}  // namespace spanloom
