#include "tension.h"

#include <CLI/CLI.hpp>

#include <algorithm>
#include <charconv>
#include <memory>
#include <string_view>

#include "base/input_error.h"
#include "checks/verdicts.h"
#include "files/hauling_json.h"
#include "files/png.h"
#include "files/units.h"
#include "hauling/hauling_report.h"
#include "option_values.h"
#include "report_options.h"
#include "sheet/hauling_picture.h"
#include "sheet/hauling_text.h"

namespace spanloom {
namespace {

struct TensionArguments {
  ReportOptions report;
  std::string parts, leaves = "moving", efficiency, person_force, reach, bend, bend_friction, creep, step;
};

constexpr Wanted kSheaveShare{Quantity::share, "90 %"};
constexpr Wanted kPersonForce{Quantity::force, "300 N"};
constexpr Wanted kReach{Quantity::length, "4 m"};
constexpr Wanted kBend{Quantity::angle, "90 deg"};
constexpr Wanted kCreep{Quantity::share, "0.2 %"};
constexpr Wanted kStep{Quantity::force, "0.25 kN"};

// "5", or "3x3" for sets one behind the other; none, which is kept as a problem, where it is neither.
std::vector<int> parts_of(const char* option, const std::string& text, OptionValues& values) {
  std::vector<int> out;
  for (const char* at = text.data(), *end = at + text.size();;) {
    int number = 0;
    const auto [after, fault] = std::from_chars(at, end, number);
    if (fault != std::errc() || (after != end && *after != 'x')) {
      values.add(option, text, "parts of rope at the moving block, such as 5, or 3x3 for a set that pulls on a set");
      return {};
    }
    out.push_back(number);
    if (after == end) return out;
    at = after + 1;
  }
}

// "person_force" is --person-force.
std::string option_of(std::string key) {
  std::replace(key.begin(), key.end(), '_', '-');
  return "--" + key;
}

HaulingOptions options_of(const TensionArguments& arguments) {
  OptionValues read;
  HaulingOptions options;
  options.units = arguments.report.unit_system();
  options.leaves = arguments.leaves == "fixed" ? RopeLeaves::fixed_block : RopeLeaves::moving_block;
  if (!arguments.parts.empty()) {
    if (std::vector<int> parts = parts_of("--parts", arguments.parts, read); !parts.empty()) {
      options.sets = {{.parts = std::move(parts)}};
    }
  }
  const auto set = [](Stated<double>& to, const std::optional<double>& value) {
    if (value) to = Stated<double>::given(*value);
  };
  set(options.efficiency, read.quantity("--efficiency", arguments.efficiency, kSheaveShare));
  set(options.person_force, read.quantity("--person-force", arguments.person_force, kPersonForce));
  options.reach = read.quantity("--reach", arguments.reach, kReach);
  options.creep = read.quantity("--creep", arguments.creep, kCreep);
  options.step = read.quantity("--step", arguments.step, kStep);
  const auto angle = read.quantity("--bend", arguments.bend, kBend);
  const auto friction = read.number("--bend-friction", arguments.bend_friction);
  if (angle) {
    options.bend = Bend{.angle = *angle};
    set(options.bend->friction, friction);
  } else if (friction && arguments.bend.empty()) {
    read.add("--bend-friction", arguments.bend_friction, "--bend too: the angle that the main turns through");
  }
  try {
    check(options);
  } catch (const InputError& error) {
    for (Problem problem : error.problems()) {
      problem.key = option_of(problem.key);
      read.add(std::move(problem));
    }
  }
  read.demand_none();
  return options;
}

// Errors of the rig name the place in its file, those of options do not.
HaulingOutcome report_of(const RigFile& file, const HaulingOptions& options) {
  try {
    return make_hauling_report(file.rig, options);
  } catch (const InputError& error) {
    throw file.locate(error);
  }
}

void write_results(const std::string& folder, const Rig& rig, const HaulingReport& report, const std::string& json,
                   UnitSystem units) {
  const std::string picture = hauling_picture(rig, report, units);
  write_files(folder, {{"tension.json", json},
                       {"tension-steps.csv", pull_steps_csv(report)},
                       {"tension.svg", picture},
                       {"tension.png", png_from_svg(picture, kHaulingPictureWidth, kHaulingPictureHeight)}});
}

Exit run(const TensionArguments& arguments) {
  const ReportOptions& asked = arguments.report;
  const HaulingOptions options = options_of(arguments);
  const RigFile file = read_rig_file(asked.file);
  if (asked.folder) make_sure_of(*asked.folder);
  const PlanOutcome plan = plan_of(file, asked.unit_system());
  if (!plan.plan) {
    print_no_plan(asked, plan);
    return Exit::no_certificate;
  }
  const HaulingOutcome outcome = report_of(file, options);
  if (!outcome.report) {
    print(stderr, asked.file + ": no tensioning: " + outcome.why + "\n");
    return Exit::no_certificate;
  }
  const std::vector<Check> checks = judge(file.rig, *plan.plan, asked.unit_system());
  const std::string json = hauling_json(file.rig, *outcome.report, options, checks);
  if (asked.folder) write_results(*asked.folder, file.rig, *outcome.report, json, asked.unit_system());
  print_result(asked.json ? json : hauling_text(file.rig, *outcome.report, options, checks, asked.sheet_info()));
  return worst(checks) == Verdict::stop ? Exit::stop : Exit::ok;
}

}  // namespace

Command add_tension_command(CLI::App& app) {
  const auto arguments = std::make_shared<TensionArguments>();
  CLI::App* command = app.add_subcommand(
      "tension",
      "Pull the main up from hand-tight to standing and let it down again: length pulled through, sag and ground at\n"
      "each tension, hand force with a pulley set, what creep takes, what is stored in the line.\n"
      "Exit code 0; 1 a check of the plan says stop; 2 bad file or argument; 3 no result, with why.");
  add_report_options(*command, arguments->report, "tension.json, tension-steps.csv, tension.svg and tension.png");
  command->add_option(
      "--parts", arguments->parts,
      "Parts of rope at the moving block: 5; a set that pulls on a set: 3x3. Some usual ones if not given");
  command
      ->add_option("--rope-leaves", arguments->leaves,
                   "The block that the rope leaves towards the hand: moving or fixed")
      ->check(CLI::IsMember({"moving", "fixed"}))
      ->capture_default_str();
  command->add_option("--efficiency", arguments->efficiency,
                      "Of the force, what one sheave hands on: \"90 %\", which is assumed if not given")
      ->type_name("SHARE");
  command->add_option("--person-force", arguments->person_force,
                      "What one person pulls: \"300 N\", which is assumed if not given")->type_name("FORCE");
  command->add_option("--reach", arguments->reach, "How far the set moves the line before it must be reset: \"4 m\"")
      ->type_name("LENGTH");
  command->add_option("--bend", arguments->bend,
                      "Angle that the main turns through before the set, over edges, bars or a brake: \"90 deg\"")
      ->type_name("ANGLE");
  command->add_option("--bend-friction", arguments->bend_friction,
                      "Friction on those bends: 0.15, which is assumed if not given")->type_name("NUMBER");
  command->add_option("--creep", arguments->creep,
                      "Stretch that the standing main gains per factor of ten in time: \"0.2 %\"")->type_name("SHARE");
  command->add_option("--step", arguments->step, "From tension to tension: \"0.25 kN\"; about ten steps if not given")
      ->type_name("FORCE");
  return {command, [arguments] { return run(*arguments); }};
}

}  // namespace spanloom
