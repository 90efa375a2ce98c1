// How exactly a rig must be taped, as JSON: SI throughout.
#pragma once

#include <string>
#include <vector>

#include "files/json_values.h"
#include "rig/rig.h"
#include "spacing/taping_study.h"

namespace spanloom {

/// What 10 mm of backup more do in each bay.
Json touch_json(const std::vector<BayTouch>& touches);

/// One document, indented, ending with a line end. @param touch  of each bay, may be empty
std::string taping_json(const Rig& rig, const TapingErrors& errors, const TapingStudy& study, const std::vector<BayTouch>& touch);

}  // namespace spanloom
