// Part files of a search for spacing, or of a study of taping errors, that was cut into numbered parts: what one part found,
// to be joined with the others to what one run would have found.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "files/json_values.h"
#include "files/part_value.h"
#include "rig/rig.h"
#include "spacing/layout_search.h"
#include "spacing/taping_study.h"
#include "statics/plan.h"

namespace spanloom {

/// 64-bit FNV-1a of a text in sixteen hexadecimal digits. Tells apart what was not made from the same; no guard against
/// people who want it to agree.
/// Source: Fowler, Noll and Vo, The FNV Non-Cryptographic Hash Algorithm (IETF draft-eastlake-fnv), section 2.
std::string fingerprint_of(std::string_view text);

/// The phrase of a layout: bays in steps, slacks as shares, both repeated.
Json phrase_json(const Phrase& phrase);

/// @param fingerprint  fingerprint_of() all that the search depends on: parts are joined only where it agrees
/// @return one JSON document, indented, ending with a line end; its numbers read back bit by bit
std::string search_part_json(const Rig& rig, const std::string& fingerprint, const Part& part, const SearchResult& found);

/// What one run would have found. Layouts are made anew from their phrases. Stopped where one of the parts was.
/// @param plan  of the rig: its main's length
/// @throws FileError with each file that is no part of this search, is damaged, or stands for a part that another file
/// holds too, and where parts are missing; InputError "parts" where there is no file at all
SearchResult join_search_parts(const std::vector<PartFile>& files, const std::string& fingerprint, const Rig& rig,
                               const Plan& plan);

/// The same of a study of taping errors.
std::string taping_part_json(const Rig& rig, const std::string& fingerprint, const Part& part, const TapingStudy& study);

/// All crews, rising numbers.
/// @throws as join_search_parts(), and FileError where a part was stopped or crews are missing
TapingStudy join_taping_parts(const std::vector<PartFile>& files, const std::string& fingerprint);

}  // namespace spanloom
