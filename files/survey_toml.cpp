#include "files/survey_toml.h"

#include <cmath>
#include <numbers>
#include <utility>

#include <fmt/format.h>

#include "files/csv.h"
#include "files/survey_positions.h"
#include "files/table_reader.h"

namespace spanloom {
namespace {

constexpr double kRightAngle = 0.5 * std::numbers::pi;
constexpr Wanted kDistance{Quantity::length, "62.3 m"};
constexpr Wanted kUpAngle{Quantity::angle, "-1.4 deg"};
constexpr Wanted kTurn{Quantity::angle, "140 deg"};
constexpr Wanted kHeight{Quantity::length, "312 m"};
constexpr Wanted kSd{Quantity::length, "3 m"};
constexpr Wanted kSmallSd{Quantity::length, "5 mm"};
constexpr Wanted kAngleSd{Quantity::angle, "0.3 deg"};

/// Reads the tables of a survey; what is wrong goes to the findings.
class Reader {
 public:
  Reader(const SideFileLoader& load, KeyPlaces& places, Findings& findings)
      : load_(load), places_(places), findings_(findings) {}

  Survey read() {
    TableReader root(places_.document(), "", places_.file(), findings_);
    root.require("title", "a title in quotes");
    set_if_stated(survey_.title, root.text("title"));
    read_gps(root);
    read_gpx_file(root);
    read_anchors(root);
    for (TableReader& table : root.tables("laser")) survey_.lasers.push_back(read_laser(table));
    for (TableReader& table : root.tables("stand")) survey_.stands.push_back(read_stand(table));
    if (auto table = root.table("laser_ground")) survey_.laser_ground = read_laser_ground(*table);
    read_ground(root);
    root.refuse_unknown_keys();
    const bool measured = root.has("gpx") || root.has("anchors") || root.has("laser") || root.has("stand");
    if (!measured) root.miss("laser", "\"gpx\", [anchors], [[laser]] or [[stand]]", "say how the gap was measured");
    return std::move(survey_);
  }

 private:
  std::optional<double> positive(TableReader& table, std::string_view key, const Wanted& wanted) {
    const std::optional<double> value = table.quantity(key, wanted);
    if (!value || *value > 0.0) return value;
    table.complain(key, "more than 0", "");
    return std::nullopt;
  }

  void read_sd(TableReader& table, PositionSd& sd) {
    set_if_stated(sd.horizontal, positive(table, "horizontal_sd", kSd));
    set_if_stated(sd.height, positive(table, "height_sd", kSd));
  }

  void read_gps(TableReader& root) {
    std::optional<TableReader> gps = root.table("gps");
    if (!gps) return;
    set_if_stated(names_.near, gps->text("near"));
    set_if_stated(names_.far, gps->text("far"));
    read_sd(*gps, sd_);
    set_if_stated(survey_.sideways, positive(*gps, "sideways", kLength));
    gps->refuse_unknown_keys();
  }

  std::optional<std::string> side_text(TableReader& table, std::string_view key, const char* expected) {
    const std::optional<std::string> name = table.text(key);
    if (!name) return std::nullopt;
    SideFile file = load_(*name);
    if (!file.text) table.complain(key, expected, file.why_not);
    return std::move(file.text);
  }

  void read_gpx_file(TableReader& root) {
    const std::optional<std::string> text = side_text(root, "gpx", "a GPX file beside the survey");
    if (!text) return;
    const std::string name = root.take("gpx")->text;
    const std::optional<GpxGap> gap = read_gpx(*text, name, names_, findings_);
    if (!gap) return;
    add_positions(position_survey(name, gap->near.at, gap->far.at, gap->track), sd_, sd_, "gpx",
                  root.take("gpx")->place);
    survey_.positions.back().track_without_height = gap->track_without_height;
  }

  void add_positions(PositionSurvey positions, const PositionSd& near, const PositionSd& far, const std::string& key,
                     Place place) {
    positions.near_sd = near;
    positions.far_sd = far;
    if (std::optional<Problem> problem = problem_of_anchors(positions, key)) {
      findings_.add(places_.file(), place, std::move(*problem));
    }
    survey_.positions.push_back(std::move(positions));
  }

  std::optional<double> coordinate(TableReader& table, std::string_view key, Axis axis) {
    const Value* value = table.take(key);
    const std::variant<double, QuantityFault> parsed =
        parse_coordinate(value != nullptr && value->kind == Value::Kind::text ? value->text : "", axis);
    if (const double* degrees = std::get_if<double>(&parsed)) return *degrees;
    const auto& fault = std::get<QuantityFault>(parsed);
    const bool bare = value != nullptr && value->kind != Value::Kind::text;
    table.complain(key, fault.expected, bare ? "in quotes, N, S, E, W or deg behind it" : fault.cure);
    return std::nullopt;
  }

  struct Anchor { GeoPoint at; PositionSd sd; };

  std::optional<Anchor> read_anchor(TableReader& anchors, std::string_view name) {
    std::optional<TableReader> table = anchors.table(name);
    if (!table) {
      anchors.require(name, "latitude, longitude and height of this anchor");
      return std::nullopt;
    }
    const auto latitude = coordinate(*table, "latitude", Axis::latitude);
    const auto longitude = coordinate(*table, "longitude", Axis::longitude);
    table->require("height", expectation(kHeight));
    std::optional<double> height = table->quantity("height", kHeight);
    if (height && std::abs(*height) > 1e5) {
      table->complain("height", "at most 100 km", "");
      height.reset();
    }
    Anchor anchor{{}, sd_};
    read_sd(*table, anchor.sd);
    table->refuse_unknown_keys();
    if (!latitude || !longitude || !height) return std::nullopt;
    anchor.at = {*latitude, *longitude, *height};
    return anchor;
  }

  void read_anchors(TableReader& root) {
    std::optional<TableReader> table = root.table("anchors");
    if (!table) return;
    const std::optional<Anchor> near = read_anchor(*table, "near"), far = read_anchor(*table, "far");
    table->refuse_unknown_keys();
    if (!near || !far) return;
    add_positions(position_survey("the two anchors", near->at, far->at, {}), near->sd, far->sd, "anchors",
                  table->value().place);
  }

  /// Lists of distances and angles under "distance" and "angle".
  SightReadings read_sight(TableReader& table) {
    SightReadings sight;
    table.require("distance", expectation(kDistance));
    table.require("angle", expectation(kUpAngle));
    set_if_stated(sight.distances, table.quantities("distance", kDistance));
    set_if_stated(sight.angles, table.quantities("angle", kUpAngle));
    for (const double d : sight.distances) {
      if (!(d > 0.0 && d <= 2.0 * kLongestSurvey))
        return complained(table, "distance", "each more than 0 m, at most 10 km");
    }
    for (const double a : sight.angles) {
      if (!(std::abs(a) < kRightAngle))
        return complained(table, "angle", "each between -90 deg and 90 deg, 0 deg being level");
    }
    return sight;
  }

  SightReadings complained(TableReader& table, std::string_view key, const char* expected) {
    table.complain(key, expected, "");
    return {};
  }

  LaserSd read_laser_sd(TableReader& table) {
    LaserSd sd;
    set_if_stated(sd.distance, positive(table, "distance_sd", kSmallSd));
    set_if_stated(sd.angle, positive(table, "angle_sd", kAngleSd));
    return sd;
  }

  LaserSurvey read_laser(TableReader& table) {
    LaserSurvey laser;
    laser.sight = read_sight(table);
    laser.sd = read_laser_sd(table);
    set_if_stated(laser.instrument_above, table.quantity("instrument_above", kLength));
    set_if_stated(laser.target_above, table.quantity("target_above", kLength));
    table.refuse_unknown_keys();
    return laser;
  }

  struct Aim { SightReadings sight; double target_above = 0.0; };

  Aim read_aim(TableReader& stand, std::string_view name) {
    stand.require(name, "{ distance = ..., angle = ... } to this anchor");
    std::optional<TableReader> table = stand.table(name);
    if (!table) return {};
    Aim aim{read_sight(*table)};
    set_if_stated(aim.target_above, table->quantity("target_above", kLength));
    table->refuse_unknown_keys();
    return aim;
  }

  StandSurvey read_stand(TableReader& table) {
    StandSurvey stand;
    const Aim near = read_aim(table, "near"), far = read_aim(table, "far");
    stand.near = near.sight;
    stand.far = far.sight;
    stand.near_target_above = near.target_above;
    stand.far_target_above = far.target_above;
    table.require("between", expectation(kTurn));
    set_if_stated(stand.between, table.quantities("between", kTurn));
    for (const double b : stand.between) {
      if (b > 0.0 && b <= std::numbers::pi) continue;
      table.complain("between", "each more than 0 deg, at most 180 deg",
                     "turn from the near to the far anchor, either way");
      break;
    }
    stand.sd = read_laser_sd(table);
    set_if_stated(stand.between_sd, positive(table, "between_sd", kAngleSd));
    table.refuse_unknown_keys();
    return stand;
  }

  LaserGround read_laser_ground(TableReader& table) {
    LaserGround ground;
    table.require("points", "rows of distance and angle, [[\"5 m\", \"-70 deg\"], ...]");
    const auto points = table.pairs("points", kDistance, kUpAngle);
    for (std::size_t i = 0; points && i < points->size(); ++i) {
      const auto& [distance, angle] = (*points)[i];
      const bool good = distance > 0.0 && distance <= 2.0 * kLongestSurvey && std::abs(angle) <= kRightAngle;
      if (good) ground.shots.push_back({distance, angle});
      else
        findings_.add(places_.file(), table.take("points")->children[i].place,
                      {fmt::format("laser_ground.points[{}]", i), "such a sight",
                       "a distance above 0 m, an angle of -90 to 90 deg", ""});
    }
    set_if_stated(ground.instrument_above, table.quantity("instrument_above", kLength));
    table.refuse_unknown_keys();
    return ground;
  }

  void read_ground(TableReader& root) {
    const Value* value = root.take("ground");
    if (value == nullptr) return;
    std::vector<Place> rows;
    std::string file = places_.file();
    if (value->kind == Value::Kind::text) {
      const std::optional<std::string> text = side_text(root, "ground", "a CSV file beside the survey");
      if (!text) return;
      file = value->text;
      CsvRows<GroundPoint> table = read_ground_csv(*text, file, "ground", findings_);
      survey_.ground = std::move(table.rows);
      rows = std::move(table.places);
    } else if (const auto pairs = root.pairs("ground", kLength, kLength)) {
      for (const auto& [distance, height] : *pairs) survey_.ground.push_back({distance, height});
      for (const Value& row : value->children) rows.push_back(row.place);
    }
    for (std::size_t i = 1; i < survey_.ground.size(); ++i) {
      const double before = survey_.ground[i - 1].distance, here = survey_.ground[i].distance;
      if (here >= before) continue;
      findings_.add(file, rows[i],
                    {"ground", fmt::format("{:g} m after {:g} m", here, before), "rising distances", "sort the rows"});
    }
  }

  const SideFileLoader& load_;
  KeyPlaces& places_;
  Findings& findings_;
  Survey survey_;
  AnchorNames names_;
  PositionSd sd_;
};

}  // namespace

FileError SurveyFile::locate(const InputError& error) const {
  std::vector<FileProblem> located;
  for (const Problem& problem : error.problems()) located.push_back(places.locate(problem));
  return FileError(std::move(located));
}

SurveyFile read_survey(std::string_view text, const std::string& file, const SideFileLoader& load_side_file) {
  SurveyFile result{{}, KeyPlaces(parse_document(text, file), file)};
  Findings findings;
  result.survey = Reader(load_side_file, result.places, findings).read();
  if (!findings.empty()) throw FileError(findings.in_reading_order());
  return result;
}

}  // namespace spanloom
