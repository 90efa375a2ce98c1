#include "webbing.h"

#include <CLI/CLI.hpp>

#include <fmt/format.h>

#include <charconv>
#include <filesystem>
#include <memory>
#include <string_view>

#include "base/input_error.h"
#include "files/png.h"
#include "files/pull_test_csv.h"
#include "files/units.h"
#include "files/webbing_json.h"
#include "files/webbing_toml.h"
#include "option_values.h"
#include "report_options.h"
#include "sheet/webbing_picture.h"
#include "sheet/webbing_text.h"

namespace spanloom {
namespace {

struct WebbingArguments {
  ReportOptions report;
  std::string fibre, name, cycle = "last";
  std::string gauge_length, mass, strength, width, thickness, wet_keeps;
};

constexpr Wanted kGaugeLength{Quantity::length, "1 m"};
constexpr Wanted kThickness{Quantity::length, "2.4 mm"};
constexpr Wanted kStrength{Quantity::force, "32 kN"};
constexpr Wanted kWetKeeps{Quantity::share, "95 %"};

/// What the options say, in SI; every problem is told at once.
struct OptionsRead {
  KnownWebbing webbing;
  std::optional<double> gauge_length;  // [m]
};

OptionsRead stated_by(const WebbingArguments& arguments) {
  OptionValues values;
  OptionsRead out;
  out.webbing.mass_per_length = values.positive("--mass", arguments.mass, kMassPerLength);
  out.webbing.strength = values.positive("--strength", arguments.strength, kStrength);
  out.webbing.width = values.positive("--width", arguments.width, kSmallLength);
  out.webbing.thickness = values.positive("--thickness", arguments.thickness, kThickness);
  out.webbing.wet_keeps = values.positive("--wet-keeps", arguments.wet_keeps, kWetKeeps);
  out.gauge_length = values.positive("--gauge-length", arguments.gauge_length, kGaugeLength);
  if (out.webbing.wet_keeps.value_or(0.0) > 1.0) {
    values.add("--wet-keeps", arguments.wet_keeps, "at most 100 %");
  }
  values.demand_none();
  return out;
}

/// "last" is none, "first" is 1.
std::optional<std::size_t> cycle_asked(const std::string& text) {
  if (text == "last") return std::nullopt;
  if (text == "first") return 1;
  std::size_t number = 0;
  const auto [end, fault] = std::from_chars(text.data(), text.data() + text.size(), number);
  if (fault != std::errc() || end != text.data() + text.size() || number < 1) {
    throw InputError("--cycle", '"' + text + '"', "first, last (the last full one) or a number from 1");
  }
  return number;
}

PullTestFile read_pull_test(const WebbingArguments& arguments, std::optional<double> gauge_length) {
  const SideFile file = load_file(arguments.report.file, kPullTestLimits.bytes);
  if (!file.text) throw FileError({{arguments.report.file, {}, {"", "nothing", "a file of readings", file.why_not}}});
  return read_pull_test_csv(*file.text, arguments.report.file, gauge_length);
}

PullTest analyse(const PullTestFile& file, const PullTestOptions& options) {
  try {
    return analyse_pull_test(file.samples, options);
  } catch (const InputError& error) {
    throw file.locate(error);
  }
}

void add_remarks(const KnownWebbing& webbing, UnitSystem units, PullTest& test) {
  if (webbing.strength && *webbing.strength < test.greatest_tension()) {
    test.notes.push_back(fmt::format("The webbing held {} in the test, more than the strength stated.",
                                     quantity_text(test.greatest_tension(), Measure::force, units)));
  }
}

Exit run_pull_test(const WebbingArguments& arguments) {
  const ReportOptions& asked = arguments.report;
  auto [webbing, gauge_length] = stated_by(arguments);
  const PullTestOptions options{cycle_asked(arguments.cycle), asked.unit_system()};
  const PullTestFile file = read_pull_test(arguments, gauge_length);
  PullTest test = analyse(file, options);
  constexpr double kMostLoss = 0.5;  // of the rig file
  webbing.name = arguments.name.empty() ? "pulled" : arguments.name;
  webbing.curve = test.curve;
  if (test.loss && *test.loss > 0.0 && *test.loss <= kMostLoss) webbing.loss = test.loss;
  add_remarks(webbing, options.units, test);
  const SheetInfo info = asked.sheet_info();
  const std::vector<std::string> origin = origin_of(test, info);
  const std::string table = webbing_table(webbing, origin), json = pull_test_json(webbing, test, info.file_name);
  if (asked.folder) {
    const std::string picture = pull_test_picture(file.samples, test, webbing.name, options.units);
    write_files(*asked.folder, {{"webbing.toml", table},
                                {"curve.csv", curve_csv(webbing.curve, origin)},
                                {"webbing.json", json},
                                {"pull-test.svg", picture},
                                {"pull-test.png", png_from_svg(picture, kPullPictureWidth, kPullPictureHeight)}});
  }
  print_result(asked.json ? json : pull_test_text(webbing, test, table, info));
  return Exit::ok;
}

// A name that does not say so itself is made to.
std::string generic_name(const std::string& asked, const Fibre& fibre) {
  constexpr std::string_view kMark = "generic-";
  const std::string name = asked.empty() ? fibre.name : asked;
  return name.starts_with(kMark) ? name : std::string(kMark) + name;
}

Exit run_fibre(const WebbingArguments& arguments) {
  const ReportOptions& asked = arguments.report;
  const Fibre& fibre = fibre_named(arguments.fibre);
  KnownWebbing webbing = stated_by(arguments).webbing;
  if (!webbing.mass_per_length) {
    throw InputError("--mass", "nothing", expectation(kMassPerLength), "strength and stiffness of a fibre follow from its mass");
  }
  if (!arguments.gauge_length.empty() || arguments.cycle != "last") {
    throw InputError("--fibre", "options of a pull test too", "--fibre without --gauge-length and --cycle", "leave them out");
  }
  const YarnWebbing yarn = yarn_webbing(fibre, *webbing.mass_per_length);
  if (webbing.strength.value_or(0.0) > yarn.strength) {
    throw InputError("--strength", '"' + arguments.strength + '"',
                     fmt::format("at most the {} of straight {} yarn of that mass",
                                 quantity_text(yarn.strength, Measure::force, asked.unit_system()), fibre.name),
                     "look at mass and fibre");
  }
  webbing.name = generic_name(arguments.name, fibre);
  webbing.generic = true;
  webbing.curve = yarn.curve;
  if (!webbing.strength) webbing.strength = yarn.strength;
  if (!webbing.wet_keeps) webbing.wet_keeps = fibre.wet_keeps;
  const std::vector<std::string> origin = origin_of(webbing, fibre);
  const std::string table = webbing_table(webbing, origin), json = fibre_json(webbing, fibre);
  if (asked.folder) {
    write_files(*asked.folder, {{"webbing.toml", table}, {"curve.csv", curve_csv(webbing.curve, origin)}, {"webbing.json", json}});
  }
  print_result(asked.json ? json : fibre_text(webbing, fibre, table, asked.sheet_info()));
  return Exit::ok;
}

Exit run(const WebbingArguments& arguments) {
  if (arguments.report.file.empty() == arguments.fibre.empty()) {
    throw InputError("webbing", arguments.fibre.empty() ? "neither PULL.csv nor --fibre" : "both PULL.csv and --fibre",
                     "one of the two: the readings of a pull test, or a fibre");
  }
  if (arguments.report.folder) make_sure_of(*arguments.report.folder);
  return arguments.fibre.empty() ? run_pull_test(arguments) : run_fibre(arguments);
}

}  // namespace

Command add_webbing_command(CLI::App& app) {
  const auto arguments = std::make_shared<WebbingArguments>();
  WebbingArguments& a = *arguments;
  CLI::App* command = app.add_subcommand(
      "webbing", "The table of a webbing for the rig file: curve, loss and lasting stretch from the readings of a pull test,\n"
                 "or generic handbook values of a fibre for a first look. Exit code 0; 2 bad file or argument.");
  add_report_options(*command, a.report, "webbing.toml, curve.csv, webbing.json, pull-test.svg and pull-test.png");
  command->remove_option(command->get_option("RIG.toml"));  // the one command that reports on no rig
  command->add_option("PULL.csv", a.report.file, "Readings in order of time: tension, and stretch or length")
      ->type_name("FILE.csv");
  command->add_option("--fibre", a.fibre, "Generic values of a fibre in place of a pull test")
      ->check(CLI::IsMember({"nylon", "polyester", "hmpe"}));
  command->add_option("--name", a.name, "Name of the webbing in the rig file")->type_name("NAME");
  command->add_option("--gauge-length", a.gauge_length, "Between the marks without load, before the first pull: \"1 m\"")
      ->type_name("LENGTH");
  command->add_option("--cycle", a.cycle, "Whose loading becomes the curve: first, last (the last full one) or a number")
      ->type_name("CYCLE")
      ->capture_default_str();
  command->add_option("--mass", a.mass, "Mass per length, unloaded: \"61 g/m\"")->type_name("MASS");
  command->add_option("--strength", a.strength, "Breaking strength, new and straight: \"32 kN\"")->type_name("FORCE");
  command->add_option("--width", a.width, "Across the flat face: \"25 mm\"")->type_name("LENGTH");
  command->add_option("--thickness", a.thickness, "Across the edge: \"2.4 mm\"")->type_name("LENGTH");
  command->add_option("--wet-keeps", a.wet_keeps, "Share of the strength left when wet: \"95 %\"")->type_name("SHARE");
  return {command, [arguments] { return run(*arguments); }};
}

}  // namespace spanloom
