// Whether an entry can be true, beside what is in the record already.
#pragma once

#include <string>
#include <vector>

#include "base/input_error.h"
#include "record/entries.h"

namespace spanloom {

/// What is wrong with an entry, by the argument that says it; empty: nothing.
std::vector<Problem> problems_of(const Entry& entry, const Record& record, Day today);

/// Why an entry cannot be struck out; empty: it can. @param number  of the entry
std::vector<Problem> problems_of_strike(EntryNumber number, const Record& record);

/// Another entry by which a webbing hung on some of the same days, and a sentence that says so.
struct Overlap {
  EntryNumber other = 0;
  std::string words;
};
std::vector<Overlap> overlaps_of(const Entry& entry, EntryNumber webbing, const Record& record);

/// A webbing by its name. @throws InputError with the nearest name there is @param key  the argument
const Entry& webbing_called(const std::string& name, const Record& record, const std::string& key);

/// A rig by the number of its entry or by its title. @throws InputError also where several have that title
const Entry& rig_called(const std::string& name, const Record& record, const std::string& key);

/// The name of a webbing; "entry 12" for an entry that is none.
std::string name_of_webbing(EntryNumber webbing, const Record& record);

}  // namespace spanloom
