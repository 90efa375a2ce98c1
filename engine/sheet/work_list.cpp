#include "sheet/work_list.h"

#include <algorithm>
#include <map>
#include <tuple>

#include <fmt/format.h>

namespace spanloom {
namespace {

void add_pieces(const Rig& rig, const WebbingRun& run, const std::vector<double>& lengths,
                bool on_backup, std::vector<CutPiece>& out) {
  double starts = 0.0;
  for (std::size_t i = 0; i < run.segments.size(); ++i) {
    const Webbing& webbing = rig.webbings[run.segments[i].webbing];
    const bool is_last = i + 1 == run.segments.size();
    out.push_back({.on_backup = on_backup,
                   .segment = static_cast<int>(i) + 1,
                   .webbing = webbing.name,
                   .solved = !run.segments[i].natural_length.has_value(),
                   .starts = starts,
                   .natural_length = lengths[i],
                   .near_tail = i == 0 ? run.near_tail.value : 0.0,
                   .far_tail = is_last ? run.far_tail.value : 0.0,
                   .mass_per_length = webbing.mass_per_length});
    starts += lengths[i] + (is_last ? 0.0 : run.connectors[i].length);
  }
}

// End hardware is there by name even when nothing is rigged with it.
bool is_there(const Link& link) { return link.mass > 0.0 || link.length > 0.0 || link.strength; }

void add_links(const WebbingRun& run, const std::vector<double>& lengths, bool on_backup,
               std::vector<LinkPlace>& out) {
  const auto add_hardware = [&](const Link& link, bool far, double starts) {
    if (is_there(link)) out.push_back({on_backup, true, far, link, starts});
  };
  add_hardware(run.near_hardware, false, 0.0);
  double starts = 0.0;
  for (std::size_t i = 0; i < run.segments.size(); ++i) {
    starts += lengths[i];
    if (i + 1 == run.segments.size()) break;
    out.push_back({on_backup, false, false, run.connectors[i], starts});
    starts += run.connectors[i].length;
  }
  add_hardware(run.far_hardware, true, starts);
}

// Equal links are counted together, in the order in which they are first met.
std::vector<GearItem> counted_links(const std::vector<LinkPlace>& places) {
  std::vector<GearItem> items;
  std::map<std::tuple<std::string, double>, std::size_t> seen;
  for (const LinkPlace& place : places) {
    const auto [entry, is_new] =
        seen.try_emplace({link_name(place), place.link.mass}, items.size());
    if (is_new) items.push_back({link_name(place), 0, std::nullopt});
    GearItem& item = items[entry->second];
    ++item.count;
    if (place.link.mass > 0.0) item.mass = item.count * place.link.mass;
  }
  return items;
}

}  // namespace

std::string link_name(const LinkPlace& place) {
  if (!place.link.name.empty()) return place.link.name;
  return place.at_anchor ? "end hardware" : "connector";
}

std::vector<TapeRow> tape_rows(const Rig& rig, const Plan& plan) {
  std::vector<TapeRow> rows;
  for (const PlanBay& bay : plan.bays) {
    rows.push_back({.bay = bay.number,
                    .far_end = bay.number == static_cast<int>(plan.bays.size()),
                    .running = bay.tape_s,
                    .running_arm_spans = bay.tape_s / rig.spacing.arm_span.value,
                    .main_piece = bay.main_natural,
                    .backup_piece = bay.backup_natural,
                    .extra_backup = bay.backup_natural - bay.main_natural,
                    .drop = bay.drop,
                    .leftover = bay.ends_leftover,
                    .close = bay.close});
  }
  return rows;
}

std::vector<CutPiece> cut_pieces(const Rig& rig, const Plan& plan) {
  std::vector<CutPiece> pieces;
  add_pieces(rig, rig.main.run, plan.rigged.main_segment_length, false, pieces);
  if (plan.pull_through) {
    CutPiece& pulled = pieces.front();
    pulled.pull_room = std::max(0.0, plan.pull_through->length + kGripLength - pulled.near_tail);
  }
  add_pieces(rig, rig.backup.run, plan.rigged.backup_segment_length, true, pieces);
  return pieces;
}

std::string pull_room_words(const Rig& rig, const Plan& plan, UnitSystem units) {
  if (!plan.pull_through) return "";
  const auto length = [&](double si) { return quantity_text(si, Measure::length, units); };
  const CutPiece pulled = cut_pieces(rig, plan).front();
  const std::string tail = fmt::format("near tail of {}{}", length(pulled.near_tail),
                                       rig.main.run.near_tail.assumed ? " (our default)" : "");
  const std::string parts = fmt::format("{} to pull through and {} to grip (our default)",
                                        length(plan.pull_through->length), length(kGripLength));
  if (pulled.pull_room == 0.0) return fmt::format("The {} is enough for {}.", tail, parts);
  return fmt::format("The {} is shorter than the {} it takes, {}: main 1 is cut {} longer, so that it can lie "
                     "hand-tight. Once the line stands, {} of unloaded webbing is left beyond the near end.",
                     tail, length(plan.pull_through->length + kGripLength), parts, length(pulled.pull_room),
                     length(pulled.beyond_near_end()));
}

std::vector<LinkPlace> link_places(const Rig& rig, const Plan& plan) {
  std::vector<LinkPlace> places;
  add_links(rig.main.run, plan.rigged.main_segment_length, false, places);
  add_links(rig.backup.run, plan.rigged.backup_segment_length, true, places);
  return places;
}

GearList gear_list(const Rig& rig, const Plan& plan) {
  GearList list;
  for (const CutPiece& piece : cut_pieces(rig, plan)) {
    list.items.push_back({fmt::format("webbing {}, {} segment {}", piece.webbing,
                                      piece.on_backup ? "backup" : "main", piece.segment),
                          1, piece.mass()});
  }
  for (GearItem& item : counted_links(link_places(rig, plan))) list.items.push_back(std::move(item));
  const int joints = static_cast<int>(plan.bays.size()) - 1;
  if (joints > 0) {
    GearItem item{joint_word_plural(rig), joints, std::nullopt};
    if (rig.backup.tape_mass > 0.0) item.mass = joints * rig.backup.tape_mass;
    list.items.push_back(std::move(item));
  }
  for (const GearItem& item : list.items) {
    list.mass += item.mass.value_or(0.0);
    list.some_unweighed = list.some_unweighed || !item.mass;
  }
  return list;
}

std::string joint_word(const Rig& rig) { return rig.backup.joint == Joint::ring ? "ring" : "tape"; }
std::string joint_word_plural(const Rig& rig) { return joint_word(rig) + "s"; }

}  // namespace spanloom
