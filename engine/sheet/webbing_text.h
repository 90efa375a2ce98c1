// What a pull test or a handbook says of a webbing, as a text for a terminal.
#pragma once

#include <string>
#include <vector>

#include "sheet/page_stack.h"
#include "webbing/fibres.h"
#include "webbing/known_webbing.h"
#include "webbing/pull_test.h"

namespace spanloom {

/// Where a curve and its numbers come from, in lines short enough for comments of a file.
std::vector<std::string> origin_of(const PullTest& test, const SheetInfo& info);
std::vector<std::string> origin_of(const KnownWebbing& webbing, const Fibre& fibre);

/// @param table  the table for the rig file, printed below the numbers
std::string pull_test_text(const KnownWebbing& webbing, const PullTest& test, const std::string& table, const SheetInfo& info);
std::string fibre_text(const KnownWebbing& webbing, const Fibre& fibre, const std::string& table, const SheetInfo& info);

}  // namespace spanloom
