#include "app.h"

#include "base/version.h"
#include "catch.h"
#include "completion.h"
#include "gauge.h"
#include "help_text.h"
#include "log.h"
#include "manual.h"
#include "page.h"
#include "plan.h"
#include "read.h"
#include "shake.h"
#include "space.h"
#include "survey.h"
#include "taping.h"
#include "tension.h"
#include "webbing.h"

namespace spanloom {

Program make_program() {
  auto app = std::make_unique<CLI::App>(
      "Plans highlines from one rig file: lengths, tension, tapes, sag, clearances, anchor loads;\n"
      "shakes them: how much of a shake comes back; finds where to tape so that little does;\n"
      "and lets the main fail and the walker fall: what drops how far, and what has to hold it.\n"
      "Before: survey, webbing, tension. On site: gauge. Afterwards: log.\n"
      "A planning aid, not a certificate: have the rig and the anchors checked by a competent rigger.\n"
      "Exit code 0; 1 a check says stop; 2 bad file or argument; 3 no proven result, or stopped; 4 an error of the\n"
      "program itself.",
      "spanloom");
  app->formatter(std::make_shared<HelpFormatter>());  // the commands below take it over
  app->set_help_flag("-h,--help", "Print this help and do nothing else");
  app->set_version_flag("--version", version(), "Print the version and do nothing else");
  app->require_subcommand(1);
  std::vector<Command> commands;
  for (const auto add : {add_plan_command, add_shake_command, add_catch_command, add_space_command, add_taping_command,
                         add_page_command, add_read_command, add_survey_command, add_webbing_command,
                         add_tension_command, add_gauge_command, add_log_command, add_manual_command,
                         add_completion_command}) {
    commands.push_back(add(*app));
  }
  return {std::move(app), std::move(commands)};
}

}  // namespace spanloom
