#include "taping.h"

#include <CLI/CLI.hpp>

#include <fmt/format.h>

#include <memory>

#include "base/input_error.h"
#include "files/taping_json.h"
#include "parts.h"
#include "progress.h"
#include "sheet/taping_text.h"
#include "space_options.h"
#include "spacing/space_report.h"

namespace spanloom {
namespace {

constexpr const char* kPartKind = "taping";

struct TapingArguments {
  ReportOptions report;
  PartOptions parts;
  CrewArguments crew;
  unsigned threads = std::max(1u, std::thread::hardware_concurrency());
  std::size_t crews = 40;
  std::uint64_t seed = 1;
};

std::string options_text(const TapingStudyOptions& options) {
  return fmt::format("taping {} {} {} {}", options.errors.arm_span, options.errors.backup, options.crews, options.seed);
}

std::optional<TapingStudy> study_of(const TapingArguments& arguments, const PlannedRig& planned, const TapingStudyOptions& options) {
  if (!arguments.parts.join.empty()) {
    return join_taping_parts(read_parts(arguments.parts.join, kPartKind), fingerprint_of(planned.sources, options_text(options)));
  }
  return study_taping(planned.rig(), planned.plan, MovedJudge(planned.rig(), options.seed, options.errors), layout_of(planned.plan), options);
}

void write_part(const TapingArguments& arguments, const PlannedRig& planned, const TapingStudy& study, const TapingStudyOptions& options) {
  const std::string name = part_name(kPartKind, options.part);
  const std::string fingerprint = fingerprint_of(planned.sources, options_text(options));
  write_files(*arguments.report.folder, {{name, taping_part_json(planned.rig(), fingerprint, options.part, study)}});
  print_result(fmt::format("{}/{}: {} crews\n", *arguments.report.folder, name, study.crews.size()));
}

Exit run(const TapingArguments& arguments) {
  const StopOnInterrupt interrupt;
  const ReportOptions& asked = arguments.report;
  const std::optional<PlannedRig> planned = planned_rig(asked, arguments.parts);
  if (!planned) return Exit::no_certificate;
  const Rig& rig = planned->rig();
  const std::optional<Part>& part = planned->part;
  std::optional<TapingStudy> study;
  TapingStudyOptions options;
  options.errors = taping_errors(arguments.crew);
  try {
    check_can_be_spaced(rig);
    options.crews = arguments.crews;
    options.seed = arguments.seed;
    options.part = part.value_or(Part{});
    options.threads = arguments.threads;
    ProgressLine line("taping:");
    options.progress = [&](double done) {
      line.show(done, "of the crews");
      return !interrupt.asked();
    };
    study = study_of(arguments, *planned, options);
  } catch (const InputError& error) {
    throw planned->file().locate(error);
  }
  if (!study || (part && study->stopped)) {
    print(stderr, asked.file + (study ? ": stopped before the end; no part was written\n" : ": the rig found no proven rest\n"));
    return Exit::no_certificate;
  }
  if (part) {
    write_part(arguments, *planned, *study, options);
    return Exit::ok;
  }
  LayoutJudge judge(rig, planned->plan);
  const std::vector<BayTouch> touch = touch_of_bays(judge, layout_of(planned->plan)).value_or(std::vector<BayTouch>{});
  const std::string json = taping_json(rig, options.errors, *study, touch);
  if (asked.folder && !study->stopped) write_files(*asked.folder, {{"taping.json", json}});
  print_result(asked.json ? json : taping_text(rig, planned->plan, options.errors, *study, touch, asked.sheet_info()));
  if (study->stopped) print_stopped(asked);
  return study->stopped ? Exit::no_certificate : Exit::ok;
}

}  // namespace

Command add_taping_command(CLI::App& app) {
  const auto arguments = std::make_shared<TapingArguments>();
  CLI::App* command = app.add_subcommand(
      "taping", "Find how exactly to tape: what comes back of a shake when many crews tape the rig, each with errors of its own,\n"
                "and what 10 mm of backup do in every bay. Ctrl-C stops and prints what was done.\n"
                "Exit code 0; 2 bad file or argument; 3 no result or stopped.");
  add_report_options(*command, arguments->report, "taping.json");
  add_threads(*command, arguments->threads);
  command->add_option("--crews", arguments->crews, "How many crews tape the rig")->check(CLI::Range(1, 10000000))->capture_default_str();
  add_crew_options(*command, arguments->crew);
  command->add_option("--seed", arguments->seed, "Start of the random choices: another number, other crews; the same number, the same crews")->capture_default_str();
  add_part_options(*command, arguments->parts, "the crews");
  return {command, [arguments] { return run(*arguments); }};
}

}  // namespace spanloom
