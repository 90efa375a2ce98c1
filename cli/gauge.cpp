#include "gauge.h"

#include <CLI/CLI.hpp>

#include <fmt/format.h>

#include <filesystem>
#include <memory>
#include <system_error>
#include <utility>
#include <vector>

#include "base/input_error.h"
#include "checks/verdicts.h"
#include "files/file_error.h"
#include "files/gauge_json.h"
#include "files/rig_edit.h"
#include "files/rig_value_edit.h"
#include "gauge/gauge.h"
#include "gauge_options.h"
#include "report_options.h"
#include "sheet/gauge_text.h"
#include "sheet/sheet.h"
#include "spacing/retape.h"

namespace spanloom {
namespace {

constexpr const char* kHungName = "rig-as-hung.toml";

struct GaugeArguments {
  ReportOptions report;
  std::string readings;
  QuickReadings quick;
};

GivenReadings readings_of(const GaugeArguments& arguments) {
  if (arguments.readings.empty() && arguments.quick.empty()) {
    throw InputError("READINGS.toml", "nothing", "a readings file, or readings such as --pulse \"1.5 m, 3, 0.52 s\"");
  }
  std::optional<ReadingsFile> file;
  if (!arguments.readings.empty()) file = read_readings_file(arguments.readings);
  return GivenReadings(std::move(file), arguments.quick);
}

// Each problem under the option that gave the reading, or with its place in the readings file or the rig file.
[[noreturn]] void throw_located(const InputError& error, const GivenReadings& given, const RigFile& rig) {
  std::vector<Problem> elsewhere;
  std::vector<FileProblem> in_files;
  for (const Problem& problem : error.problems()) {
    if (auto of_option = given.of_option(problem)) elsewhere.push_back(std::move(*of_option));
    else if (auto of_file = given.of_file(problem)) in_files.push_back(std::move(*of_file));
    else if (rig.places.holds(problem.key)) in_files.push_back(rig.places.locate(problem));
    else elsewhere.push_back(problem);
  }
  if (elsewhere.empty()) throw FileError(std::move(in_files));
  for (const FileProblem& found : in_files) {
    Problem problem = found.problem;
    problem.key = fmt::format("{}:{}:{}: {}", found.file, found.place.line, found.place.column, problem.key);
    elsewhere.push_back(std::move(problem));
  }
  throw InputError(std::move(elsewhere));
}

GaugeOutcome gauge_of(const RigFile& rig, const Plan& plan, const GivenReadings& given, UnitSystem units) {
  try {
    return gauge(rig.rig, plan, given.readings(), units);
  } catch (const InputError& error) {
    throw_located(error, given, rig);
  }
}

// The rig file with tension, tapes and loops as found, and the files that it names. A main of which every length was given
// has no tension to write: its file is left as it is.
std::vector<OutputFile> hung_files(const RigSources& sources, const std::string& file_name, const GaugeReport& report) {
  if (report.advice == MainAdvice::read_again) {
    print(stderr, fmt::format("{}: the readings contradict each other, so {} is not written\n", file_name, kHungName));
    return {};
  }
  if (!sources.file.rig.main.tension) {
    print(stderr, fmt::format("{}: gives the length of the main instead of its tension, so {} is not written\n", file_name, kHungName));
    return {};
  }
  const std::string tension = fmt::format("\"{:.1f} N\"", report.tension);
  const std::string hung = with_value_written(sources.text, file_name, "main.tension", tension);
  std::vector<OutputFile> files = named_files(sources, file_name, kHungName);
  files.push_back({kHungName, with_taping_written(hung, file_name, taping_of(report.as_hung, report.plan))});
  return files;
}

void write_results(const GaugeArguments& arguments, const RigSources& sources, const Readings& readings, const GaugeReport& report) {
  const Rig& rig = sources.file.rig;
  SheetInfo info = arguments.report.sheet_info();
  std::vector<OutputFile> files = hung_files(sources, arguments.report.file, report);
  files.push_back({"gauge.json", gauge_json(rig, readings, report)});
  files.push_back({"gauge.txt", gauge_text(rig, readings, report, info)});
  if (report.advice == MainAdvice::read_again) {
    write_files(*arguments.report.folder, files);  // no sheet of a line that nobody knows
    return;
  }
  Rig hung = report.as_hung;
  hung.title = rig.title + ", as it hangs";
  write_with_sheet(*arguments.report.folder, std::move(files), draw_sheet(hung, report.plan, report.checks, info), hung.title, info);
}

// Neither a rig file nor the sheet that a plan left for the crew must be written over by what is found on site.
void keep_apart(const ReportOptions& asked) {
  const std::filesystem::path folder = *asked.folder;
  const auto refuse = [&](const std::string& cure) {
    throw InputError("-o", in_quotes(*asked.folder), fmt::format("a folder other than that of {} or of a plan", asked.file), cure);
  };
  std::error_code absent;
  const std::filesystem::path home = std::filesystem::absolute(asked.file).parent_path();
  if (std::filesystem::equivalent(home, folder, absent)) refuse("nothing of yours is written over");
  if (std::filesystem::exists(folder / "tapes.csv", absent)) refuse("the sheet there is the one the crew rigs from");
}

Exit run(const GaugeArguments& arguments) {
  const ReportOptions& asked = arguments.report;
  const RigSources sources = read_rig_sources(asked.file);
  const RigFile& file = sources.file;
  const GivenReadings given = readings_of(arguments);
  if (asked.folder) {
    keep_apart(asked);
    make_sure_of(*asked.folder);
  }
  const PlanOutcome plan = plan_of(file, asked.unit_system());
  if (!plan.plan) {
    print_no_plan(asked, plan);
    return Exit::no_certificate;
  }
  GaugeOutcome outcome = gauge_of(file, *plan.plan, given, asked.unit_system());
  if (!outcome.report) {
    print(stderr, fmt::format("{}: no gauge: {}\n", asked.file, outcome.why));
    return Exit::no_certificate;
  }
  GaugeReport& report = *outcome.report;
  for (std::string& note : given.notes()) report.notes.push_back(std::move(note));
  if (asked.folder) write_results(arguments, sources, given.readings(), report);
  print_result(asked.json ? gauge_json(file.rig, given.readings(), report)
                          : gauge_text(file.rig, given.readings(), report, asked.sheet_info()));
  return worst(report.checks) == Verdict::stop ? Exit::stop : Exit::ok;
}

}  // namespace

Command add_gauge_command(CLI::App& app) {
  const auto arguments = std::make_shared<GaugeArguments>();
  CLI::App* command = app.add_subcommand(
      "gauge", "Find the tension and the loops of a line that hangs from what was read off it: timed blows, sags under a weight,\n"
               "swings, marks, an accelerometer, drops of loops. With its uncertainty, what to pull in or let out, and the checks\n"
               "of the line as it hangs.\n"
               "Exit code 0; 1 a check of the line as it hangs says stop; 2 bad file or argument; 3 no result, with why.");
  add_report_options(*command, arguments->report,
                     "gauge.json, gauge.txt, rig-as-hung.toml (the rig file with tension, tapes and loops as found), the files "
                     "that it names, and the sheet of the line as it hangs");
  command->add_option("READINGS.toml", arguments->readings, "The readings file; not needed where options give readings")
      ->type_name("FILE.toml");
  add_quick_readings(*command, arguments->quick);
  return {command, [arguments] { return run(*arguments); }};
}

}  // namespace spanloom
