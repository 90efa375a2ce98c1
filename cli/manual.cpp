#include "manual.h"

#include <CLI/CLI.hpp>

#include <memory>

#include "base/version.h"
#include "command_tree.h"
#include "commands_markdown.h"
#include "man_page.h"
#include "report_options.h"

namespace spanloom {

Command add_manual_command(CLI::App& app) {
  struct Options {
    bool markdown = false;
  };
  const auto options = std::make_shared<Options>();
  CLI::App* command = app.add_subcommand(
      "manual", "Print the manual: every command and option, as a page for man. Keep it as spanloom.1, then: man -l spanloom.1\n"
                "Exit code 0.");
  command->add_flag("--markdown", options->markdown, "As Markdown instead, without what the page for man says besides");
  return {command, [options, &app] {
            const CommandEntry top = command_tree(app);
            print_result(options->markdown ? commands_markdown(top) : man_page(top, version()));
            return Exit::ok;
          }};
}

}  // namespace spanloom
