#include "log.h"

#include <CLI/CLI.hpp>

#include <vector>

#include "log_options.h"

namespace spanloom {

Command add_log_command(CLI::App& app) {
  CLI::App* log = app.add_subcommand(
      "log",
      "Keep a record of webbing: what hung where and how long, falls, measured tensions, and the rules that you set "
      "for "
      "retiring it. One file, on this machine.\n"
      "Exit code 0; 1 a rule says stop; 2 bad file or argument, nothing was recorded; 3 a rig without a plan.");
  log->require_subcommand(1);
  std::vector<Command> commands;
  for (const auto add : {add_log_webbing, add_log_rig, add_log_hung, add_log_event, add_log_measured, add_log_rule,
                         add_log_retire, add_log_note, add_log_strike, add_log_show, add_log_list, add_log_export}) {
    commands.push_back(add(*log));
  }
  return {log, [commands] {
            for (const Command& command : commands) {
              if (command.app->parsed()) return command.run();
            }
            return Exit::bad_input;
          }};
}

}  // namespace spanloom
