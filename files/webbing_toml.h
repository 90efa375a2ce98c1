// A webbing as the table [webbing.NAME] of a rig file, and its curve as CSV.
#pragma once

#include <string>
#include <vector>

#include "webbing/known_webbing.h"

namespace spanloom {

/// The table, ready to be pasted into a rig file. What the reader must have and nobody has said (mass, strength) stands as a
/// comment to fill in. The text is read back by the reader of rig files, stand-ins in place of what is missing, and what
/// does not read as the same webbing is never returned.
/// @param comments  above the table, one or more lines each, without line ends
/// @throws InputError "name" unless it is made of letters, digits, - and _
std::string webbing_table(const KnownWebbing& webbing, const std::vector<std::string>& comments);

/// Tension and stretch, as `stretch_csv` reads them. @param comments  as above
std::string curve_csv(const StretchCurve& curve, const std::vector<std::string>& comments);

}  // namespace spanloom
