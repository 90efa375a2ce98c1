// What the commands that report on a rig share: their options, the day, the sheet's files.
#pragma once

#include <algorithm>
#include <cstdio>
#include <filesystem>
#include <optional>
#include <string>
#include <thread>
#include <vector>

#include "base/quantity_text.h"
#include "files/atomic_write.h"
#include "files/rig_file.h"
#include "sheet/page_stack.h"
#include "statics/plan.h"

namespace CLI {
class App;
}

namespace spanloom {

struct ReportOptions {
  std::string file;
  std::optional<std::string> folder;
  std::string date;
  std::string units = "metric";
  bool json = false;

  UnitSystem unit_system() const { return units == "us" ? UnitSystem::us : UnitSystem::metric; }
  /// For head and foot of report and sheet; today where no day was given.
  SheetInfo sheet_info() const;
};

/// What commands that compute for long take too.
struct LongRunOptions {
  ReportOptions report;
  bool quick = false;
  unsigned threads = std::max(1u, std::thread::hardware_concurrency());
};

/// RIG.toml, -o, --json, --units and --date. @param files  what -o writes, in words
void add_report_options(CLI::App& command, ReportOptions& options, const std::string& files);
/// The same with --quick and --threads. @param quick  what a quick look is, in words
void add_long_run_options(CLI::App& command, LongRunOptions& options, const std::string& files, const std::string& quick);
/// --threads.
void add_threads(CLI::App& command, unsigned& threads);
/// RIG.toml and --units alone.
void add_file_and_units(CLI::App& command, ReportOptions& options);

/// Plans the rig; errors name the place in the file.
PlanOutcome plan_of(const RigFile& file, UnitSystem units);
/// "rig.toml: no plan: why" on stderr.
void print_no_plan(const ReportOptions& options, const PlanOutcome& outcome);

/// "rig.toml: stopped before the end; ..." on stderr.
void print_stopped(const ReportOptions& options);

/// A run must not find out at its end that there is nowhere to write. What is made to try it is taken away again, so
/// that a run without a result leaves nothing behind.
/// @throws WriteError if no file could be written to `folder`, made if need be
void make_sure_of(const std::filesystem::path& folder);

/// The files that a rig names, to lie beside a rig file made from it; one that lies elsewhere is told on stderr instead.
/// @param new_name  of the rig file made
std::vector<OutputFile> named_files(const RigSources& sources, const std::string& file_name, const std::string& new_name);

/// Writes the pages of a sheet as sheet.pdf and sheet-1.svg, sheet-2.svg ..., and other files with them, all or none.
/// Pages that an earlier, longer sheet left in the folder are removed.
void write_with_sheet(const std::filesystem::path& folder, std::vector<OutputFile> files,
                      const std::vector<std::string>& pages, const std::string& title, const SheetInfo& info);

void print(FILE* stream, const std::string& text);
/// On stdout to the last byte. @throws WriteError
void print_result(const std::string& text);

}  // namespace spanloom
