#include "files/survey_positions.h"

#include <cmath>
#include <filesystem>
#include <utility>
#include <variant>
#include <vector>

#include <fmt/format.h>

namespace spanloom {
namespace {

constexpr Wanted kHeight{Quantity::length, "312 m"};

}  // namespace

Survey survey_of_gpx(std::string_view text, const std::string& file, const PositionOptions& options) {
  Findings findings;
  Survey survey;
  survey.title = std::filesystem::path(file).stem().string();
  survey.sideways = options.sideways;
  const std::optional<GpxGap> gap = read_gpx(text, file, options.names, findings);
  if (gap) {
    PositionSurvey positions =
        position_survey(std::filesystem::path(file).filename().string(), gap->near.at, gap->far.at, gap->track);
    if (auto problem = problem_of_anchors(positions, "gpx")) findings.add(file, gap->far.place, std::move(*problem));
    positions.near_sd = positions.far_sd = options.sd;
    positions.track_without_height = gap->track_without_height;
    survey.positions.push_back(std::move(positions));
  }
  if (!findings.empty()) throw FileError(findings.in_reading_order());
  return survey;
}

GeoPoint parse_position(const std::string& text, const std::string& option) {
  const std::string expected = "latitude, longitude, height, such as \"45.1234567 N, 7.1234567 E, 312 m\"";
  const std::size_t first = text.find(','), last = text.rfind(',');
  if (first == text.npos || first == last) throw InputError(option, in_quotes(text), expected);
  std::vector<Problem> problems;
  const auto value_of = [&](const std::variant<double, QuantityFault>& parsed) {
    if (const double* value = std::get_if<double>(&parsed)) return *value;
    const auto& fault = std::get<QuantityFault>(parsed);
    problems.push_back({option, in_quotes(text), fault.expected, fault.cure});
    return 0.0;
  };
  const GeoPoint point{
      value_of(parse_coordinate(std::string_view(text).substr(0, first), Axis::latitude)),
      value_of(parse_coordinate(std::string_view(text).substr(first + 1, last - first - 1), Axis::longitude)),
      value_of(parse_quantity(std::string_view(text).substr(last + 1), kHeight))};
  if (!problems.empty()) throw InputError(std::move(problems));
  return point;
}

std::optional<Problem> problem_of_anchors(const PositionSurvey& positions, const std::string& key) {
  const double gap = std::hypot(positions.far.x, positions.far.y);
  if (!(gap > 0.0))
    return Problem{key, "both anchors at one place", "two anchors apart", "look at the coordinates again"};
  if (gap <= kLongestSurvey) return std::nullopt;
  return Problem{key, fmt::format("anchors {:.0f} m apart", gap), "at most 5000 m", "look at the coordinates again"};
}

}  // namespace spanloom
