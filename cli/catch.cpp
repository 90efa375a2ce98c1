#include "catch.h"

#include <CLI/CLI.hpp>

#include <memory>
#include <vector>

#include "checks/check_catch.h"
#include "events/catch_report.h"
#include "files/catch_csv.h"
#include "files/catch_json.h"
#include "files/png.h"
#include "long_run.h"
#include "report_options.h"
#include "sheet/catch_text.h"
#include "sheet/fall_picture.h"
#include "sheet/sheet.h"

namespace spanloom {
namespace {

CatchReportOutcome catch_of(const RigFile& file, const Plan& plan, const LongRunOptions& options,
                            const StopOnInterrupt& interrupt) {
  const auto make = [&](const CatchReportOptions& asked) { return make_catch_report(file.rig, plan, asked); };
  return run_long<CatchReportOptions>("catching:", file, options, interrupt, make);
}

void add_picture(const Rig& rig, const CatchReport& report, const FallResult* fall, const std::string& name,
                 UnitSystem units, std::vector<OutputFile>& files) {
  if (fall == nullptr) return;
  const std::string picture = fall_picture(rig, report, *fall, units);
  files.push_back({name + ".svg", picture});
  files.push_back({name + ".png", png_from_svg(picture, kFallPictureWidth, kFallPictureHeight)});
}

void write_results(const std::string& folder, const Rig& rig, const Plan& plan, const CatchReport& report,
                   const CatchVerdicts& verdicts, const SheetInfo& info) {
  std::vector<OutputFile> files = {{"catch.json", catch_json(rig, report, verdicts)},
                                   {"catch.csv", falls_csv(rig, report)},
                                   {"fall-path.csv", fall_path_csv(report)}};
  add_picture(rig, report, pictured_fall(report.main_failure), "fall-main-failure", info.units, files);
  add_picture(rig, report, pictured_fall(report.leash_fall), "fall-leash", info.units, files);
  write_with_sheet(folder, std::move(files), draw_sheet(rig, plan, verdicts.all(), info, nullptr, &report), rig.title, info);
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
  const CatchReportOutcome outcome = catch_of(file, *plan.plan, options, interrupt);
  if (!outcome.report) {
    print(stderr, asked.file + ": no catch: " + outcome.why + "\n");
    return Exit::no_certificate;
  }
  const CatchReport& report = *outcome.report;
  const CatchVerdicts verdicts{judge(file.rig, *plan.plan, asked.unit_system()),
                               judge_catch(file.rig, report, asked.unit_system())};
  const SheetInfo info = asked.sheet_info();
  if (asked.folder && !report.stopped) write_results(*asked.folder, file.rig, *plan.plan, report, verdicts, info);
  print_result(asked.json ? catch_json(file.rig, report, verdicts) : catch_text(file.rig, report, verdicts, info));
  if (report.stopped) {
    print_stopped(asked);
    return Exit::no_certificate;
  }
  return worst(verdicts.all()) == Verdict::stop ? Exit::stop : Exit::ok;
}

}  // namespace

Command add_catch_command(CLI::App& app) {
  const auto options = std::make_shared<LongRunOptions>();
  CLI::App* command = app.add_subcommand(
      "catch", "Let the main fail under a walker, and the walker fall into the leash: at every place, how far the body\n"
               "drops, what body, backup and anchors feel, the clear height needed, what other backup slack would cost.\n"
               "Ctrl-C stops and prints what was done.\n"
               "Exit code 0; 1 a check of plan or falls says stop; 2 bad file or argument; 3 no result or stopped.");
  add_long_run_options(
      *command, *options,
      "catch.json, catch.csv, fall-path.csv, pictures of the worst falls as SVG and PNG, and the sheet with "
      "the falls",
      "No places between the searched ones, no walkers who sit or hang when the main fails, no table of costs: a "
      "first look");
  return {command, [options] { return run(*options); }};
}

}  // namespace spanloom
