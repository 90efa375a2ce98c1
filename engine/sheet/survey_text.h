// What a survey says of a gap, as a plain report for a terminal: 80 columns, no colour.
#pragma once

#include <optional>
#include <string>

#include "rig/rig.h"
#include "sheet/page_stack.h"
#include "statics/gap_effect.h"
#include "survey/survey.h"

namespace spanloom {

/// Most that one standard deviation may move the tension of a line cut for the measured gap, for the gap to be known
/// well enough to cut by [-]. Common practice, no source.
inline constexpr double kTensionShare = 0.1;

/// Whether webbing may be cut by a survey, and why.
struct CutVerdict {
  bool well_enough = false;
  std::string words;
};

/// What the survey does to one rig.
struct SurveyedRig {
  std::string title;
  GapEffectOutcome outcome;
};

/// @param rig  that the survey was carried to, if any
CutVerdict cut_verdict(const SurveyReport& report, const std::optional<SurveyedRig>& rig, UnitSystem units);

/// How good the heights of a track are, in words.
/// @param ground  height_sd > 0
std::string track_caution(const GroundProfile& ground, UnitSystem units);

/// @return lines joined with '\n', the last one included; none wider than 80 columns
std::string survey_text(const Survey& survey, const SurveyReport& report, const std::optional<SurveyedRig>& rig,
                        const SheetInfo& info);

}  // namespace spanloom
