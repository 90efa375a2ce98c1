#include "survey.h"

#include <CLI/CLI.hpp>

#include <fmt/format.h>

#include <memory>
#include <utility>
#include <variant>

#include "base/input_error.h"
#include "files/csv.h"
#include "files/limits.h"
#include "files/rig_value_edit.h"
#include "files/survey_json.h"
#include "files/survey_positions.h"
#include "files/survey_toml.h"
#include "files/rig_file.h"
#include "option_values.h"
#include "report_options.h"
#include "sheet/survey_text.h"
#include "statics/gap_effect.h"

namespace spanloom {
namespace {

namespace fs = std::filesystem;

struct SurveyArguments {
  ReportOptions report;                  // file: the survey, "" if positions are given as options
  std::string near, far;                 // positions
  std::string near_name, far_name;       // of waypoints
  std::string sideways, horizontal_sd, height_sd;
  std::string ground;
  std::string rig;

  /// Options that only positions need; a survey file says the same inside.
  std::vector<std::pair<const char*, const std::string*>> of_positions() const {
    return {{"--near-name", &near_name}, {"--far-name", &far_name},   {"--sideways", &sideways},
            {"--horizontal-sd", &horizontal_sd}, {"--height-sd", &height_sd}, {"--ground", &ground}};
  }
};

std::string loaded(const fs::path& path, std::size_t most, const char* expected) {
  SideFile file = load_file(path, most);
  if (!file.text) throw FileError({{path.string(), {}, {"", "nothing", expected, file.why_not}}});
  return std::move(*file.text);
}

PositionOptions position_options(const SurveyArguments& arguments) {
  PositionOptions options;
  if (!arguments.near_name.empty()) options.names.near = arguments.near_name;
  if (!arguments.far_name.empty()) options.names.far = arguments.far_name;
  constexpr Wanted kSd{Quantity::length, "3 m"};
  OptionValues values;
  const auto sd = [&](const std::string& text, const char* option, Stated<double>& field) {
    if (const auto value = values.positive(option, text, kSd)) field = Stated<double>::given(*value);
  };
  sd(arguments.horizontal_sd, "--horizontal-sd", options.sd.horizontal);
  sd(arguments.height_sd, "--height-sd", options.sd.height);
  if (const auto value = values.positive("--sideways", arguments.sideways, kSd)) options.sideways = *value;
  values.demand_none();
  return options;
}

/// A survey, and how its later errors are placed.
struct Read {
  Survey survey;
  std::optional<SurveyFile> file;
};

Survey survey_of_positions(const SurveyArguments& arguments) {
  const GeoPoint near = parse_position(arguments.near, "--near"), far = parse_position(arguments.far, "--far");
  PositionSurvey positions = position_survey("the two anchors", near, far, {});
  if (std::optional<Problem> problem = problem_of_anchors(positions, "--far")) throw InputError({*problem});
  const PositionOptions options = position_options(arguments);
  positions.near_sd = positions.far_sd = options.sd;
  Survey survey;
  survey.title = "A gap between two positions";
  survey.positions.push_back(std::move(positions));
  return survey;
}

std::vector<GroundPoint> ground_of(const std::string& name) {
  Findings findings;
  CsvRows<GroundPoint> table = read_ground_csv(loaded(name, kLargestFile, "a ground table"), name, "ground", findings);
  for (std::size_t i = 1; i < table.rows.size(); ++i) {
    const double before = table.rows[i - 1].distance, here = table.rows[i].distance;
    if (here < before)
      findings.add(name, table.places[i],
                   {"ground", fmt::format("{:g} m after {:g} m", here, before), "rising distances", "sort the rows"});
  }
  if (!findings.empty()) throw FileError(findings.in_reading_order());
  return std::move(table.rows);
}

void refuse_position_options(const SurveyArguments& arguments) {
  for (const auto& [option, given] : arguments.of_positions()) {
    if (!given->empty()) {
      throw InputError(option, in_quotes(*given), "a survey that is a GPX file, or positions by --near and --far",
                       "write it into the survey file");
    }
  }
}

Read read_survey_of(const SurveyArguments& arguments) {
  const std::string& name = arguments.report.file;
  const bool by_positions = !arguments.near.empty() || !arguments.far.empty();
  if (name.empty() != by_positions) {
    throw InputError("survey", by_positions ? "a survey file, and positions" : "nothing",
                     "a survey file, or positions by --near and --far");
  }
  Read read;
  if (by_positions) {
    read.survey = survey_of_positions(arguments);
  } else {
    const std::string text = loaded(name, kLargestGpx, "a survey file");
    if (looks_like_xml(text)) {
      read.survey = survey_of_gpx(text, name, position_options(arguments));
    } else {
      refuse_position_options(arguments);
      const fs::path folder = fs::path(name).parent_path();
      const auto side = [&](const std::string& other) { return load_file(folder / other, kLargestGpx); };
      read.file = read_survey(text, name, side);
      read.survey = read.file->survey;
    }
  }
  if (!arguments.ground.empty()) read.survey.ground = ground_of(arguments.ground);
  return read;
}

SurveyReport report_of(const Read& read, UnitSystem units) {
  try {
    return survey_gap(read.survey, units);
  } catch (const InputError& error) {
    if (!read.file) throw;
    throw read.file->locate(error);
  }
}

/// The folder of results must not be one where files of the user's lie under the names that are written.
void refuse_own_folder(const fs::path& folder, const std::string& source) {
  if (source.empty()) return;
  std::error_code none;
  const fs::path home = fs::weakly_canonical(fs::absolute(source).parent_path(), none);
  if (fs::weakly_canonical(fs::absolute(folder), none) == home) {
    throw InputError("--out", in_quotes(folder.string()), "another folder than that of " + source,
                     "nothing of yours is written over");
  }
}

/// The rig file with gap, rise and ground of the survey, and the files that it names.
std::vector<OutputFile> rig_files(const RigSources& sources, const std::string& name, const SurveyReport& report) {
  if (report.ground.points.empty() && !sources.file.rig.site.ground.empty()) {
    print(stderr, name + ": its ground was measured for the gap it has, and none was measured now, so rig.toml is not written: measure "
                         "the ground, or take it out of the rig file\n");
    return {};
  }
  std::string text = with_value_written(sources.text, name, "site.gap", toml_length(report.found.gap));
  text = with_value_written(text, name, "site.rise", toml_length(report.found.rise));
  const bool ground = !report.ground.points.empty();
  if (ground) text = with_value_written(text, name, "site.ground", '"' + std::string(kGroundName) + '"');
  std::vector<OutputFile> files = {{"rig.toml", text}};
  for (const RigSources::Side& side : sources.side_files) {
    if (ground && side.name == kGroundName) continue;
    if (side.name.find('/') == std::string::npos) files.push_back({side.name, side.text});
    else
      print(stderr, fmt::format("{}: names \"{}\", which lies elsewhere: put it where it is found from rig.toml\n",
                                name, side.name));
  }
  return files;
}

std::optional<SurveyedRig> surveyed(const RigSources& sources, const SurveyReport& report, UnitSystem units) {
  // The rig's own ground is that of the gap it was written for.
  Rig rig = sources.file.rig;
  rig.site.ground = report.ground.points;
  try {
    return SurveyedRig{rig.title, effect_of_gap(rig, report.found, units)};
  } catch (const InputError& error) {
    throw sources.file.locate(error);
  }
}

Exit run(const SurveyArguments& arguments) {
  const ReportOptions& asked = arguments.report;
  const Read read = read_survey_of(arguments);
  std::optional<RigSources> sources;
  if (!arguments.rig.empty()) sources = read_rig_sources(arguments.rig);
  if (asked.folder) {
    refuse_own_folder(*asked.folder, asked.file);
    refuse_own_folder(*asked.folder, arguments.rig);
    refuse_own_folder(*asked.folder, arguments.ground);
    make_sure_of(*asked.folder);
  }
  const SurveyReport report = report_of(read, asked.unit_system());
  std::optional<SurveyedRig> rig;
  if (sources) rig = surveyed(*sources, report, asked.unit_system());
  const std::string json = survey_json(read.survey, report, rig);
  if (asked.folder) {
    std::vector<OutputFile> files = {{"site.toml", site_toml(report)}, {"survey.json", json}};
    if (!report.ground.points.empty()) files.push_back({kGroundName, ground_csv(report.ground)});
    if (sources && report.torn) {
      print(stderr, arguments.rig + ": the readings contradict each other, so rig.toml is not written\n");
    } else if (sources) {
      for (OutputFile& file : rig_files(*sources, arguments.rig, report)) files.push_back(std::move(file));
    }
    write_files(*asked.folder, files);
  }
  SheetInfo info = asked.sheet_info();
  if (info.file_name.empty()) info.file_name = "positions";
  print_result(asked.json ? json : survey_text(read.survey, report, rig, info));
  return report.torn ? Exit::stop : Exit::ok;
}

}  // namespace

Command add_survey_command(CLI::App& app) {
  const auto a = std::make_shared<SurveyArguments>();
  CLI::App* command = app.add_subcommand(
      "survey",
      "Gap, rise and ground from what was measured: a survey file (positions, laser readings), a GPX file with a "
      "waypoint\n"
      "at each anchor, or two positions; how well they are known, and what that does to a rig's lengths.\n"
      "Exit code 0; 1 readings contradict each other; 2 bad file or argument.");
  add_report_options(*command, a->report,
                     "site.toml, ground.csv, survey.json and, with --rig, rig.toml with the new gap");
  command->remove_option(command->get_option("RIG.toml"));
  command->add_option("SURVEY", a->report.file, "The survey file, TOML or GPX")->type_name("FILE");
  command->add_option("--near", a->near, "Near anchor: \"45.1234567 N, 7.1234567 E, 312 m\"")->type_name("POSITION");
  command->add_option("--far", a->far, "Far anchor, the same way")->type_name("POSITION");
  command->add_option("--near-name", a->near_name,
                      "Waypoint of a GPX file at the near anchor; \"near anchor\" if not given")->type_name("NAME");
  command->add_option("--far-name", a->far_name, "Waypoint at the far anchor; \"far anchor\" if not given")
      ->type_name("NAME");
  command->add_option("--horizontal-sd", a->horizontal_sd,
                      "Standard deviation of a position in any one direction: \"3 m\"")->type_name("LENGTH");
  command->add_option("--height-sd", a->height_sd, "The same of its height: \"5 m\"")->type_name("LENGTH");
  command->add_option("--sideways", a->sideways,
                      "Leave out points of the track farther than this from the line: \"5 m\"")->type_name("LENGTH");
  command->add_option("--ground", a->ground, "Ground table to use as it is, CSV")->type_name("FILE.csv");
  command->add_option("--rig", a->rig, "Rig file whose lengths and tension are worked out at this gap")
      ->type_name("FILE.toml");
  return {command, [a] { return run(*a); }};
}

}  // namespace spanloom
