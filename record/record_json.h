// The record as JSON: reports on webbings, and everything for export. SI units; days as YYYY-MM-DD.
#pragma once

#include <string>
#include <vector>

#include "record/webbing_report.h"

namespace spanloom {

/// Reports as a document "spanloom-log".
/// @param file  where the record is
std::string reports_json(const std::vector<WebbingReport>& reports, const Record& record, const std::string& file);

/// The list: reports, rigs and rules.
std::string list_json(const std::vector<WebbingReport>& reports, const Record& record, const std::string& file);

/// Every entry with all it holds, rig files too: a document "spanloom-log-export".
std::string export_json(const Record& record);

}  // namespace spanloom
