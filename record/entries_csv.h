#pragma once

#include <string>

#include "record/entries.h"

namespace spanloom {

/// One line an entry, as RFC 4180 has it: what sums and rules are made of, and the entry in words. SI units.
std::string entries_csv(const Record& record);

}  // namespace spanloom
