// GPX: a gap in which all is finite and within the earth, or errors with their places.
#include <cmath>
#include <cstddef>
#include <cstdint>
#include <string_view>

#include "files/survey_gpx.h"
#include "fuzz_check.h"

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  using namespace spanloom;
  Findings findings;
  const std::string_view text(reinterpret_cast<const char*>(data), size);
  const std::optional<GpxGap> gap = read_gpx(text, "survey.gpx", {}, findings);
  fuzz::demand(gap.has_value() == findings.empty(), "a gap or problems");
  if (!findings.empty()) fuzz::demand_located(findings.in_reading_order());
  if (!gap) return 0;
  const auto check = [](const GeoPoint& p) {
    fuzz::demand(std::abs(p.latitude) <= 90.0 && std::abs(p.longitude) <= 180.0, "a place is on the earth");
    fuzz::demand_finite(p.height, "a height is finite");
  };
  check(gap->near.at);
  check(gap->far.at);
  for (const GeoPoint& p : gap->track) check(p);
  const PositionSurvey positions = position_survey("survey.gpx", gap->near.at, gap->far.at, gap->track);
  fuzz::demand(is_finite(positions.far), "the far anchor is finite");
  return 0;
}
