// The result of `survey` as JSON and as files to plan with.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "sheet/survey_text.h"
#include "survey/survey.h"

namespace spanloom {

/// All SI, keys with their unit.
std::string survey_json(const Survey& survey, const SurveyReport& report, const std::optional<SurveyedRig>& rig);

/// The name of the ground table beside site.toml.
inline constexpr const char* kGroundName = "ground.csv";

/// TOML of a [site] table: gap, rise, and ground in kGroundName if it is known.
std::string site_toml(const SurveyReport& report);

/// distance [m],height [m].
std::string ground_csv(const GroundProfile& ground);

/// A length as TOML: "\"62.013 m\"", to the millimetre.
std::string toml_length(double si);

}  // namespace spanloom
