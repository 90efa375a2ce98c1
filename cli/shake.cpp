#include "shake.h"

#include <CLI/CLI.hpp>

#include <memory>
#include <vector>

#include "checks/verdicts.h"
#include "files/png.h"
#include "files/shake_csv.h"
#include "files/shake_json.h"
#include "long_run.h"
#include "motion/shake_report.h"
#include "report_options.h"
#include "sheet/return_picture.h"
#include "sheet/shake_text.h"
#include "sheet/sheet.h"

namespace spanloom {
namespace {

ShakeReportOutcome shake_of(const RigFile& file, const LongRunOptions& options, const StopOnInterrupt& interrupt) {
  const auto make = [&](const ShakeReportOptions& asked) { return make_shake_report(file.rig, asked); };
  return run_long<ShakeReportOptions>("shaking:", file, options, interrupt, make);
}

void write_results(const std::string& folder, const Rig& rig, const ShakeReport& report,
                   const std::vector<std::string>& pages, const SheetInfo& info) {
  std::vector<OutputFile> files = {{"shake.json", shake_json(rig, report)}, {"shake.csv", shakes_csv(report)}};
  if (has_picture(report)) {
    const std::string picture = return_picture(report, rig.title, info.units);
    files.push_back({"shake-history.csv", history_csv(report)});
    files.push_back({"return.svg", picture});
    files.push_back({"return.png", png_from_svg(picture, kPictureWidth, kPictureHeight)});
  }
  write_with_sheet(folder, std::move(files), pages, rig.title, info);
}

Exit run(const LongRunOptions& options) {
  const StopOnInterrupt interrupt;
  const ReportOptions& asked = options.report;
  const RigFile file = read_rig_file(asked.file);
  if (asked.folder) make_sure_of(*asked.folder);
  const PlanOutcome plan = plan_of(file, asked.unit_system());
  if (!plan.plan) {
    print_no_plan(asked, plan);
    return Exit::no_certificate;
  }
  const ShakeReportOutcome outcome = shake_of(file, options, interrupt);
  if (!outcome.report) {
    print(stderr, asked.file + ": no shake: " + outcome.why + "\n");
    return Exit::no_certificate;
  }
  const ShakeReport& report = *outcome.report;
  const std::vector<Check> checks = judge(file.rig, *plan.plan, asked.unit_system());
  const SheetInfo info = asked.sheet_info();
  if (asked.folder && !report.stopped) {
    write_results(*asked.folder, file.rig, report, draw_sheet(file.rig, *plan.plan, checks, info, &report), info);
  }
  print_result(asked.json ? shake_json(file.rig, report) : shake_text(file.rig, report, checks, info));
  if (report.stopped) {
    print_stopped(asked);
    return Exit::no_certificate;
  }
  return worst(checks) == Verdict::stop ? Exit::stop : Exit::ok;
}

}  // namespace

Command add_shake_command(CLI::App& app) {
  const auto options = std::make_shared<LongRunOptions>();
  CLI::App* command = app.add_subcommand(
      "shake", "Shake a rig: how much of a shake comes back, against the same line evenly taped and without loops;\n"
               "natural frequencies; loops that swing over the main. Ctrl-C stops and prints what was done.\n"
               "Exit code 0; 1 a check of the plan says stop; 2 bad file or argument; 3 no result or stopped.");
  add_long_run_options(*command, *options,
                       "shake.json, shake.csv, shake-history.csv, return.svg, return.png, and the sheet with the shake",
                       "The rig alone, sideways: a first look");
  return {command, [options] { return run(*options); }};
}

}  // namespace spanloom
