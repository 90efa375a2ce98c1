#include "completion.h"

#include <CLI/CLI.hpp>

#include <memory>
#include <string>

#include "command_tree.h"
#include "completion_script.h"
#include "report_options.h"

namespace spanloom {

Command add_completion_command(CLI::App& app) {
  const auto shell = std::make_shared<std::string>();
  CLI::App* command = app.add_subcommand(
      "completion", "Print what makes a shell complete commands, options and files with the tab key. For the shell in use:\n"
                    "bash: source <(spanloom completion bash); zsh, after compinit: source <(spanloom completion zsh);\n"
                    "fish: spanloom completion fish | source. Exit code 0; 2 bad argument.");
  command->add_option("SHELL", *shell, "The shell")->required()->check(CLI::IsMember({"bash", "zsh", "fish"}));
  return {command, [shell, &app] {
            const CommandEntry top = command_tree(app);
            print_result(*shell == "bash" ? bash_completion(top) : *shell == "zsh" ? zsh_completion(top) : fish_completion(top));
            return Exit::ok;
          }};
}

}  // namespace spanloom
