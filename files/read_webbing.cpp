// The tables [webbing.NAME].
#include <algorithm>
#include <cstddef>
#include <optional>
#include <utility>

#include "files/csv.h"
#include "files/limits.h"
#include "files/rig_sections.h"
#include "files/suggest.h"

namespace spanloom {
namespace {

/// The points of a curve and the key they are written under.
struct WrittenCurve {
  std::vector<CurvePoint> points;
  std::string key;
};

std::optional<WrittenCurve> read_points(TableReader& table, const SideFiles& side) {
  const std::string given = table.only_one_of({"stretch", "stretch_csv"});
  const std::string key = table.path_of(given);
  if (given.empty()) {
    table.miss("stretch", "\"stretch\" or \"stretch_csv\"", "give the curve of a pull test");
  }
  if (given == "stretch") {
    const auto rows = table.pairs("stretch", kForce, kShare);
    if (!rows) return std::nullopt;
    WrittenCurve curve{{}, key};
    for (const auto& [tension, stretch] : *rows) curve.points.push_back({tension, stretch});
    return curve;
  }
  if (given == "stretch_csv") {
    const std::optional<std::string> text = side.text_of(table, "stretch_csv");
    if (!text) return std::nullopt;
    const std::string name = table.value().find("stretch_csv")->text;
    CsvRows<CurvePoint> rows = read_curve_csv(*text, name, key, table.findings());
    side.places.set_rows(key, name, std::move(rows.places));
    return WrittenCurve{std::move(rows.rows), key};
  }
  return std::nullopt;
}

/// Builds the curve and puts what the engine finds wrong with it to the written points.
StretchCurve read_curve(TableReader& table, const SideFiles& side, StretchCurve otherwise) {
  std::optional<WrittenCurve> written = read_points(table, side);
  if (!written || table.findings().touches(written->key)) return otherwise;
  std::vector<CurvePoint>& points = written->points;
  const bool origin_written = !points.empty() && points[0].tension == 0.0 && points[0].stretch == 0.0;
  try {
    return StretchCurve::from_points(std::move(points));
  } catch (const InputError& error) {
    for (Problem problem : error.problems()) {
      // The engine counts from the origin, which it adds where the file leaves it out.
      if (problem.key.starts_with('[') && !origin_written) {
        problem.key = '[' + std::to_string(std::stoul(problem.key.substr(1)) - 1) + ']';
      }
      problem.key = written->key + problem.key;
      FileProblem found = side.places.locate(std::move(problem));
      table.findings().add(std::move(found.file), found.place, std::move(found.problem));
    }
    return otherwise;
  }
}

/// `true` or `false`, as TOML writes it.
std::optional<bool> read_flag(TableReader& table, std::string_view key) {
  const Value* value = table.take(key);
  if (value == nullptr) return std::nullopt;
  if (value->kind == Value::Kind::other && (value->text == "true" || value->text == "false")) return value->text == "true";
  table.complain(key, "true or false", "without quotes; left out, it is false");
  return std::nullopt;
}

Webbing read_webbing(TableReader table, const std::string& name, const SideFiles& side) {
  Webbing webbing = webbing_with_defaults();
  webbing.name = name;
  table.require("mass", expectation(kMassPerLength));
  table.require("strength", expectation(kForce));
  set_if_stated(webbing.mass_per_length, table.quantity("mass", kMassPerLength));
  set_if_stated(webbing.width, table.quantity("width", kSmallLength));
  set_if_stated(webbing.thickness, table.quantity("thickness", kSmallLength));
  set_if_stated(webbing.strength, table.quantity("strength", kForce));
  set_if_stated(webbing.loss, table.quantity("loss", kShare));
  set_if_stated(webbing.wet_keeps, table.quantity("wet_keeps", kShare));
  set_if_stated(webbing.generic, read_flag(table, "generic"));
  webbing.curve = read_curve(table, side, std::move(webbing.curve));
  table.refuse_unknown_keys();
  return webbing;
}

}  // namespace

std::size_t read_webbing_name(TableReader& table, std::string_view key, const std::vector<Webbing>& webbings) {
  const std::optional<std::string> name = table.text(key);
  if (!name) return webbings.size();
  std::vector<std::string> names;
  for (const Webbing& webbing : webbings) names.push_back(webbing.name);
  const auto found = std::find(names.begin(), names.end(), *name);
  if (found == names.end()) {
    const std::string nearest = nearest_word(*name, names);
    table.complain(key, "the name of a [webbing.NAME] table",
                   nearest.empty() ? "add the table [webbing." + *name + ']'
                                   : "did you mean \"" + nearest + "\"?");
  }
  return static_cast<std::size_t>(found - names.begin());
}

std::vector<Webbing> read_webbings(TableReader table, const SideFiles& side) {
  std::vector<Webbing> webbings;
  const std::size_t count = table.value().children.size();
  if (count > kMostTables) {
    table.findings().add(table.file(), table.value().place,
                         {table.path(), std::to_string(count) + " webbings",
                          "at most " + std::to_string(kMostTables), "keep those that this rig uses"});
    return webbings;
  }
  for (const Value& child : table.value().children) {
    // Each name is a key of its own choosing, so none is unknown.
    if (auto webbing = table.table(child.key)) webbings.push_back(read_webbing(*webbing, child.key, side));
  }
  return webbings;
}

}  // namespace spanloom
