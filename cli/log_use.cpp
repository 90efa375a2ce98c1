// `spanloom log hung`, `event` and `measured`: what webbing went through.
#include <CLI/CLI.hpp>

#include <fstream>
#include <iostream>
#include <memory>
#include <sstream>

#include <fmt/format.h>

#include "log_options.h"
#include "record/check_entry.h"
#include "record/gauge_result.h"

namespace spanloom {
namespace {

constexpr int kMostDays = 36500;

/// Options of entries about webbings, named or of a rig.
struct AboutOptions : LogOptions {
  std::vector<std::string> pieces;
  std::optional<std::string> rig;
};

void add_about(CLI::App& command, AboutOptions& options) {
  command.add_option("PIECE", options.pieces, "Webbings of the record; those of the rig if none is named");
  command.add_option("--rig", options.rig, "A rig of the record: number of its entry, or its title")->type_name("RIG");
  add_log_options(command, options);
}

const Entry* rig_of(const AboutOptions& options, const Record& record) {
  return options.rig ? &rig_called(*options.rig, record, "--rig") : nullptr;
}

struct HungOptions : AboutOptions {
  std::optional<std::string> from, to, sun, tension;
  std::optional<int> days;
  int wet_days = 0;
};

/// Two of first day, last day and number of days; or the number alone.
void take_days(const HungOptions& options, Arguments& arguments, TimeHung& hung) {
  const auto from = arguments.day("--from", options.from), to = arguments.day("--to", options.to);
  const int given = int(options.from.has_value()) + int(options.to.has_value()) + int(options.days.has_value());
  const char* const kCure = "two of --from, --to and --days; or --days alone where the days are not known";
  if (given == 3)
    return arguments.add("--days", std::to_string(*options.days), "nothing beside --from and --to", kCure);
  if (given == 0 || (given == 1 && !options.days)) return arguments.add("--days", "nothing", "how long it hung", kCure);
  const std::chrono::days more(options.days.value_or(1) - 1);
  if (from && to) hung.range = DayRange{*from, *to};
  if (from && options.days) hung.range = DayRange{*from, *from + more};
  if (to && options.days) hung.range = DayRange{*to - more, *to};
  hung.days = hung.range ? days_from_to(hung.range->from, hung.range->to) : options.days.value_or(0);
}

Exit run(const HungOptions& options) {
  Arguments arguments;
  Entry entry = blank_entry(options, arguments);
  TimeHung hung;
  take_days(options, arguments, hung);
  hung.sun = arguments.quantity("--sun", options.sun, {Quantity::duration, "18 h"}).value_or(0.0);
  hung.wet_days = options.wet_days;
  hung.tension = arguments.positive("--tension", options.tension, kForce);
  arguments.done();
  if (hung.range && !options.date) entry.day = hung.range->to;
  entry.detail = hung;
  return add_entries(options, [&](const Record& record) {
    Entry whole = entry;
    const Entry* rig = rig_of(options, record);
    if (rig != nullptr) whole.rig = rig->number;
    whole.webbings = webbings_named(options.pieces, rig, record);
    return std::vector{whole};
  });
}

struct EventOptions : AboutOptions {
  std::string what;
  std::optional<std::string> force;
};

/// A leash fall is caught by the main; when the main fails both take part.
std::vector<EntryWebbing> webbings_of_event(const EventOptions& options, EventKind what, const Entry* rig,
                                            const Record& record) {
  std::vector<EntryWebbing> all = webbings_named(options.pieces, rig, record);
  if (what != EventKind::leash_fall || !options.pieces.empty()) return all;
  std::vector<EntryWebbing> main;
  for (const EntryWebbing& link : rig->webbings) {
    if (link.role == Role::main) main.push_back({link.webbing, std::nullopt});
  }
  return main.empty() ? all : main;
}

Exit run(const EventOptions& options) {
  Arguments arguments;
  Entry entry = blank_entry(options, arguments);
  LoggedEvent event;
  event.what = options.what == "leash-fall"     ? EventKind::leash_fall
               : options.what == "main-failure" ? EventKind::main_failure
                                                : EventKind::other;
  event.force = arguments.positive("--force", options.force, kForce);
  if (event.what == EventKind::other && options.words.empty())
    arguments.add("--words", "nothing", "what happened", "say it in a sentence");
  arguments.done();
  entry.detail = event;
  return add_entries(options, [&](const Record& record) {
    Entry whole = entry;
    const Entry* rig = rig_of(options, record);
    if (rig != nullptr) whole.rig = rig->number;
    whole.webbings = webbings_of_event(options, event.what, rig, record);
    return std::vector{whole};
  });
}

struct MeasuredOptions : LogOptions {
  std::string result, rig;
};

std::string text_of_result(const std::string& name) {
  std::ostringstream text;
  if (name == "-") {
    text << std::cin.rdbuf();
    return std::move(text).str();
  }
  std::ifstream stream(name, std::ios::binary);
  if (!stream || !(text << stream.rdbuf()))
    throw InputError("RESULT.json", '"' + name + '"', "a file that can be read",
                     "give its name, or - for standard input");
  return std::move(text).str();
}

Exit run(const MeasuredOptions& options) {
  Arguments arguments;
  Entry entry = blank_entry(options, arguments);
  arguments.done();
  entry.detail =
      read_gauge_result(text_of_result(options.result), options.result == "-" ? "standard input" : options.result);
  return add_entries(options, [&](const Record& record) {
    Entry whole = entry;
    const Entry& rig = rig_called(options.rig, record, "--rig");
    whole.rig = rig.number;
    for (const EntryWebbing& link : rig.webbings) {
      if (link.role == Role::main) whole.webbings.push_back({link.webbing, std::nullopt});
    }
    return std::vector{whole};
  });
}

}  // namespace

Command add_log_hung(CLI::App& log) {
  const auto options = std::make_shared<HungOptions>();
  CLI::App* command =
      log.add_subcommand("hung", "Log how long webbing hung: days, hours of sun, wet days, greatest tension.");
  command->add_option("--from", options->from, "First day it hung, YYYY-MM-DD")->type_name("DAY");
  command->add_option("--to", options->to, "Last day it hung, YYYY-MM-DD")->type_name("DAY");
  command->add_option("--days", options->days, "How many days it hung, first and last counted")
      ->check(CLI::Range(1, kMostDays));
  command->add_option("--sun", options->sun, "Sun it had in this time: \"18 h\", \"0 h\" if none")
      ->type_name("HOURS")->required();
  command->add_option("--wet-days", options->wet_days, "On how many of these days it was wet")
      ->check(CLI::Range(0, kMostDays))
      ->required();
  command->add_option("--tension", options->tension,
                      "Greatest tension it held, walkers included, if known: \"4.5 kN\"")->type_name("FORCE");
  add_about(*command, *options);
  return {command, [options] { return run(*options); }};
}

Command add_log_event(CLI::App& log) {
  const auto options = std::make_shared<EventOptions>();
  CLI::App* command =
      log.add_subcommand("event", "Log a leash fall, a main failure or something else that webbing went through.");
  command->add_option("WHAT", options->what, "What happened; leash falls and main failures count as falls caught")
      ->check(CLI::IsMember({"leash-fall", "main-failure", "other"}))
      ->required();
  command->add_option("--force", options->force, "Greatest force on the webbings named, if known: \"6 kN\"")
      ->type_name("FORCE");
  add_about(*command, *options);
  return {command, [options] { return run(*options); }};
}

Command add_log_measured(CLI::App& log) {
  const auto options = std::make_shared<MeasuredOptions>();
  CLI::App* command =
      log.add_subcommand("measured", "Keep a tension that was gauged on a rig, as `spanloom gauge --json` printed it.");
  command->add_option("RESULT.json", options->result, "What it printed; - for standard input")->required();
  command->add_option("--rig", options->rig, "A rig of the record: number of its entry, or its title")
      ->type_name("RIG")->required();
  add_log_options(*command, *options);
  return {command, [options] { return run(*options); }};
}

}  // namespace spanloom
