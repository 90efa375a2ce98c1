#include "space.h"

#include <CLI/CLI.hpp>

#include <fmt/format.h>

#include <memory>

#include "base/input_error.h"
#include "files/layouts_csv.h"
#include "files/png.h"
#include "files/rig_edit.h"
#include "files/space_json.h"
#include "files/tapes_csv.h"
#include "progress.h"
#include "sheet/sheet.h"
#include "sheet/space_picture.h"
#include "sheet/space_text.h"
#include "space_options.h"

namespace spanloom {
namespace {

constexpr const char* kPartKind = "search";
constexpr const char* kSpacedName = "spaced.toml";

// A phrase in half arm spans from the near anchor is written as a phrase; else the places of the tapes are.
std::vector<double> phrase_to_write(const JudgedLayout& chosen) {
  std::vector<double> arm_spans;
  const bool callable = chosen.phrase && chosen.phrase->step == BayStep::half_arm_span && chosen.phrase->from == CountedFrom::near_anchor;
  if (callable) {
    for (const int bay : chosen.phrase->bays) arm_spans.push_back(0.5 * bay);
  }
  return arm_spans;
}

// The rig file with the chosen layout, and the files that it names, so that the folder can be sent as it is.
std::vector<OutputFile> spaced_files(const RigSources& sources, const std::string& file_name, const JudgedLayout& chosen) {
  std::vector<OutputFile> files = named_files(sources, file_name, kSpacedName);
  files.push_back({kSpacedName, with_layout_written(sources.text, file_name, chosen.layout, phrase_to_write(chosen))});
  return files;
}

void write_results(const SpaceArguments& arguments, const RigSources& sources, const SpaceReport& report) {
  const Rig& rig = sources.file.rig;
  SheetInfo info = arguments.report.sheet_info();
  const std::string picture = space_picture(rig, report, info.units);
  std::vector<OutputFile> files = spaced_files(sources, arguments.report.file, report.points[*report.chosen]);
  const ProvenLayout& proven = *report.proven;
  files.push_back({"tapes.csv", tapes_csv(proven.rig, proven.plan)});
  files.push_back({"layouts.csv", layouts_csv(report)});
  files.push_back({"space.json", space_json(rig, report)});
  files.push_back({"space.svg", picture});
  files.push_back({"space.png", png_from_svg(picture, kSpacePictureWidth, kSpacePictureHeight)});
  info.file_name = kSpacedName;
  write_with_sheet(*arguments.report.folder, std::move(files), draw_sheet(proven.rig, proven.plan, proven.checks, info), proven.rig.title, info);
}

Exit run_part(const SpaceArguments& arguments, const PlannedRig& planned, const SpaceOptions& options, const StopOnInterrupt& interrupt) {
  const Part& part = *planned.part;
  const std::string fingerprint = fingerprint_of(planned.sources, space_options_text(options));
  const SearchResult found = search_part(planned.rig(), planned.plan, options, part);
  if (found.stopped || interrupt.asked()) {
    print(stderr, arguments.report.file + ": stopped before the end; no part was written\n");
    return Exit::no_certificate;
  }
  const std::string name = part_name(kPartKind, part);
  write_files(*arguments.report.folder, {{name, search_part_json(planned.rig(), fingerprint, part, found)}});
  print_result(fmt::format("{}/{}: {} layouts judged, {} shaken at a glance, {} kept\n", *arguments.report.folder, name, found.judged,
                           found.glanced, found.pool.size()));
  return Exit::ok;
}

SpaceOutcome report_of(const SpaceArguments& arguments, const PlannedRig& planned, const SpaceOptions& options) {
  if (arguments.parts.join.empty()) return find_spacing(planned.rig(), planned.plan, options);
  const std::string fingerprint = fingerprint_of(planned.sources, space_options_text(options));
  const SearchResult found = join_search_parts(read_parts(arguments.parts.join, kPartKind), fingerprint, planned.rig(), planned.plan);
  return make_space_report(planned.rig(), planned.plan, found, options);
}

std::string words_of(const SpaceProgress& at) {
  return at.best ? fmt::format("{}, least return so far {:.0f} %", at.stage, 100.0 * *at.best) : at.stage;
}

Exit run(const SpaceArguments& arguments) {
  const StopOnInterrupt interrupt;
  const ReportOptions& asked = arguments.report;
  const std::optional<PlannedRig> planned = planned_rig(asked, arguments.parts);
  if (!planned) return Exit::no_certificate;
  const Rig& rig = planned->rig();
  SpaceOptions options = space_options(arguments, rig, planned->plan);
  SpaceOutcome outcome;
  try {
    check_can_be_spaced(rig);
    ProgressLine line("spacing:");
    options.progress = [&](const SpaceProgress& at) {
      line.show(at.done, words_of(at));
      return !interrupt.asked();
    };
    if (planned->part) return run_part(arguments, *planned, options, interrupt);
    outcome = report_of(arguments, *planned, options);
  } catch (const InputError& error) {
    throw planned->file().locate(error);
  }
  if (!outcome.report) {
    print(stderr, asked.file + ": no spacing: " + outcome.why + "\n");
    return Exit::no_certificate;
  }
  const SpaceReport& report = *outcome.report;
  if (asked.folder && report.chosen && !report.stopped) write_results(arguments, planned->sources, report);
  print_result(asked.json ? space_json(rig, report) : space_text(rig, report, asked.sheet_info()));
  if (report.stopped) print_stopped(asked);
  if (report.stopped || !report.chosen) return Exit::no_certificate;
  return worst(report.proven->checks) == Verdict::stop ? Exit::stop : Exit::ok;
}

}  // namespace

Command add_space_command(CLI::App& app) {
  const auto arguments = std::make_shared<SpaceArguments>();
  CLI::App* command = app.add_subcommand(
      "space", "Find where to tape: layouts that let little of a shake come back and keep every limit of the rig, the number\n"
               "of tapes against the return, and the rig file of the chosen one. Ctrl-C stops and prints the best so far.\n"
               "Exit code 0; 1 a check of the chosen layout says stop; 2 bad file or argument; 3 nothing found or stopped.");
  add_space_options(*command, *arguments);
  return {command, [arguments] { return run(*arguments); }};
}

}  // namespace spanloom
