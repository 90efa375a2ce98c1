// The tables that hold plain values: [site], [spacing], [walker], [wind], [shake], [limits], [places].
#include "files/rig_sections.h"

#include <optional>
#include <utility>

#include "files/csv.h"

namespace spanloom {
namespace {

constexpr Wanted kSwing{Quantity::length, "0.1 m"};
constexpr std::string_view kArmSpans = "a plain number of arm spans, such as 1.5";

std::vector<GroundPoint> read_ground(TableReader& site, const SideFiles& side) {
  std::vector<GroundPoint> ground;
  const Value* value = site.take("ground");
  if (value == nullptr) return ground;
  if (value->kind == Value::Kind::text) {
    const std::optional<std::string> text = side.text_of(site, "ground");
    if (!text) return ground;
    CsvRows<GroundPoint> table = read_ground_csv(*text, value->text, site.path_of("ground"), site.findings());
    side.places.set_rows(site.path_of("ground"), value->text, std::move(table.places));
    return std::move(table.rows);
  }
  if (const auto rows = site.pairs("ground", kLength, kLength)) {
    for (const auto& [distance, height] : *rows) ground.push_back({distance, height});
  }
  return ground;
}

std::optional<CloseBays> read_close(TableReader& spacing) {
  std::optional<TableReader> table = spacing.table("close");
  if (!table) return std::nullopt;
  table->require("centre", expectation(kLength));
  table->require("length", expectation(kLength));
  table->require("spacing", std::string(kArmSpans));
  const auto centre = table->quantity("centre", kLength);
  const auto length = table->quantity("length", kLength);
  const auto arm_spans = table->number("spacing", kArmSpans);
  table->refuse_unknown_keys();
  if (!centre || !length || !arm_spans) return std::nullopt;
  return CloseBays{*centre, *length, *arm_spans};
}

}  // namespace

std::optional<std::string> SideFiles::text_of(TableReader& table, std::string_view key) const {
  const std::optional<std::string> name = table.text(key);
  if (!name) return std::nullopt;
  SideFile file = load(*name);
  if (!file.text) {
    table.complain(key, "a CSV file beside the rig file", file.why_not);
  }
  return std::move(file.text);
}

std::optional<Vec3> read_three_lengths(TableReader& table, std::string_view key) {
  const Value* value = table.take(key);
  if (value == nullptr) return std::nullopt;
  const bool three = value->kind == Value::Kind::list && value->children.size() == 3;
  if (!three) {
    table.complain(key, "three lengths: along the gap, left, up", "such as [\"0 m\", \"0.3 m\", \"-0.2 m\"]");
    return std::nullopt;
  }
  const auto lengths = table.quantities(key, kLength);
  if (!lengths) return std::nullopt;
  return Vec3{(*lengths)[0], (*lengths)[1], (*lengths)[2]};
}

Site read_site(TableReader table, const SideFiles& side) {
  Site site;
  table.require("gap", expectation(kLength));
  set_if_stated(site.gap, table.quantity("gap", kLength));
  set_if_stated(site.rise, table.quantity("rise", kLength));
  site.ground = read_ground(table, side);
  table.refuse_unknown_keys();
  return site;
}

Spacing read_spacing(TableReader table, Spacing spacing) {
  set_if_stated(spacing.arm_span, table.quantity("arm_span", kLength));
  if (table.only_one_of({"repeat", "at", "even"}).empty()) {
    table.miss("repeat", "\"repeat\", \"at\" or \"even\"", "say where the tapes go");
  }
  if (auto arm_spans = table.numbers("repeat", kArmSpans)) {
    spacing.pattern = RepeatArmSpans{std::move(*arm_spans)};
  }
  const Value* at = table.take("at");
  if (at != nullptr && at->kind != Value::Kind::list) {
    table.complain("at", "a list of lengths", "put it into [ ]");
  } else if (auto positions = table.quantities("at", kLength)) {
    spacing.pattern = TapesAt{std::move(*positions)};
  }
  if (const auto length = table.quantity("even", kLength)) spacing.pattern = EvenBays{*length};
  spacing.close = read_close(table);
  table.refuse_unknown_keys();
  return spacing;
}

Walker read_walker(TableReader table, const std::vector<Webbing>& webbings, Walker walker) {
  table.require("mass", expectation(kMass));
  set_if_stated(walker.mass, table.quantity("mass", kMass));
  set_if_stated(walker.leash, table.quantity("leash", kLength));
  if (table.has("leash_webbing")) walker.leash_webbing = read_webbing_name(table, "leash_webbing", webbings);
  set_if_stated(walker.leash_keeps, table.quantity("leash_keeps", kShare));
  set_if_stated(walker.leash_ring, table.choice<LeashRing>("leash_ring", {{"both", LeashRing::around_both},
                                                                          {"main", LeashRing::around_main}}));
  set_if_stated(walker.leash_ring_mass, table.quantity("leash_ring_mass", kSmallMass));
  set_if_stated(walker.leash_ring_friction, table.number("leash_ring_friction", kFriction));
  set_if_stated(walker.foot_to_hip, table.quantity("foot_to_hip", kLength));
  set_if_stated(walker.body, table.choice<BodyModel>("body", {{"one mass", BodyModel::one_mass},
                                                              {"two masses", BodyModel::two_masses}}));
  set_if_stated(walker.rescuer_mass, table.quantity("rescuer_mass", kMass));
  set_if_stated(walker.drag_area, table.quantity("drag_area", kArea));
  table.refuse_unknown_keys();
  return walker;
}

Wind read_wind(TableReader table) {
  Wind wind = wind_with_defaults();
  table.require("speed", expectation(kSpeed));
  set_if_stated(wind.speed, table.quantity("speed", kSpeed));
  set_if_stated(wind.gust, table.quantity("gust", kSpeed));
  set_if_stated(wind.gust_time, table.quantity("gust_time", kDuration));
  table.refuse_unknown_keys();
  return wind;
}

ShakeSpec read_shake(TableReader table, ShakeSpec shake) {
  set_if_stated(shake.swing, table.quantity("swing", kSwing));
  set_if_stated(shake.bounce, table.quantity("bounce", kSwing));
  table.refuse_unknown_keys();
  return shake;
}

Limits read_limits(TableReader table, Limits limits) {
  constexpr std::string_view kRatio = "a plain ratio, such as 3";
  set_if_stated(limits.ratio, table.number("ratio", kRatio));
  set_if_stated(limits.anchor_ratio, table.number("anchor_ratio", kRatio));
  set_if_stated(limits.least_drop, table.quantity("least_drop", kSmallLength));
  set_if_stated(limits.least_ankle_margin, table.quantity("least_ankle_margin", kSmallLength));
  set_if_stated(limits.reserve, table.quantity("reserve", kLength));
  set_if_stated(limits.anchor_zone, table.quantity("anchor_zone", kLength));
  set_if_stated(limits.edge_distance, table.quantity("edge_distance", kSmallLength));
  set_if_stated(limits.backup_tension, table.quantity("backup_tension", kSmallForce));
  set_if_stated(limits.body_force, table.quantity("body_force", kForce));
  set_if_stated(limits.wall_reserve, table.quantity("wall_reserve", kLength));
  table.refuse_unknown_keys();
  return limits;
}

ExtraPlaces read_places(TableReader table) {
  std::optional<std::vector<double>> places = table.quantities("walker", kLength);
  table.refuse_unknown_keys();
  return places ? std::move(*places) : ExtraPlaces{};
}

}  // namespace spanloom
