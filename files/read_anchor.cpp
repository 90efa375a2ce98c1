// The tables [anchor.near] and [anchor.far], with the points that the legs end at.
#include <cmath>
#include <optional>
#include <string>

#include "files/rig_sections.h"

namespace spanloom {
namespace {

constexpr Wanted kLegStiffness{Quantity::force, "500 kN"};

/// A leg given by its length and where it goes: in plan from straight back, and up.
std::optional<Vec3> read_direction(TableReader& table, AnchorEnd end) {
  table.require("angle", expectation(kAngle));
  const auto length = table.quantity("length", kLength);
  const auto angle = table.quantity("angle", kAngle);
  const auto rise = table.quantity("rise", kAngle);
  if (length && !(*length > 0.0)) {
    table.complain("length", "more than 0 m", "the length of the leg");
    return std::nullopt;
  }
  if (!length || !angle || (table.has("rise") && !rise)) return std::nullopt;
  const double up = rise.value_or(0.0), level = *length * std::cos(up);
  const double back = level * std::cos(*angle);
  return Vec3{end == AnchorEnd::near ? -back : back, level * std::sin(*angle), *length * std::sin(up)};
}

/// One point; where its place could not be read, at the place where the line is tied in.
AnchorPoint read_point(TableReader& table, AnchorEnd end) {
  table.require("name", "what it is, such as \"left bolt\"");
  AnchorPoint point;
  set_if_stated(point.name, table.text("name"));
  set_if_stated(point.strength, table.quantity("strength", kForce));
  const std::string given = table.only_one_of({"at", "length"});
  std::optional<Vec3> at;
  if (given == "at") {
    at = read_three_lengths(table, "at");
    for (const char* key : {"angle", "rise"}) {
      if (table.has(key)) table.complain(key, "no angle beside \"at\"", "take it out");
    }
  } else if (given == "length") {
    at = read_direction(table, end);
  } else {
    for (const char* key : {"angle", "rise"}) table.take(key);
    table.miss("at", "\"at\" or \"length\"", "say where the point is");
  }
  table.refuse_unknown_keys();
  set_if_stated(point.at, at);
  return point;
}

}  // namespace

AnchorSpec read_anchor(TableReader table, AnchorEnd end, AnchorSpec anchor) {
  set_if_stated(anchor.strength, table.quantity("strength", kForce));
  set_if_stated(anchor.edge, table.quantity("edge", kLength));
  set_if_stated(anchor.wall, table.quantity("wall", kLength));
  for (TableReader& reader : table.tables("points")) {
    anchor.points.push_back(read_point(reader, end));
  }
  set_if_stated(anchor.legs, table.choice<LegKind>("legs", {{"fixed", LegKind::fixed},
                                                            {"equalising", LegKind::equalising}}));
  set_if_stated(anchor.leg_stiffness, table.quantity("leg_stiffness", kLegStiffness));
  table.refuse_unknown_keys();
  return anchor;
}

}  // namespace spanloom
