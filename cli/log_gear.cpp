// `spanloom log webbing` and `spanloom log rig`: what there is, and where it was rigged.
#include <CLI/CLI.hpp>

#include <algorithm>
#include <memory>

#include "log_options.h"
#include "record/check_entry.h"
#include "report_options.h"

namespace spanloom {
namespace {

struct WebbingOptions : LogOptions {
  std::string name, kind;
  std::optional<std::string> length, strength, new_on;
};

Exit run(const WebbingOptions& options) {
  Arguments arguments;
  Entry entry = blank_entry(options, arguments);
  entry.detail = LoggedWebbing{options.name, options.kind, arguments.positive("--length", options.length, kLength),
                               arguments.positive("--strength", options.strength, {Quantity::force, "28 kN"}),
                               arguments.day("--new", options.new_on)};
  arguments.done();
  return add_entries(options, [&](const Record&) { return std::vector{entry}; });
}

struct RigOptions : LogOptions {
  std::string rig, place;
  std::vector<std::string> main, backup;
};

LoggedRig logged(const RigSources& sources, const Plan& plan, const std::string& place) {
  LoggedRig rig{
      sources.file.rig.title,    place, sources.text, {}, sources.file.rig.site.gap, plan.standing.tension_near,
      plan.standing.tension_far, 0.0};
  for (const RigSources::Side& side : sources.side_files) rig.side_files.push_back({side.name, side.text});
  for (const WalkerPlace& at : plan.walker) rig.walker_tension_max = std::max(rig.walker_tension_max, at.tension_max);
  return rig;
}

void add_role(Entry& entry, const std::vector<std::string>& pieces, Role role, const Record& record) {
  for (const std::string& name : pieces) {
    const std::string key = role == Role::main ? "--main" : "--backup";
    const EntryNumber number = webbing_called(name, record, key).number;
    if (names(entry, number)) throw InputError(key, '"' + name + '"', "each piece once, as main or as backup");
    entry.webbings.push_back({number, role});
  }
}

Exit run(const RigOptions& options) {
  Arguments arguments;
  Entry entry = blank_entry(options, arguments);
  arguments.done();
  const RigSources sources = read_rig_sources(options.rig);
  const PlanOutcome outcome = plan_of(sources.file, options.unit_system());
  if (!outcome.plan) {
    print(stderr, options.rig + ": no plan, nothing was recorded: " + outcome.failure->words + "\n");
    return Exit::no_certificate;
  }
  entry.detail = logged(sources, *outcome.plan, options.place);
  return add_entries(options, [&](const Record& record) {
    Entry whole = entry;
    add_role(whole, options.main, Role::main, record);
    add_role(whole, options.backup, Role::backup, record);
    return std::vector{whole};
  });
}

}  // namespace

Command add_log_webbing(CLI::App& log) {
  const auto options = std::make_shared<WebbingOptions>();
  CLI::App* command =
      log.add_subcommand("webbing", "Add a piece of webbing to the record: its name, kind, length, strength, age.");
  command->add_option("NAME", options->name, "What the piece is marked with")->required();
  command->add_option("--kind", options->kind, "What kind of webbing it is; rules may go by it")
      ->type_name("KIND")->required();
  command->add_option("--length", options->length, "Its length: \"60 m\"")->type_name("LENGTH");
  command->add_option("--strength", options->strength, "Breaking strength when new, by its maker: \"28 kN\"")
      ->type_name("FORCE");
  command->add_option("--new", options->new_on, "Day from which the maker counts its age, YYYY-MM-DD")
      ->type_name("DAY");
  add_log_options(*command, *options);
  return {command, [options] { return run(*options); }};
}

Command add_log_rig(CLI::App& log) {
  const auto options = std::make_shared<RigOptions>();
  CLI::App* command =
      log.add_subcommand("rig", "Keep a rig that was rigged: its files, what its plan says, which pieces hang in it.");
  command->add_option("RIG.toml", options->rig, "The rig file")->type_name("FILE.toml")->required();
  command->add_option("--main", options->main, "A piece of the record that hangs as main; may be given again")
      ->type_name("PIECE")
      ->allow_extra_args(false);
  command->add_option("--backup", options->backup, "A piece of the record that hangs as backup; may be given again")
      ->type_name("PIECE")
      ->allow_extra_args(false);
  command->add_option("--place", options->place, "Where it was rigged")->type_name("WORDS");
  add_log_options(*command, *options);
  return {command, [options] { return run(*options); }};
}

}  // namespace spanloom
