// Survey files: a survey whose report is finite, or errors with their places.
#include <cstddef>
#include <cstdint>
#include <string_view>

#include "base/input_error.h"
#include "files/survey_toml.h"
#include "fuzz_check.h"

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  using namespace spanloom;
  const std::string_view text(reinterpret_cast<const char*>(data), size);
  try {
    const SurveyFile file = read_survey(text, "survey.toml", [](const std::string&) {
      return SideFile{"distance [m],height [m]\n0,-1\n", ""};
    });
    try {
      const SurveyReport report = survey_gap(file.survey);
      fuzz::demand_finite(report.found.gap + report.found.rise, "gap and rise are finite");
      fuzz::demand_finite(report.found.gap_sd() + report.found.rise_sd(), "what is not known of them is finite");
      for (const GroundPoint& p : report.ground.points)
        fuzz::demand_finite(p.distance + p.height, "the ground is finite");
    } catch (const InputError& error) {
      fuzz::demand_located(file.locate(error).problems());
    }
  } catch (const FileError& error) {
    fuzz::demand_located(error.problems());
  }
  return 0;
}
