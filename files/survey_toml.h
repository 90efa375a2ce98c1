// The survey file: measurements of a gap in TOML, units written out, see docs/survey.md.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "base/input_error.h"
#include "files/file_error.h"
#include "files/key_places.h"
#include "files/rig_toml.h"
#include "survey/survey.h"

namespace spanloom {

/// A survey and where each of its keys stands.
struct SurveyFile {
  Survey survey;
  KeyPlaces places;

  /// What the engine finds wrong later, with its place.
  FileError locate(const InputError& error) const;
};

/// @param load_side_file  gets the GPX and CSV files that the survey names
/// @throws FileError with every problem of the survey and its side files; where the TOML itself is broken, with the
/// first place
SurveyFile read_survey(std::string_view text, const std::string& file, const SideFileLoader& load_side_file);

}  // namespace spanloom
