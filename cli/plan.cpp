#include "plan.h"

#include <CLI/CLI.hpp>

#include <memory>

#include "checks/verdicts.h"
#include "files/results_json.h"
#include "files/tapes_csv.h"
#include "report_options.h"
#include "sheet/sheet.h"
#include "sheet/text_report.h"

namespace spanloom {
namespace {

Exit run(const ReportOptions& options) {
  const RigFile file = read_rig_file(options.file);
  if (options.folder) make_sure_of(*options.folder);
  const PlanOutcome outcome = plan_of(file, options.unit_system());
  if (!outcome.plan) {
    print_no_plan(options, outcome);
    return Exit::no_certificate;
  }
  const Rig& rig = file.rig;
  const Plan& plan = *outcome.plan;
  const std::vector<Check> checks = judge(rig, plan, options.unit_system());
  const SheetInfo info = options.sheet_info();
  if (options.folder) {
    write_with_sheet(*options.folder,
                     {{"tapes.csv", tapes_csv(rig, plan)}, {"result.json", plan_json(rig, plan, checks)}},
                     draw_sheet(rig, plan, checks, info), rig.title, info);
  }
  print_result(options.json ? plan_json(rig, plan, checks) : text_report(rig, plan, checks, info));
  return worst(checks) == Verdict::stop ? Exit::stop : Exit::ok;
}

}  // namespace

Command add_plan_command(CLI::App& app) {
  const auto options = std::make_shared<ReportOptions>();
  CLI::App* command = app.add_subcommand(
      "plan", "Plan a rig: lengths to cut, where every tape goes, loads, sag, clearances, checks.\n"
              "Exit code 0; 1 a check says stop; 2 bad file or argument; 3 no plan, with why.");
  add_report_options(*command, *options, "sheet.pdf, its pages as SVG, tapes.csv and result.json");
  return {command, [options] { return run(*options); }};
}

}  // namespace spanloom
