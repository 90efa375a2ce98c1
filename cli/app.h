// The one description of what `spanloom` takes; program, help, manual and completions are made from it.
#pragma once

#include <CLI/CLI.hpp>

#include <memory>
#include <vector>

#include "command.h"

namespace spanloom {

struct Program {
  std::unique_ptr<CLI::App> app;
  std::vector<Command> commands;  ///< in the order of the help
};

Program make_program();

}  // namespace spanloom
