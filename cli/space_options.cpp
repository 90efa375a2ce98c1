#include "space_options.h"

#include <CLI/CLI.hpp>

#include <fmt/format.h>

#include <cmath>

#include "base/input_error.h"
#include "files/units.h"
#include "option_values.h"

namespace spanloom {
namespace {

// What an argument says, or what was there.
double said(const std::string& text, const char* name, const Wanted& wanted, double otherwise) {
  OptionValues values;
  const std::optional<double> value = values.quantity(name, text, wanted);
  values.demand_none();
  return value.value_or(otherwise);
}

}  // namespace

void add_crew_options(CLI::App& command, CrewArguments& arguments) {
  command.add_option("--arm-span-error", arguments.arm_span_error, "An arm span is longer or shorter by at most so much; usual: \"5 %\"")
      ->type_name("SHARE");
  command.add_option("--loop-error", arguments.loop_error, "Each loop is longer or shorter by at most so much; usual: \"1 %\"")
      ->type_name("SHARE");
}

TapingErrors taping_errors(const CrewArguments& arguments) {
  TapingErrors errors;
  errors.arm_span = said(arguments.arm_span_error, "--arm-span-error", kShare, errors.arm_span);
  errors.backup = said(arguments.loop_error, "--loop-error", kShare, errors.backup);
  check_errors(errors);
  return errors;
}

void add_space_options(CLI::App& command, SpaceArguments& arguments) {
  add_report_options(command, arguments.report,
                     "spaced.toml (the rig file with the chosen layout), the files that it names, tapes.csv, layouts.csv, space.json, "
                     "space.svg, space.png and the sheet of the chosen layout");
  add_threads(command, arguments.threads);
  command.add_flag("--quick", arguments.quick, "A first look: a sixth of the usual work");
  command.add_flag("--free", arguments.free, "Bays in whole centimetres instead of half arm spans");
  command.add_option("--least-bay", arguments.least_bay, "Shortest bay, such as \"1.75 m\"; usual: 1 arm span, 2 from 100 m on, half on short lines")
      ->type_name("LENGTH");
  command.add_option("--most-bay", arguments.most_bay, "Longest bay, such as \"5 m\"; usual: 3 arm spans, 4 from 100 m on, 2 on short lines")
      ->type_name("LENGTH");
  command.add_option("--least-slack", arguments.least_slack, "Least slack of a bay, such as \"0.8 %\"; usual: half of the rig's least")
      ->type_name("SHARE");
  command.add_option("--most-slack", arguments.most_slack, "Most slack of a bay, such as \"2 %\"; usual: twice the rig's most")
      ->type_name("SHARE");
  command.add_option("--most-drop", arguments.most_drop, "Most drop of a loop, standing, such as \"400 mm\"; usual: 0.5 m")
      ->type_name("LENGTH");
  command.add_option("--most-backup-tension", arguments.most_backup_tension,
                     "Most the backup may carry under a walker, such as \"1 kN\"; usual: limits.backup_tension of the rig")
      ->type_name("FORCE");
  command.add_option("--most-tapes", arguments.most_tapes, "Most tapes")->check(CLI::Range(1, 4999));
  command.add_option("--tapes", arguments.tapes, "Choose the layout shown with so many tapes, or the next fewer")->check(CLI::Range(1, 4999));
  add_crew_options(command, arguments.crew);
  command.add_option("--seed", arguments.seed, "Start of the random choices: another number, another search; the same number, the same answer")->capture_default_str();
  command.add_option("--effort", arguments.effort, "How many times the usual work to search")->check(CLI::Range(1, 10000))->capture_default_str();
  add_part_options(command, arguments.parts, "the search");
}

SpaceOptions space_options(const SpaceArguments& arguments, const Rig& rig, const Plan& plan) {
  SpaceOptions options;
  LayoutBounds& bounds = options.bounds;
  bounds = usual_bounds(rig, plan, arguments.free ? BayStep::centimetre : BayStep::half_arm_span);
  const double step = length_of(bounds.step, rig.spacing);
  constexpr double kHair = 1e-6;          // so that 1.75 m is an arm span of 1.75 m
  const auto in_steps = [&](const std::string& text, const char* name, int otherwise, double (*whole)(double), double hair) {
    const double length = said(text, name, kLength, 0.0);
    if (text.empty()) return otherwise;
    if (!(length > 0.0 && length < 1000.0)) throw InputError(name, '"' + text + '"', "a length above 0 m and below 1000 m");
    const int steps = int(whole(length / step + hair));
    if (steps < 1) throw InputError(name, '"' + text + '"', arguments.free ? "1 cm at the least" : "half an arm span at the least");
    return steps;
  };
  bounds.shortest = in_steps(arguments.least_bay, "--least-bay", bounds.shortest, std::ceil, -kHair);
  bounds.longest = in_steps(arguments.most_bay, "--most-bay", bounds.longest, std::floor, kHair);
  bounds.least_slack = said(arguments.least_slack, "--least-slack", kShare, bounds.least_slack);
  bounds.most_slack = said(arguments.most_slack, "--most-slack", kShare, bounds.most_slack);
  bounds.most_drop = said(arguments.most_drop, "--most-drop", kSmallLength, bounds.most_drop);
  bounds.most_backup_tension = said(arguments.most_backup_tension, "--most-backup-tension", kSmallForce, bounds.most_backup_tension);
  if (arguments.most_tapes) bounds.most_tapes = *arguments.most_tapes;
  check_bounds(bounds);
  options.errors = taping_errors(arguments.crew);
  options.seed = arguments.seed;
  options.effort = arguments.effort;
  options.quick = arguments.quick;
  options.tapes = arguments.tapes;
  options.threads = arguments.threads;
  options.units = arguments.report.unit_system();
  return options;
}

std::string space_options_text(const SpaceOptions& options) {
  const LayoutBounds& b = options.bounds;
  return fmt::format("search {} {} {} {} {} {} {} {} {} {} {} {} {} {} {} {}", int(b.step), b.shortest, b.longest, b.most_tapes, b.least_slack, b.most_slack,
                     b.slack_step, b.most_drop, b.most_backup_tension, b.longest_phrase, b.longest_slack_phrase, options.errors.arm_span, options.errors.backup, options.seed, options.effort,
                     options.quick ? "quick" : "");
}

}  // namespace spanloom
